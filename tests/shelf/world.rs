//! A world of two tabs over one store, and what is known of what was kept in it.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use taperwright::keep::shelf::{Id, Lookup, News, SeenRevision, Shelf, Writer};

use crate::flaky::{Flaky, Texts};
use crate::slip::Slip;

/// What a tab does. Numbers choose among what there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Act {
    New,
    Edit,
    CatchUp,
    Open(usize),
    Delete(usize),
    Restore(usize),
    EmptyBin,
    DeleteForGood(usize),
    Settle,
    Reload,
}

/// What is known of everything ever written.
#[derive(Debug, Default)]
pub(crate) struct Facts {
    count: usize,
    /// Words kept for certain, not followed by others, not deleted: they must be there at the end.
    pub(crate) alive: BTreeSet<String>,
    /// All words ever tried, each with those they were made from.
    pub(crate) made_from: BTreeMap<String, Option<String>>,
    /// Words kept for certain.
    committed: BTreeSet<String>,
    /// Words followed by others, or taken away for good: perhaps before the tab that wrote them heard that they were kept.
    passed: BTreeSet<String>,
    /// Texts nobody may touch.
    pub(crate) foreign: Texts,
}

pub(crate) type Known = Rc<RefCell<Facts>>;

impl Facts {
    pub(crate) fn new_words(&mut self, made_from: Option<&str>) -> String {
        self.count += 1;
        let words = format!("w{} {}", self.count, "x".repeat(self.count * 7 % 40));
        let from = made_from.map(ToOwned::to_owned);
        self.made_from.insert(words.clone(), from);
        words
    }

    /// Keeps a slip with new words, as an earlier visit did.
    pub(crate) fn keep_first(&mut self, store: &Flaky, id: u64) {
        let words = self.new_words(None);
        let kept = onlooker(store).keep_new(Id(id), &Slip::of(&words), None);
        kept.expect("all is well");
        self.commit(&words);
    }

    fn commit(&mut self, words: &str) {
        if !self.passed.contains(words) {
            self.alive.insert(words.to_owned());
        }
        self.committed.insert(words.to_owned());
    }

    /// Words and all they were made from are followed by something newer, or deleted.
    fn let_go(&mut self, words: Option<&str>) {
        let mut next = words.map(ToOwned::to_owned);
        while let Some(words) = next {
            self.alive.remove(&words);
            self.passed.insert(words.clone());
            next = self.made_from.get(&words).cloned().flatten();
        }
    }

    /// Whether words are there: themselves, or what somebody tried to make of them and was told had failed.
    pub(crate) fn is_there(&self, words: &str, heads: &BTreeSet<String>) -> bool {
        heads.iter().any(|head| {
            let mut at = Some(head.clone());
            while let Some(now) = at {
                if now == words {
                    return true;
                }
                // What was kept for certain followed in earnest, and is asked for by itself.
                if self.committed.contains(&now) {
                    return false;
                }
                at = self.made_from.get(&now).cloned().flatten();
            }
            false
        })
    }

    /// Whether one's words are those the other's were made from, however far back.
    pub(crate) fn comes_from(&self, words: &str, older: &str) -> bool {
        let mut at = Some(words.to_owned());
        while let Some(now) = at {
            if now == older {
                return true;
            }
            at = self.made_from.get(&now).cloned().flatten();
        }
        false
    }

    /// The newest words were lost to a damage: those before count from now on.
    pub(crate) fn fall_back(&mut self, newest: &str, older: &str) {
        self.let_go(Some(newest));
        self.passed.remove(older);
        self.commit(older);
    }
}

/// A tab: its store, its name, and what lies on its bench.
pub(crate) struct Tab {
    pub(crate) store: Flaky,
    pub(crate) writer: u64,
    bench: Option<(SeenRevision, Slip)>,
    /// The words of what was seen: those on the bench are newer where they could not be kept.
    seen_words: String,
    drawn: u64,
}

