//! Out of the way, back again, and away for good.

use taperwright::braid::track::{Carrier, Direction};
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::sketch::Sketch;
use taperwright::keep::shelf::{Id, Lookup, News, OPEN_KEY, STEPS_KEY, StoreError, wound_key};
use taperwright::plan::days::Day;
use taperwright::plan::wound::{Wound, WoundBobbin};

use crate::fussy::{Fault, Fussy, keep, keep_on, list, named, other_tab, shelf};

#[test]
fn what_lies_in_the_bin_is_still_kept_and_comes_back() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    keep(&mut shelf, 1, &named("one"));
    let two = keep(&mut shelf, 2, &named("two"));
    shelf.open(2).expect("there is room");
    let texts = store.texts.borrow().clone();
    let today = Day::new(2026, 11, 27);
    assert_eq!(shelf.delete::<Design>(&two.seen, today), Ok(true));
    assert_eq!(
        shelf.delete::<Design>(&two.seen, today),
        Ok(true),
        "twice is once"
    );
    for (key, text) in &texts {
        assert_eq!(store.text(key).as_ref(), Some(text), "nothing moves");
    }
    let binned: Vec<_> = list::<Design>(&shelf)
        .iter()
        .map(|it| it.is_binned)
        .collect();
    assert_eq!(binned, [false, true]);
    assert!(matches!(shelf.to_open::<Design>(), Lookup::Kept(kept) if kept.seen.number() == 1));
    assert_eq!(shelf.news::<Design>(&two.seen), Ok(News::Binned));
    assert_eq!(shelf.restore::<Design>(2), Ok(()));
    assert_eq!(*store.texts.borrow(), texts);
}

#[test]
fn only_what_was_seen_in_the_bin_is_emptied_out() {
    let store = Fussy::with(&[]);
    let mut here = shelf(&store);
    let kept: Vec<_> = (1..=3)
        .map(|id| keep(&mut here, id, &named("line")))
        .collect();
    here.keep_steps(1, &Sketch::new(demo()))
        .expect("there is room");
    let wound = Wound::of([WoundBobbin {
        carrier: Carrier {
            direction: Direction::Clockwise,
            number: 0,
        },
        ends: 14,
        decimetres: 375,
        weighed_mg: Some(2300),
    }]);
    for kept in &kept {
        let (number, id) = (kept.seen.number(), kept.seen.id());
        here.keep_wound(number, id, &wound).expect("there is room");
    }
    for kept in &kept {
        here.delete::<Design>(&kept.seen, None)
            .expect("there is room");
    }
    // The second was changed in another tab meanwhile, the third taken out again.
    let mut there = other_tab(&store);
    keep_on(&mut there, &kept[1], &named("changed"));
    there.restore::<Design>(3).expect("nothing is wrong");
    let seen: Vec<_> = kept.iter().map(|kept| kept.seen).collect();
    assert_eq!(here.empty_bin::<Design>(&seen), Ok(1));
    let left: Vec<_> = list::<Design>(&here)
        .iter()
        .map(|it| (it.number, it.is_binned))
        .collect();
    assert_eq!(left, [(2, false), (3, false)]);
    assert_eq!(store.text(&format!("{STEPS_KEY}1")), None);
    // What is wound goes with its line, and with no other.
    assert_eq!(store.text(&wound_key(1)), None);
    assert_eq!(here.wound(2, kept[1].seen.id()), wound);
    assert_eq!(here.wound(2, kept[0].seen.id()), Wound::default());
    assert!(
        store
            .texts
            .borrow()
            .keys()
            .all(|key| !key.contains("/bin/"))
    );
}

/// The older state of what is taken away never comes to light again, wherever the browser stops on the way.
#[test]
fn what_is_taken_away_for_good_stays_away() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &named("older"));
    let kept = keep_on(&mut shelf, &kept, &named("newer"));
    let garbage = format!("{}9-00000000000000ff-00000000", "taperwright/line/1/");
    store
        .texts
        .borrow_mut()
        .insert(garbage.clone(), "garbage".to_owned());
    assert_eq!(shelf.delete_for_good::<Design>(&kept.seen), Ok(true));
    // What cannot be read is not part of it.
    let left: Vec<_> = store.texts.borrow().keys().cloned().collect();
    assert_eq!(left, [garbage]);
    assert_eq!(shelf.delete_for_good::<Design>(&kept.seen), Ok(false));
}

#[test]
fn a_bin_that_cannot_be_noted_leaves_the_line_where_it_is() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &named("one"));
    for (fault, why) in [
        (Fault::Full, StoreError::Full),
        (Fault::Forgetful, StoreError::NotKept),
    ] {
        store.fault.set(fault);
        assert_eq!(shelf.delete::<Design>(&kept.seen, None), Err(why));
        assert!(!list::<Design>(&shelf)[0].is_binned);
    }
    // Where there is no room for the note, taking away for good makes some.
    store.fault.set(Fault::Full);
    assert_eq!(shelf.delete_for_good::<Design>(&kept.seen), Ok(true));
    assert!(store.texts.borrow().is_empty());
}

#[test]
fn a_note_that_was_altered_is_no_note() {
    let store = Fussy::with(&[(OPEN_KEY.to_owned(), "1")]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &named("one"));
    shelf
        .delete::<Design>(&kept.seen, None)
        .expect("there is room");
    let key = store
        .texts
        .borrow()
        .keys()
        .find(|key| key.contains("/bin/"))
        .cloned()
        .expect("a note");
    let note = store.text(&key).expect("a note");
    for altered in [
        &note[..note.len() - 1],
        "",
        "taperwright bin 1",
        &note.replacen('1', "2", 2),
    ] {
        store
            .texts
            .borrow_mut()
            .insert(key.clone(), altered.to_owned());
        assert!(!list::<Design>(&shelf)[0].is_binned, "{altered}");
    }
}

#[test]
fn a_copy_is_another_line() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    keep(&mut shelf, 1, &named("one"));
    let copy = shelf
        .duplicate(&named("one"), Id(2), None)
        .expect("there is room");
    assert_eq!((copy.seen.number(), copy.seen.id()), (2, Id(2)));
    assert_eq!(copy.work.draft().name, "one (copy)");
    let long = shelf
        .duplicate(&named(&"n".repeat(80)), Id(3), None)
        .expect("there is room");
    assert_eq!(long.work.draft().name.chars().count(), 80);
}
