//! A hundred thousand histories of two tabs over a store that errs: whatever happens, what was kept is there.
//!
//! Each history is told by its seed alone, which a failure prints.

use std::cell::RefCell;
use std::rc::Rc;

use taperwright::keep::shelf::Document;

use crate::chance::Chance;
use crate::flaky::{Fault, Flaky, Texts, half};
use crate::slip::Slip;
use crate::world::{Act, Facts, Known, Tab, check, onlooker, words_of};

/// How many histories are lived through.
const HISTORIES: u64 = 100_000;

struct World {
    chance: Chance,
    store: Flaky,
    tabs: [Rc<RefCell<Tab>>; 2],
    known: Known,
    /// What happened, to be told on failure.
    story: Vec<String>,
    /// Keys whose texts were damaged.
    damaged: Vec<String>,
}

impl World {
    fn new(seed: u64) -> Self {
        let store = Flaky::new();
        let mut chance = Chance::of(seed);
        let known = Known::default();
        let order = pick(&mut chance, 2) as u64;
        let tab = |writer| Rc::new(RefCell::new(Tab::new(store.other(), writer)));
        let tabs = [tab(10 + order), tab(11 - order)];
        furnish(&store, &mut known.borrow_mut(), &mut chance);
        Self {
            chance,
            store,
            tabs,
            known,
            story: Vec::new(),
            damaged: Vec::new(),
        }
    }

    fn live(&mut self) {
        for _ in 0..2 + pick(&mut self.chance, 10) {
            if pick(&mut self.chance, 14) == 0 {
                self.damage();
            } else {
                self.step();
            }
        }
    }

    fn step(&mut self) {
        let which = pick(&mut self.chance, 2);
        let act = act(&mut self.chance);
        let tab = self.tabs[which].clone();
        let store = tab.borrow().store.clone();
        // What the maker does on purpose is told apart from what goes wrong by reading well.
        let is_deletion = matches!(act, Act::DeleteForGood(_) | Act::EmptyBin);
        let mut told = vec![format!("tab {which}: {act:?}")];
        if pick(&mut self.chance, 3) == 0 {
            let faults = if is_deletion {
                &Fault::ALL[..5]
            } else {
                &Fault::ALL[..]
            };
            let fault = faults[pick(&mut self.chance, faults.len())];
            let after = pick(&mut self.chance, 12);
            store.err(fault, after);
            told.push(format!("{fault:?} after {after}"));
        }
        if pick(&mut self.chance, 3) == 0 {
            told.push(self.meanwhile(which, &store));
        }
        if pick(&mut self.chance, 6) == 0 {
            let room = self.store.size() + pick(&mut self.chance, 300);
            self.store.quota.set(room);
            told.push(format!("room for {room}"));
        }
        self.story.push(told.join(", "));
        tab.borrow_mut().act(act, &self.known);
        store.heal();
        self.store.quota.set(usize::MAX);
    }

    /// The other tab does something in the midst of what this one does, perhaps unseen by this one.
    fn meanwhile(&mut self, which: usize, store: &Flaky) -> String {
        let (other, known) = (self.tabs[1 - which].clone(), self.known.clone());
        let before = pick(&mut self.chance, 14);
        let acts: Vec<Act> = (0..=pick(&mut self.chance, 2))
            .map(|_| act(&mut self.chance))
            .collect();
        let is_unseen = pick(&mut self.chance, 2) == 0;
        let told = format!("before call {before} the other (unseen: {is_unseen}): {acts:?}");
        if is_unseen {
            store.lag();
        }
        let what = move || {
            for act in acts {
                other.borrow_mut().act(act, &known);
            }
        };
        store.meanwhile(before, Box::new(what));
        told
    }