/// A look at the store as it is, by nobody.
pub(crate) fn onlooker(store: &Flaky) -> Shelf<Flaky> {
    Shelf::load(store.other(), Writer(u64::MAX)).expect("all is well with this view")
}

pub(crate) fn words_of(store: &Flaky, number: u32) -> Option<String> {
    match onlooker(store).look::<Slip>(number) {
        Lookup::Kept(kept) => Some(kept.work.words),
        _ => None,
    }
}

impl Tab {
    pub(crate) fn new(store: Flaky, writer: u64) -> Self {
        Self {
            store,
            writer,
            bench: None,
            seen_words: String::new(),
            drawn: 0,
        }
    }

    fn shelf(&self) -> Option<Shelf<Flaky>> {
        Shelf::load(self.store.clone(), Writer(self.writer)).ok()
    }

    /// Numbers of what the tab can list, the one chosen among them.
    fn chosen(shelf: &Shelf<Flaky>, choice: usize) -> Option<(u32, Option<SeenRevision>)> {
        let entries = shelf.list::<Slip>().ok()?;
        let entry = entries.get(choice % entries.len().max(1))?;
        Some((entry.number, entry.seen))
    }

    pub(crate) fn act(&mut self, act: Act, known: &Known) {
        if act == Act::Reload {
            self.writer += 2;
            self.bench = None;
        }
        let Some(mut shelf) = self.shelf() else {
            return;
        };
        match act {
            Act::New => self.make_new(&mut shelf, known),
            Act::Edit => self.edit(&mut shelf, known),
            Act::CatchUp => self.catch_up(&shelf),
            Act::Open(choice) => {
                if let Some((number, _)) = Self::chosen(&shelf, choice) {
                    self.open(&shelf, number);
                }
            }
            Act::Delete(choice) => {
                if let Some((_, Some(seen))) = Self::chosen(&shelf, choice) {
                    let _ = shelf.delete::<Slip>(&seen, None);
                }
            }
            Act::Restore(choice) => {
                if let Some((number, _)) = Self::chosen(&shelf, choice) {
                    let _ = shelf.restore::<Slip>(number);
                }
            }
            Act::EmptyBin => self.empty_bin(&mut shelf, known),
            Act::DeleteForGood(choice) => {
                if let Some((_, Some(seen))) = Self::chosen(&shelf, choice) {
                    self.delete_for_good(&mut shelf, &seen, known);
                }
            }
            Act::Settle => settle_all(&mut shelf),
            Act::Reload => {
                if let Lookup::Kept(kept) = shelf.to_open::<Slip>() {
                    self.lay(kept.seen, kept.work);
                }
            }
        }
    }

    fn lay(&mut self, seen: SeenRevision, work: Slip) {
        self.seen_words.clone_from(&work.words);
        self.bench = Some((seen, work));
    }

    fn open(&mut self, shelf: &Shelf<Flaky>, number: u32) {
        if let Lookup::Kept(kept) = shelf.look::<Slip>(number) {
            self.lay(kept.seen, kept.work);
        }
    }

    fn make_new(&mut self, shelf: &mut Shelf<Flaky>, known: &Known) {
        let slip = Slip::of(&known.borrow_mut().new_words(None));
        self.drawn += 1;
        let id = Id(self.writer << 32 | self.drawn);
        if let Ok(kept) = shelf.keep_new(id, &slip, None) {
            known.borrow_mut().commit(&slip.words);
            self.lay(kept.seen, kept.work);
        }
    }

