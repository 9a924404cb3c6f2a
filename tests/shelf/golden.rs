//! What every version kept in a browser opens for ever: plain files of design formats 1 to 3 and of the bench book's first,
//! and the first form of today's states. The design files of formats 1 and 2 were written by the versions they are of.
//! `golden/plain.json` was written by today's `file::write` and `book::file::write`, unchanged since files of format 3 were kept
//! plainly; `golden/form-1.json` by today's shelf. Both are texts now, that no later version may fail to open.

use std::collections::BTreeMap;

use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Found, Kept, Shelf, Standing, Work, Writer};
use taperwright::plan::days::Day;

const FIRST: &str = include_str!("../doors/golden/version-1.json");
const SECOND: &str = include_str!("../doors/golden/version-2.json");
/// A whole store as the version before would have left it: two lines, one bench book, the note of the open line.
const PLAIN: &str = include_str!("golden/plain.json");
/// A whole store of the first form of states: a line kept twice, one in the bin, a bench book.
const FORM_1: &str = include_str!("golden/form-1.json");

fn shelf(texts: &str) -> Shelf<Memory> {
    let texts: BTreeMap<String, String> = serde_json::from_str(texts).expect("texts under keys");
    Shelf::load(Memory(texts), Writer(0xa)).expect("it can be listed")
}

#[track_caller]
fn look<T: Work + core::fmt::Debug>(shelf: &Shelf<Memory>, number: u32) -> Kept<T> {
    match shelf.look(number) {
        Found::Kept(kept) => *kept,
        found => panic!("{found:?}"),
    }
}

#[test]
fn plain_files_of_the_first_formats_open_and_are_followed() {
    for text in [FIRST, SECOND] {
        let key = "taperwright/line/7".to_owned();
        let store = Memory([(key.clone(), text.to_owned())].into());
        let mut shelf = Shelf::load(store, Writer(0xa)).expect("it can be listed");
        let kept = look::<Design>(&shelf, 7);
        let renamed = kept.work.renamed("renamed");
        // The old text is kept until the new one was read back, and one state longer.
        let first = shelf
            .keep(&kept.seen, &renamed, None)
            .expect("there is room");
        assert_eq!(shelf.list::<Design>().map(|all| all.len()), Ok(1));
        assert_eq!(first.kept.seen.id(), kept.seen.id());
        let again = kept.work.renamed("renamed again");
        shelf
            .keep(&first.kept.seen, &again, None)
            .expect("there is room");
        assert_eq!(look::<Design>(&shelf, 7).work, again);
    }
}

#[test]
fn a_store_of_the_version_before_opens() {
    let shelf = shelf(PLAIN);
    let entries = shelf.list::<Design>().expect("it can be read");
    let rows: Vec<_> = entries
        .iter()
        .map(|it| (it.number, it.name.as_deref(), it.standing, it.is_binned))
        .collect();
    let sound = |number, name| (number, Some(name), Standing::Sound, false);
    assert_eq!(
        rows,
        [sound(1, "Heron Weir double taper"), sound(3, "Reed Pool")]
    );
    assert!(matches!(shelf.to_open::<Design>(), Found::Kept(kept) if kept.seen.number() == 1));
    let book = look::<Workshop>(&shelf, 1).work;
    assert_eq!(
        (book.name.as_str(), book.swatches.len()),
        ("Heron Weir, lot A", 1)
    );
    assert!(
        shelf
            .strange::<Design>()
            .expect("it can be read")
            .is_empty()
    );
}

#[test]
fn a_store_of_the_first_form_opens() {
    let mut shelf = shelf(FORM_1);
    let entries = shelf.list::<Design>().expect("it can be read");
    let rows: Vec<_> = entries
        .iter()
        .map(|it| (it.number, it.name.as_deref(), it.revision, it.is_binned))
        .collect();
    assert_eq!(
        rows,
        [
            (1, Some("Reed Pool, thinner"), 2, false),
            (2, Some("Put away"), 1, true)
        ]
    );
    let kept = look::<Design>(&shelf, 1);
    assert_eq!(kept.seen.id().to_string(), "0123456789abcdef");
    assert_eq!(kept.changed.map(Day::iso), Some("2026-11-26".to_owned()));
    assert_eq!(look::<Workshop>(&shelf, 1).work.name, "Heron Weir, lot A");
    // It can be followed as it was.
    let next = kept.work.renamed("followed");
    assert_eq!(
        shelf.keep(&kept.seen, &next, None).map(|it| it.parted),
        Ok(None)
    );
}
