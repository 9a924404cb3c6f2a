//! Any store at all: whatever is done with the shelf on it, what cannot be read stays as it is.

use std::collections::BTreeMap;

use taperwright::design::Design;
use taperwright::edit::sketch::Sketch;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book_file;
use taperwright::keep::share::file as design_file;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Document, Id, Kept, LINE_KEY, Lookup, Shelf, WORKSHOP_KEY, Writer};
use taperwright::plan::days::Day;

use super::everything::everything;

/// Stands between two entries, and within one between key and text: bytes no text holds.
pub(crate) const ENTRY: u8 = 0xFF;
pub(crate) const KEY: u8 = 0xFE;
/// What a key begins with whose state is to be sealed here, so that checksums do not keep everything out.
pub(crate) const SEAL: char = '!';
/// Most entries looked at, so that an input takes no longer than a blink.
const MOST_ENTRIES: usize = 24;

/// The bytes are entries of a store, each a key and a text.
pub(crate) fn run(bytes: &[u8]) {
    let store = store(bytes);
    let before = store.0.clone();
    let mut shelf = Shelf::load(store, Writer(9)).expect("memory does not fail");
    only_looks(&shelf, &before);
    let strange = strange(&shelf);
    kind::<Design>(&mut shelf);
    kind::<Workshop>(&mut shelf);
    let after = shelf.into_store().0;
    for (key, text) in before {
        let is_kept = after.get(&key) == Some(&text);
        let must_be =
            strange.contains(&key) || is_hopeless(&key, &text) || !key.starts_with("taperwright/");
        assert!(is_kept || !must_be, "{key:?} was touched: {text:?}");
    }
}

/// The store of some bytes.
pub(crate) fn store(bytes: &[u8]) -> Memory {
    let entries = bytes.split(|&byte| byte == ENTRY).take(MOST_ENTRIES);
    Memory(entries.filter_map(entry).collect())
}

fn entry(bytes: &[u8]) -> Option<(String, String)> {
    let at = bytes.iter().position(|&byte| byte == KEY)?;
    let [key, text] =
        [&bytes[..at], &bytes[at + 1..]].map(|it| String::from_utf8_lossy(it).into_owned());
    match key.strip_prefix(SEAL) {
        None => Some((key, text)),
        Some(head) => sealed(head, &text),
    }
}

/// A state as the module `keep::shelf` describes it, its sums made true. The head names, blanks between: the key up to the mark, id,
/// revision, writer, the mark it was made from, the format, and what it is called.
fn sealed(head: &str, file: &str) -> Option<(String, String)> {
    let mut words = head.splitn(7, ' ');
    let mut word = || words.next();
    let (place, id, revision, writer) = (word()?, word()?, word()?, word()?);
    let (base, format, name) = (word()?, word()?, word()?);
    let mark = format!(
        "{revision}-{writer}-{:08x}",
        crc32fast::hash(file.as_bytes())
    );
    let fields = format!(
        "taperwright kept 1\nid {id}\nmark {mark}\nbase {base}\ncopied none\nchanged 2026-11-26\nformat {format}\nname {name}\n"
    );
    let sum = crc32fast::hash(format!("{fields}{file}").as_bytes());
    Some((
        format!("{place}/{mark}"),
        format!("{fields}checksum {sum:08x}\n\n{file}"),
    ))
}

/// Whether a text under a key of ours cannot hold anything whatever is made of it: neither all of it nor what stands after
/// an empty line is a file.
fn is_hopeless(key: &str, text: &str) -> bool {
    let files = [Some(text), text.split_once("\n\n").map(|(_, file)| file)];
    let mut files = files.into_iter().flatten();
    if key.starts_with(LINE_KEY) {
        files.all(|file| design_file::read(file).is_err())
    } else {
        key.starts_with(WORKSHOP_KEY) && files.all(|file| book_file::read(file).is_err())
    }
}

