//! One story, with every fault at every call, with every room there can be, and with the other tab coming in everywhere.

use std::cell::RefCell;
use std::rc::Rc;

use taperwright::keep::shelf::{Document, Id, Shelf, Writer};

use crate::flaky::{Fault, Flaky};
use crate::slip::Slip;
use crate::world::{Act, Known, Tab, check, words_of};

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
    facts.keep_first(&store, 1);
    let key = |rest: &str| format!("{}{rest}", Slip::PREFIX);
    for foreign in ["1", "9", "9/1-000000000000000c-00000000"] {
        facts.foreign.insert(key(foreign), "half a sl".to_owned());
    }
    store.texts.borrow_mut().extend(facts.foreign.clone());
    drop(facts);
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

/// What is taken away for good is there as it was, or gone: the state before it never comes to light, wherever the browser
/// stops on the way.
#[test]
fn no_older_state_comes_to_light() {
    for fault in [Fault::Sticky, Fault::Immortal] {
        for after in 0..4 {
            let store = Flaky::new();
            let mut shelf = Shelf::load(store.clone(), Writer(10)).expect("all is well");
            let older = shelf.keep_new(Id(1), &Slip::of("older"), None);
            let seen = older.expect("there is room").seen;
            let newer = shelf.keep(&seen, &Slip::of("newer"), None);
            let seen = newer.expect("there is room").kept.seen;
            shelf.delete::<Slip>(&seen, None).expect("there is room");
            store.err(fault, after);
            let gone = shelf.delete_for_good::<Slip>(&seen);
            store.heal();
            assert_eq!(gone.is_ok(), after > 2, "{fault:?} after {after}: {gone:?}");
            let left = words_of(&store, 1);
            let newest = (after < 2).then(|| "newer".to_owned());
            assert_eq!(left, newest, "{fault:?} after {after}");
            let entries = shelf.list::<Slip>().expect("all is well");
            assert!(
                entries.iter().all(|entry| entry.is_binned),
                "{fault:?} after {after}"
            );
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
    view.meanwhile(before, Box::new(what));
}