    /// One text of a history that has two is lost or altered where it lies.
    fn damage(&mut self) {
        let entries = onlooker(&self.store).list::<Slip>().expect("all is well");
        let untangled: Vec<u32> = entries
            .iter()
            .filter(|it| !it.is_tangled)
            .map(|it| it.number)
            .collect();
        let Some(&number) = untangled.get(pick(&mut self.chance, untangled.len().max(1))) else {
            return;
        };
        let sound = self.sound_keys(number);
        let (Some(before), true) = (words_of(&self.store, number), sound.len() >= 2) else {
            return;
        };
        let key = sound[pick(&mut self.chance, sound.len())].clone();
        let how = pick(&mut self.chance, 3);
        self.story.push(format!("damage {how} to {key}"));
        self.spoil(&key, how);
        let after = words_of(&self.store, number);
        let after =
            after.unwrap_or_else(|| panic!("nothing is left of {before}.\n{:#?}", self.story));
        let mut facts = self.known.borrow_mut();
        assert!(
            facts.comes_from(&before, &after),
            "{before} fell back to {after}"
        );
        if before != after {
            facts.fall_back(&before, &after);
        }
    }

    fn sound_keys(&self, number: u32) -> Vec<String> {
        let states = format!("{}{number}/", Slip::PREFIX);
        let texts = self.store.texts.borrow();
        let foreign = &self.known.borrow().foreign;
        let ours = texts.keys().filter(|key| key.starts_with(&states));
        ours.filter(|key| !self.damaged.contains(key) && !foreign.contains_key(*key))
            .cloned()
            .collect()
    }

    fn spoil(&mut self, key: &str, how: usize) {
        let mut texts = self.store.texts.borrow_mut();
        let text = texts.remove(key).unwrap_or_default();
        let spoilt = match how {
            0 => return,
            1 => half(&text).to_owned(),
            _ => text.replacen(['0', 'w', ' '], "~", 3),
        };
        texts.insert(key.to_owned(), spoilt.clone());
        self.damaged.push(key.to_owned());
        self.known
            .borrow_mut()
            .foreign
            .insert(key.to_owned(), spoilt);
    }
}

/// What is in the store when a history begins: slips of an earlier visit, texts nobody can read, one of a newer version, a file
/// that an unreleased version kept, and keys that are somebody else's.
fn furnish(store: &Flaky, facts: &mut Facts, chance: &mut Chance) {
    let key = |rest: &str| format!("{}{rest}", Slip::PREFIX);
    for number in 1..=pick(chance, 3) as u64 {
        facts.keep_first(store, number);
    }
    let mut texts = store.texts.borrow_mut();
    let foreign = [
        (key("2"), "slip 1 3\nplain\nold"),
        (key("4/1-000000000000000c-00000000"), "half a sl"),
        (key("5"), "slip 2 3\nnewer\nnew"),
        (
            key("6/3-000000000000000c-00000000"),
            "taperwright kept 2\nwhat is this",
        ),
        (key("07"), "not ours"),
        (key("1/x"), "not ours either"),
        ("somebody/else".to_owned(), "theirs"),
    ];
    let foreign: Texts = foreign
        .map(|(key, text)| (key, text.to_owned()))
        .into_iter()
        .collect();
    let some: Texts = foreign
        .into_iter()
        .filter(|_| pick(chance, 3) == 0)
        .collect();
    texts.extend(some.clone());
    facts.foreign = some;
}

fn pick(chance: &mut Chance, count: usize) -> usize {
    // A share of a small count is a small whole number.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let picked = (chance.uniform() * count as f64) as usize;
    picked.min(count.saturating_sub(1))
}

fn act(chance: &mut Chance) -> Act {
    let choice = pick(chance, 5);
    match pick(chance, 20) {
        0..=7 => Act::Edit,
        8 | 9 => Act::New,
        10 | 11 => Act::Open(choice),
        12 | 13 => Act::CatchUp,
        14 => Act::Delete(choice),
        15 => Act::Restore(choice),
        16 => [Act::EmptyBin, Act::DeleteForGood(choice)][pick(chance, 2)],
        17 | 18 => Act::Settle,
        _ => Act::Reload,
    }
}

fn live_through(seed: u64) {
    let mut world = World::new(seed);
    world.live();
    let World {
        store,
        known,
        story,
        ..
    } = &world;
    check(store, known, &|| {
        format!("seed {seed}: {story:#?}\n{:#?}", store.texts.borrow())
    });
}

#[test]
fn whatever_happens_what_was_kept_is_there() {
    let share = |first: u64| move || (first..HISTORIES).step_by(2).for_each(live_through);
    std::thread::scope(|scope| {
        scope.spawn(share(0));
        share(1)();
    });
}
