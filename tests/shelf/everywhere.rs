//! One story, with every fault at every call, with every room there can be, and with the other tab coming in everywhere.

use std::cell::RefCell;
use std::rc::Rc;

use taperwright::shelf::Work;

use crate::flaky::{Fault, Flaky};
use crate::slip::Slip;
use crate::world::{Act, Known, Tab, check};

const STORY: [Act; 12] = [
    Act::New,
    Act::Edit,
    Act::Edit,
    Act::New,
    Act::Edit,
    Act::Delete(0),
    Act::Restore(0),
    Act::Open(0),
    Act::Edit,
    Act::Settle,
    Act::Delete(2),
    Act::Edit,
];

fn begin(known: &Known) -> Flaky {
    let store = Flaky::new();
    let mut facts = known.borrow_mut();
    let words = facts.new_words(None);
    facts.alive.insert(words.clone());
    let key = |rest: &str| format!("{}{rest}", Slip::PREFIX);
    facts.foreign.insert(key("9"), "half a sl".to_owned());
    let mut texts = store.texts.borrow_mut();
    texts.extend(facts.foreign.clone());
    texts.insert(key("1"), Slip::of(&words).write());
    drop(texts);
    store
}

/// Lives through the story, with something set up before each act.
fn tell(setting_up: &dyn Fn(usize, &Flaky, &Flaky, &Known)) -> (Flaky, Known) {
    let known = Known::default();
    let store = begin(&known);
    let mut tab = Tab::new(store.other(), 10);
    for (turn, act) in STORY.into_iter().enumerate() {
        setting_up(turn, &store, &tab.store, &known);
        tab.act(act, &known);
        tab.store.heal();
    }
    (store, known)
}

#[test]
fn every_fault_at_every_call() {
    for fault in Fault::ALL {
        for turn in 0..STORY.len() {
            for after in 0..24 {
                let (store, known) = tell(&|now, _, view, _| {
                    if now == turn {
                        view.err(fault, after);
                    }
                });
                check(&store, &known, &|| {
                    format!("{fault:?} at turn {turn} after {after}")
                });
            }
        }
    }
}

/// A store that stays broken from some call on.
#[test]
fn every_fault_from_some_turn_on() {
    for fault in Fault::ALL {
        for turn in 0..STORY.len() {
            let (store, known) = tell(&|now, _, view, _| {
                if now >= turn {
                    view.err(fault, 0);
                }
            });
            check(&store, &known, &|| format!("{fault:?} from turn {turn} on"));
        }
    }
}

#[test]
fn every_room_there_can_be() {
    let (whole, _) = tell(&|_, _, _, _| ());
    for room in 0..whole.size() + 400 {
        let (store, known) = tell(&|_, store, _, _| store.quota.set(room));
        check(&store, &known, &|| format!("room for {room}"));
    }
}

#[test]
fn another_tab_at_every_call() {
    let acts = [
        Act::Edit,
        Act::New,
        Act::Settle,
        Act::Delete(0),
        Act::Reload,
    ];
    for is_unseen in [false, true] {
        for turn in 0..STORY.len() {
            for before in 0..24 {
                for first in acts {
                    let (store, known) = tell(&|now, store, view, known| {
                        if now == turn {
                            come_in(first, before, is_unseen, (store, view), known);
                        }
                    });
                    check(&store, &known, &|| {
                        format!(
                            "{first:?} at turn {turn} before call {before}, unseen: {is_unseen}"
                        )
                    });
                }
            }
        }
    }
}

fn come_in(first: Act, before: usize, is_unseen: bool, stores: (&Flaky, &Flaky), known: &Known) {
    let (store, view) = stores;
    let other = Rc::new(RefCell::new(Tab::new(store.other(), 11)));
    other.borrow_mut().act(Act::Open(0), known);
    if is_unseen {
        view.lag();
    }
    let known = known.clone();
    let what = move || {
        for act in [first, Act::Edit] {
            other.borrow_mut().act(act, &known);
        }
    };
    view.meanwhile(before, false, Box::new(what));
}
