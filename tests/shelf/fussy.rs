//! A store that does one thing wrong as long as it is told to.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{
    Document, Id, Kept, LINE_KEY, Shelf, ShelfEntry, Store, StoreError, Writer,
};

/// What the store does wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Fault {
    None,
    /// There is no storage at all.
    Absent,
    /// Nothing can be written.
    Full,
    /// So many bytes of text can be kept, no more.
    Tight(usize),
    /// Says yes and writes nothing.
    Forgetful,
    /// Gives back something else than was written.
    Garbling,
    /// Cannot list its keys.
    Unlistable,
    /// Cannot read a text.
    Unreadable,
}

/// A store whose texts and faults the test holds on to.
#[derive(Clone)]
pub(crate) struct Fussy {
    pub(crate) texts: Rc<RefCell<BTreeMap<String, String>>>,
    pub(crate) fault: Rc<Cell<Fault>>,
}

impl Fussy {
    pub(crate) fn with(texts: &[(String, &str)]) -> Self {
        let texts = texts
            .iter()
            .map(|(key, text)| (key.clone(), (*text).to_owned()))
            .collect();
        Self {
            texts: Rc::new(RefCell::new(texts)),
            fault: Rc::new(Cell::new(Fault::None)),
        }
    }

    /// Bytes of all texts, with this one in its place.
    pub(crate) fn size_with(&self, key: &str, text: &str) -> usize {
        let texts = self.texts.borrow();
        let others = texts.iter().filter(|(other, _)| *other != key);
        others.map(|(_, text)| text.len()).sum::<usize>() + text.len()
    }

    pub(crate) fn text(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }
}

impl Store for Fussy {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        match self.fault.get() {
            Fault::Absent | Fault::Unreadable => Err(StoreError::Absent),
            Fault::Garbling => Ok(self.text(key).map(|text| text.replace('1', "l"))),
            _ => Ok(self.text(key)),
        }
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.fault.get() {
            Fault::Absent => return Err(StoreError::Absent),
            Fault::Full => return Err(StoreError::Full),
            Fault::Forgetful => return Ok(()),
            Fault::Tight(room) if self.size_with(key, text) > room => return Err(StoreError::Full),
            _ => {}
        }
        self.texts
            .borrow_mut()
            .insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), StoreError> {
        if self.fault.get() == Fault::Absent {
            return Err(StoreError::Absent);
        }
        self.texts.borrow_mut().remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        match self.fault.get() {
            Fault::Absent | Fault::Unlistable => Err(StoreError::Absent),
            _ => Ok(self.texts.borrow().keys().cloned().collect()),
        }
    }
}

/// The tab of these tests.
pub(crate) const TAB: Writer = Writer(0xa);

pub(crate) fn shelf(store: &Fussy) -> Shelf<Fussy> {
    Shelf::load(store.clone(), TAB).expect("the store can be listed")
}

pub(crate) fn other_tab(store: &Fussy) -> Shelf<Fussy> {
    Shelf::load(store.clone(), Writer(0xb)).expect("the store can be listed")
}

/// Keeps something for the first time, under a lasting name made of this.
pub(crate) fn keep<T: Document>(shelf: &mut Shelf<Fussy>, id: u64, work: &T) -> Kept<T> {
    let kept = shelf.keep_new(Id(id), work, None);
    kept.unwrap_or_else(|error| panic!("{error}"))
}

/// Keeps the next state of something nobody else changed.
pub(crate) fn keep_on<T: Document + core::fmt::Debug>(
    shelf: &mut Shelf<Fussy>,
    kept: &Kept<T>,
    work: &T,
) -> Kept<T> {
    let keeping = shelf
        .keep(&kept.seen, work, None)
        .unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(keeping.parted, None);
    keeping.kept
}

pub(crate) fn list<T: Document>(shelf: &Shelf<Fussy>) -> Vec<ShelfEntry> {
    shelf.list::<T>().expect("the store can be read")
}

/// Numbers and names of what is listed.
pub(crate) fn names<T: Document>(shelf: &Shelf<Fussy>) -> Vec<(u32, Option<String>)> {
    let row = |entry: ShelfEntry| (entry.number, entry.name);
    list::<T>(shelf).into_iter().map(row).collect()
}

/// The key of a state of a line.
pub(crate) fn line(number: u32) -> String {
    format!("{LINE_KEY}{number}/1-00000000000000ff-00000000")
}

/// A design as a kept line of this number, with the key it is under.
pub(crate) fn kept(number: u32, design: &Design) -> (String, String) {
    let mut shelf = Shelf::load(Memory::default(), Writer(0xf)).expect("memory can be listed");
    let kept = shelf.keep_new(Id(1000 + u64::from(number)), design, None);
    kept.expect("memory has room");
    let (key, text) = shelf.into_store().0.pop_first().expect("one was kept");
    let revision = key.rsplit('/').next().unwrap_or_default();
    (format!("{LINE_KEY}{number}/{revision}"), text)
}

pub(crate) fn named(name: &str) -> Design {
    Edit::Name(name.to_owned())
        .apply(&demo())
        .unwrap_or_else(|refusal| panic!("{refusal}"))
}