/// Looking changes nothing, and a shelf that nobody wrote to goes out the same every time.
fn only_looks(shelf: &Shelf<Memory>, before: &BTreeMap<String, String>) {
    looks::<Design>(shelf);
    looks::<Workshop>(shelf);
    let _ = shelf.reminder(Day::parse("2026-11-27").ok());
    let everything = everything(before);
    let mut other = Shelf::load(Memory::default(), Writer(2)).expect("memory does not fail");
    let taken = other.import(&everything).expect("it was written here");
    assert_eq!(taken.unkept, 0);
    assert_eq!(&shelf.clone().into_store().0, before);
}

fn looks<T: Document>(shelf: &Shelf<Memory>) {
    let entries = shelf.list::<T>().expect("memory does not fail");
    for entry in &entries {
        let _ = shelf.look::<T>(entry.number);
    }
    if let Lookup::Kept(kept) = shelf.to_open::<T>() {
        assert!(
            entries
                .iter()
                .any(|entry| entry.number == kept.seen.number())
        );
    }
}

/// The keys of what the shelf itself says it cannot read.
fn strange(shelf: &Shelf<Memory>) -> Vec<String> {
    let lines = shelf.strange::<Design>().expect("memory does not fail");
    let books = shelf.strange::<Workshop>().expect("memory does not fail");
    lines
        .into_iter()
        .chain(books)
        .map(|strange| strange.key)
        .collect()
}

/// Everything a maker can do, to everything there is.
fn kind<T: Hand>(shelf: &mut Shelf<Memory>) {
    let seen = works::<T>(shelf);
    for number in numbers::<T>(shelf) {
        shelf.settle::<T>(number).expect("memory does not fail");
        let settled = shelf.settle::<T>(number).expect("memory does not fail");
        assert_eq!(settled, [], "there is nothing left to take apart");
    }
    let there = works::<T>(shelf);
    for kept in &seen {
        assert!(
            there.iter().any(|other| other.work == kept.work),
            "taken apart, a piece of work was lost"
        );
    }
    for kept in &there {
        change(shelf, kept);
    }
    for kept in works::<T>(shelf) {
        lay_away(shelf, &kept);
    }
}

fn numbers<T: Document>(shelf: &Shelf<Memory>) -> Vec<u32> {
    let entries = shelf.list::<T>().expect("memory does not fail");
    entries.iter().map(|entry| entry.number).collect()
}

fn works<T: Document>(shelf: &Shelf<Memory>) -> Vec<Kept<T>> {
    let found = numbers::<T>(shelf)
        .into_iter()
        .map(|number| shelf.look(number));
    let kept = found.filter_map(|found| match found {
        Lookup::Kept(kept) => Some(*kept),
        _ => None,
    });
    kept.collect()
}

/// Keeps a change, and finds it again.
fn change<T: Hand>(shelf: &mut Shelf<Memory>, kept: &Kept<T>) {
    let changed = kept.work.renamed("Changed");
    let Ok(keeping) = shelf.keep(&kept.seen, &changed, None) else {
        return;
    };
    let number = keeping.kept.seen.number();
    changed.steps(shelf, number);
    let _ = shelf.news::<T>(&kept.seen);
    assert!(works::<T>(shelf).iter().any(|kept| kept.work == changed));
    let _ = shelf.duplicate(&changed, Id(77), None);
}

/// Into the bin, out of it, in again, and away for good.
fn lay_away<T: Document>(shelf: &mut Shelf<Memory>, kept: &Kept<T>) {
    if shelf.delete::<T>(&kept.seen, None) != Ok(true) {
        return;
    }
    shelf
        .restore::<T>(kept.seen.number())
        .expect("memory does not fail");
    let _ = shelf.delete::<T>(&kept.seen, None);
    let _ = shelf.empty_bin::<T>(&[kept.seen]);
    let _ = shelf.delete_for_good::<T>(&kept.seen);
}

/// What is kept beside a work.
trait Hand: Document {
    fn steps(&self, _shelf: &mut Shelf<Memory>, _number: u32) {}
}

impl Hand for Workshop {}

impl Hand for Design {
    fn steps(&self, shelf: &mut Shelf<Memory>, number: u32) {
        let sketch = shelf.sketch(number, self.clone());
        assert_eq!(sketch.settled(), self);
        shelf
            .keep_steps(number, &Sketch::new(self.clone()))
            .expect("memory does not fail");
    }
}
