//! Finding things in the list, and the words that stand with it.

use taperwright::base::choice::Choice;
use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::backup::Imported;
use taperwright::keep::shelf::{
    ASIDE_KEY, Exported, Id, LINE_KEY, Order, Reminder, ShelfEntry, StoreError, WORKSHOP_KEY,
    number_in, sought,
};
use taperwright::plan::days::Day;

use crate::fussy::{Fussy, keep, keep_on, list, named, shelf};

/// Lines of these names, changed on these days of November 2026.
fn lines(of: &[(&str, Option<u8>)]) -> Vec<ShelfEntry> {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    for (id, (name, day)) in (1..).zip(of) {
        let day = day.and_then(|day| Day::new(2026, 11, day));
        let kept = shelf.keep_new(Id(id), &named(name), day);
        kept.expect("there is room");
    }
    list::<Design>(&shelf)
}

fn numbers(entries: &[ShelfEntry], words: &str, order: Order) -> Vec<u32> {
    let found = sought::<Design>(entries, words, order);
    found.iter().map(|entry| entry.number).collect()
}

#[test]
fn every_word_must_be_in_the_name_in_whatever_letters() {
    let lines = lines(&[("Weir, LONG", None), ("Äsche", None), ("", None)]);
    for (words, found) in [
        ("", vec![3, 2, 1]),
        ("  ", vec![3, 2, 1]),
        ("weir", vec![1]),
        ("long weir", vec![1]),
        ("weir short", vec![]),
        ("äSCHE", vec![2]),
        // What has no name is found by what it is called on the page.
        ("unnamed", vec![3]),
    ] {
        assert_eq!(numbers(&lines, words, Order::Newest), found, "{words}");
    }
}

#[test]
fn lists_stand_by_day_or_by_name() {
    let lines = lines(&[("b", Some(3)), ("C", Some(9)), ("a", None), ("B", Some(9))]);
    assert_eq!(numbers(&lines, "", Order::Newest), [4, 2, 1, 3]);
    assert_eq!(numbers(&lines, "", Order::Name), [3, 1, 4, 2]);
    let keys: Vec<_> = Order::ALL.iter().map(|order| order.key()).collect();
    assert_eq!(keys, ["newest", "name"]);
}

/// What cannot be opened is seen first, and not lost sight of by the order.
#[test]
fn what_cannot_be_opened_stands_first() {
    let newer = format!("{LINE_KEY}4/1-00000000000000ff-00000000");
    let store = Fussy::with(&[(newer, "taperwright kept 2\n\nnewer")]);
    let mut shelf = shelf(&store);
    shelf
        .keep_new(Id(1), &named("a"), Day::new(2026, 11, 27))
        .expect("there is room");
    let lines = list::<Design>(&shelf);
    for order in Order::ALL {
        assert_eq!(numbers(&lines, "", *order), [4, 5], "{order:?}");
        assert_eq!(numbers(&lines, "a", *order), [5]);
    }
}

#[test]
fn a_glance_shows_the_very_state_that_was_listed() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let one = keep(&mut shelf, 1, &named("one"));
    let two = keep_on(&mut shelf, &one, &named("two"));
    let three = keep_on(&mut shelf, &two, &named("three"));
    // The one before the newest is still kept, what is older is gone.
    assert_eq!(shelf.glance::<Design>(&one.seen), None);
    assert_eq!(shelf.glance(&two.seen), Some(named("two")));
    assert_eq!(shelf.glance(&three.seen), Some(named("three")));
    for text in store.texts.borrow_mut().values_mut() {
        text.push(' ');
    }
    assert_eq!(shelf.glance::<Design>(&three.seen), None, "it was altered");
}

#[test]
fn what_cannot_be_read_is_found_beside_and_behind_what_can() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let one = keep(&mut shelf, 1, &named("one"));
    keep_on(&mut shelf, &one, &named("two"));
    assert_eq!(shelf.strange::<Design>(), Ok(vec![]));
    let before = store.texts.borrow().keys().next().cloned();
    let before = before.expect("the state before");
    store
        .texts
        .borrow_mut()
        .insert(before.clone(), "rubbish".to_owned());
    let strange = shelf.strange::<Design>().expect("the store can be read");
    assert_eq!(strange.len(), 1);
    assert_eq!(
        (strange[0].key.as_str(), strange[0].text.as_str()),
        (before.as_str(), "rubbish")
    );
    let aside = format!("{ASIDE_KEY}0000000000000001");
    store
        .texts
        .borrow_mut()
        .insert(aside.clone(), "from elsewhere".to_owned());
    let aside_there = shelf.laid_aside().expect("the store can be read");
    assert_eq!((aside_there.len(), &aside_there[0].key), (1, &aside));
    shelf.discard(&aside_there[0]).expect("it goes");
    assert_eq!(shelf.laid_aside(), Ok(vec![]));
}

#[test]
fn numbers_are_read_off_the_keys_of_their_kind() {
    for (key, number) in [
        (format!("{LINE_KEY}7"), Some(7)),
        (format!("{LINE_KEY}7/1-00000000000000ff-00000000"), Some(7)),
        (format!("{LINE_KEY}07"), None),
        (format!("{LINE_KEY}7/1-ff-0"), None),
        (format!("{WORKSHOP_KEY}7"), None),
        (String::new(), None),
    ] {
        assert_eq!(number_in::<Design>(&key), number, "{key}");
    }
    assert_eq!(number_in::<Workshop>(&format!("{WORKSHOP_KEY}7")), Some(7));
}

#[test]
fn the_page_says_when_everything_was_last_saved() {
    let day = Day::new(2026, 11, 27);
    for (last, saves, words) in [
        (None, 0, "Never backed up."),
        (None, 3, "Never backed up; 3 changes not backed up."),
        (Some(None), 1, "Backed up before; 1 change not backed up."),
        (
            Some(day),
            0,
            "Last backup on Fri 27 Nov 2026; no changes since.",
        ),
    ] {
        let last = last.map(|day| Exported { day, saves: 0 });
        let reminder = Reminder {
            last,
            saves,
            days: None,
        };
        assert_eq!(reminder.to_string(), words);
    }
}

#[test]
fn an_import_is_reported_in_words() {
    let of = |imported: Imported| imported.to_string();
    let nothing = Imported::default();
    assert_eq!(of(nothing), "The backup is empty. Nothing was restored.");
    let some = Imported {
        added: 2,
        same: 3,
        in_bin: 1,
        ..nothing
    };
    assert_eq!(
        of(some),
        "Lines and workshops in the backup: 2 restored; 3 already here, unchanged. Of those already here, 1 is in the bin."
    );
    let unkept = Imported {
        unkept: 4,
        why: Some(StoreError::Full),
        beside: 1,
        unreadable: 1,
        ..nothing
    };
    let said = of(unkept);
    for words in [
        "saved as copies",
        "1 not readable",
        "4 not restored",
        "full. Do not delete the backup",
    ] {
        assert!(said.contains(words), "{said}");
    }
}
