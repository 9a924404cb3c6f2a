//! A store as a released version left it opens for good. What unreleased versions left stays where it is, and is listed.

use std::collections::BTreeMap;

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book;
use taperwright::keep::share::file;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Document, Id, Kept, Lookup, Shelf, Writer};
use taperwright::plan::days::Day;

/// A whole store of the first form of states: a line kept twice, one in the bin, a bench book. Written by the page of that time.
const FORM_1: &str = include_str!("golden/form-1.json");

fn shelf(texts: &str) -> Shelf<Memory> {
    let texts: BTreeMap<String, String> = serde_json::from_str(texts).expect("texts under keys");
    Shelf::load(Memory(texts), Writer(0xa)).expect("it can be listed")
}

#[track_caller]
fn look<T: Document + core::fmt::Debug>(shelf: &Shelf<Memory>, number: u32) -> Kept<T> {
    match shelf.look(number) {
        Lookup::Kept(kept) => *kept,
        found => panic!("{found:?}"),
    }
}

/// Files under a number alone, as versions that were never released kept them.
fn unreleased() -> BTreeMap<String, String> {
    let line = file::write(&demo());
    let workshop = book::write(&Workshop::new("lot A".to_owned(), &demo()));
    let old = line.replacen("\"version\": 4", "\"version\": 1", 1);
    let texts = [("line/1", line), ("line/7", old), ("workshop/1", workshop)];
    let texts = texts.map(|(key, text)| (format!("taperwright/{key}"), text));
    texts.into_iter().collect()
}

#[test]
fn what_unreleased_versions_kept_is_left_and_listed() {
    let before = unreleased();
    let mut shelf = Shelf::load(Memory(before.clone()), Writer(0xa)).expect("it can be listed");
    assert_eq!(shelf.to_open::<Design>(), Lookup::Nothing);
    assert_eq!(shelf.look::<Design>(1), Lookup::Nothing);
    assert_eq!(shelf.list::<Design>(), Ok(Vec::new()));
    let lines = shelf.strange::<Design>().expect("it can be read");
    let books = shelf.strange::<Workshop>().expect("it can be read");
    assert_eq!((lines.len(), books.len()), (2, 1));
    for strange in lines.iter().chain(&books) {
        assert_eq!(before.get(&strange.key), Some(&strange.text));
        assert!(strange.why.contains("never released"), "{}", strange.why);
    }
    // A new line comes beside them, and they stay.
    shelf
        .keep_new(Id(7), &demo(), None)
        .expect("memory has room");
    assert_eq!(shelf.settle::<Design>(1), Ok(Vec::new()));
    for (key, text) in &before {
        assert_eq!(shelf.clone().into_store().0.get(key), Some(text));
    }
    // The maker alone takes them away.
    shelf.discard(&lines[0]).expect("memory does not fail");
    assert!(!shelf.into_store().0.contains_key(&lines[0].key));
}

/// A state whose file is of an unreleased format: whole, and yet not to be read.
#[test]
fn a_state_of_an_unreleased_format_is_left_and_listed() {
    let old = file::write_small(&demo()).replacen("\"version\":4", "\"version\":2", 1);
    let sum = |text: &str| format!("{:08x}", crc32fast::hash(text.as_bytes()));
    let mark = format!("1-00000000000000ff-{}", sum(&old));
    let head = format!(
        "taperwright kept 1\nid 0000000000000001\nmark {mark}\nbase none\ncopied none\nchanged unknown\nformat 2\nname old\n"
    );
    let text = format!("{head}checksum {}\n\n{old}", sum(&format!("{head}{old}")));
    let key = format!("taperwright/line/1/{mark}");
    let store = Memory([(key.clone(), text.clone())].into());
    let mut shelf = Shelf::load(store, Writer(0xa)).expect("it can be listed");
    match shelf.look::<Design>(1) {
        Lookup::Unreadable { why, .. } => assert!(why.contains("never released"), "{why}"),
        found => panic!("{found:?}"),
    }
    let kept = shelf
        .keep_new(Id(7), &demo(), None)
        .expect("memory has room");
    assert_eq!(kept.seen.number(), 2);
    assert_eq!(shelf.into_store().0.get(&key), Some(&text));
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
