//! Measured lines are kept as lines are: beside each other, in the bin and out of it, in a backup and back.

use serde_json::json;
use taperwright::design::Design;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Document as _, Id, Lookup, MEASURED_KEY, Shelf, Writer};
use taperwright::measured::{DraftReading, MeasuredEdit, MeasuredLine, Trust};

use crate::everything::everything;
use crate::fussy::{Fussy, keep, keep_on, list, named, names, shelf};

fn measured(name: &str, diameters: &[f64]) -> MeasuredLine {
    let named = MeasuredEdit::Name(name.to_owned()).apply(&MeasuredLine::new());
    let add = |line: MeasuredLine, (index, diameter_mm): (u32, &f64)| {
        let reading = DraftReading {
            at_m: f64::from(index) * 0.5,
            diameter_mm: *diameter_mm,
            trust: Trust::Judged,
        };
        let added = MeasuredEdit::Add(reading).apply(&line);
        added.expect("a reading can be added")
    };
    (0..)
        .zip(diameters)
        .fold(named.expect("it can be named"), add)
}

#[test]
fn they_have_numbers_of_their_own_and_their_states_follow_each_other() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    keep(&mut shelf, 1, &named("a design"));
    let first = keep(&mut shelf, 2, &measured("Old Heron", &[0.8]));
    assert_eq!(first.seen.number(), 1);
    let more = measured("Old Heron", &[0.8, 0.9]);
    let kept = keep_on(&mut shelf, &first, &more);
    assert_eq!(kept.work, more);
    assert_eq!(
        names::<MeasuredLine>(&shelf),
        [(1, Some("Old Heron".to_owned()))]
    );
    let keys = store.texts.borrow();
    let own = keys.keys().filter(|key| key.starts_with(MEASURED_KEY));
    assert_eq!(own.count(), 2, "the last state and the one before");
}

#[test]
fn they_go_to_the_bin_and_come_back() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let kept = keep(&mut shelf, 1, &measured("Old Heron", &[0.8]));
    assert_eq!(shelf.delete::<MeasuredLine>(&kept.seen, None), Ok(true));
    assert!(list::<MeasuredLine>(&shelf)[0].is_binned);
    assert_eq!(shelf.restore::<MeasuredLine>(1), Ok(()));
    assert!(!list::<MeasuredLine>(&shelf)[0].is_binned);
    assert_eq!(shelf.delete::<MeasuredLine>(&kept.seen, None), Ok(true));
    assert_eq!(shelf.empty_bin::<MeasuredLine>(&[kept.seen]), Ok(1));
    assert_eq!(shelf.look::<MeasuredLine>(1), Lookup::Nothing);
}

#[test]
fn a_backup_takes_them_along() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let line = measured("Old Heron", &[0.8, 0.9, 1.0]);
    keep(&mut shelf, 1, &line);
    keep(&mut shelf, 2, &named("a design"));
    let file = everything(&store.texts.borrow());
    let mut other = Shelf::load(Memory::default(), Writer(9)).expect("memory can be listed");
    let imported = other.import(&file).expect("it is a backup");
    assert_eq!((imported.added, imported.unreadable), (2, 0));
    let found = other.look::<MeasuredLine>(1);
    assert!(matches!(&found, Lookup::Kept(kept) if kept.work == line && kept.seen.id() == Id(1)));
    // A second time nothing is new.
    let again = other.import(&file).expect("it is a backup");
    assert_eq!((again.added, again.same), (0, 2));
}

/// A backup of version 1 has no list of measured lines, and is read.
#[test]
fn a_backup_without_them_is_read() {
    let line = json!({
        "id": "0123456789abcdef", "revision": 1, "changed": null, "binned": false,
        "file": named("one").write(),
    });
    let old = json!({
        "format": "taperwright backup", "version": 1,
        "lines": [line], "workshops": [], "unreadable": [],
    });
    let mut shelf = Shelf::load(Memory::default(), Writer(9)).expect("memory can be listed");
    let imported = shelf.import(&old.to_string()).expect("it is a backup");
    assert_eq!(imported.added, 1);
    let found = shelf.look::<Design>(1);
    assert!(matches!(found, Lookup::Kept(kept) if kept.work == named("one")));
}

/// Of a backup that was cut off, a measured line that is whole comes in as one.
#[test]
fn a_whole_one_is_saved_from_a_damaged_backup() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    let line = measured("Old Heron", &[0.8, 0.9, 1.0]);
    keep(&mut shelf, 1, &line);
    let file = everything(&store.texts.borrow());
    let end = file.find("\"unreadable\"").expect("the last list");
    let mut other = Shelf::load(Memory::default(), Writer(9)).expect("memory can be listed");
    let imported = other.import(&file[..end]).expect("a piece is whole");
    assert!(imported.is_cut_off && imported.added == 1, "{imported:?}");
    assert!(matches!(other.look::<MeasuredLine>(1), Lookup::Kept(kept) if kept.work == line));
}