    fn edit(&mut self, shelf: &mut Shelf<Flaky>, known: &Known) {
        let Some((seen, before)) = self.bench.clone() else {
            return self.make_new(shelf, known);
        };
        let words = known.borrow_mut().new_words(Some(&before.words));
        let slip = Slip {
            words: words.clone(),
            ..before.clone()
        };
        let Ok(keeping) = shelf.keep(&seen, &slip, None) else {
            // The tab goes on with what it has; some of it may have been kept.
            self.bench = Some((seen, slip));
            return;
        };
        let is_head = words_of(&self.store, seen.number()).as_ref() == Some(&self.seen_words);
        let mut facts = known.borrow_mut();
        if keeping.parted.is_none() {
            facts.let_go(Some(&before.words));
        } else {
            // What was seen had lost its place to another tab's: the copy follows it now.
            let followed = (!is_head).then(|| self.seen_words.clone());
            if let Some(followed) = &followed {
                facts.alive.remove(followed);
            }
            facts.made_from.insert(words.clone(), followed);
        }
        assert_eq!(keeping.kept.work.words, words);
        facts.commit(&words);
        drop(facts);
        self.lay(keeping.kept.seen, keeping.kept.work);
    }

    fn catch_up(&mut self, shelf: &Shelf<Flaky>) {
        let Some((seen, _)) = &self.bench else { return };
        if let Ok(News::Changed(kept) | News::Moved(kept)) = shelf.news::<Slip>(seen) {
            self.lay(kept.seen, kept.work);
        }
    }

    fn empty_bin(&self, shelf: &mut Shelf<Flaky>, known: &Known) {
        let entries = shelf.list::<Slip>().unwrap_or_default();
        let binned = entries.iter().filter(|entry| entry.is_binned);
        let seen: Vec<SeenRevision> = binned.filter_map(|entry| entry.seen).collect();
        let numbers = seen.iter().map(SeenRevision::number);
        let gone: Vec<_> = numbers
            .filter_map(|number| words_of(&self.store, number))
            .collect();
        let _ = shelf.empty_bin::<Slip>(&seen);
        let mut facts = known.borrow_mut();
        for words in &gone {
            facts.let_go(Some(words));
        }
    }

    fn delete_for_good(&self, shelf: &mut Shelf<Flaky>, seen: &SeenRevision, known: &Known) {
        let before = words_of(&self.store, seen.number());
        if shelf.delete_for_good::<Slip>(seen) != Ok(false) {
            known.borrow_mut().let_go(before.as_deref());
        }
    }
}

pub(crate) fn settle_all(shelf: &mut Shelf<Flaky>) {
    for entry in shelf.list::<Slip>().unwrap_or_default() {
        if entry.is_tangled {
            let _ = shelf.settle::<Slip>(entry.number);
        }
    }
}

/// The words of what can be opened once all is settled.
pub(crate) fn heads(store: &Flaky) -> BTreeSet<String> {
    let mut shelf = onlooker(store);
    let mut entries = shelf.list::<Slip>().expect("all is well");
    let mut rounds = 0;
    while entries.iter().any(|entry| entry.is_tangled) {
        settle_all(&mut shelf);
        entries = shelf.list::<Slip>().expect("all is well");
        rounds += 1;
        assert!(rounds < 6, "it never settles: {:?}", store.texts);
    }
    let numbers = entries.iter().map(|entry| entry.number);
    numbers
        .filter_map(|number| words_of(store, number))
        .collect()
}

/// What must hold whatever happened.
#[track_caller]
pub(crate) fn check(store: &Flaky, known: &Known, story: &dyn Fn() -> String) {
    store.heal();
    store.quota.set(usize::MAX);
    let heads = heads(store);
    let facts = known.borrow();
    for words in &facts.alive {
        assert!(
            facts.is_there(words, &heads),
            "{words} is lost.\n{heads:?}\n{}",
            story()
        );
    }
    for words in &heads {
        assert!(
            facts.made_from.contains_key(words),
            "{words} was never written.\n{}",
            story()
        );
    }
    let texts = store.texts.borrow();
    for (key, text) in &facts.foreign {
        assert_eq!(
            texts.get(key),
            Some(text),
            "{key} was touched.\n{}",
            story()
        );
    }
}
