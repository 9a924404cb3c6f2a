//! Looking: what is on the shelf. Nothing here writes.

use super::branch::{Branch, Head, Strange};
use super::keys::{Keys, bin_key, is_unreleased, key};
use super::leaf::{self, Leaf, Text};
use super::mark::{Id, Mark, Seen};
use super::store::{Store, StoreError};
use super::work::Work;
use super::{ASIDE_KEY, OPEN_KEY, Shelf};
use crate::plan::days::Day;

/// A line or workshop as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept<T> {
    /// Which state of it this is: what a later [`Shelf::keep`] follows.
    pub seen: Seen,
    /// The line or workshop.
    pub work: T,
    /// The day it was last changed, where that is known.
    pub changed: Option<Day>,
}

/// What was found under a number.
#[derive(Clone, Debug, PartialEq)]
pub enum Found<T> {
    /// Nothing.
    Nothing,
    /// A line or workshop.
    Kept(Box<Kept<T>>),
    /// A newer version of this page kept it: it can be looked at where this version understands it, never written.
    Newer {
        /// Its number.
        number: u32,
        /// What can be shown of it.
        work: Option<Box<T>>,
        /// The text, so that it can be saved as a file.
        text: String,
    },
    /// A text is there but cannot be read; it stays as it is.
    Unreadable {
        /// Its number.
        number: u32,
        /// The text, so that it can be saved as a file.
        text: String,
        /// Why it cannot be read.
        why: String,
    },
    /// The browser gives no storage.
    NoStorage(StoreError),
}

/// How an entry of the list stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It can be opened.
    Sound,
    /// A newer version of this page kept it.
    Newer,
    /// It cannot be read.
    Unreadable,
}

/// A row of the list of what is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its number in this browser.
    pub number: u32,
    /// Which state of it is listed; `None` where it cannot be read.
    pub seen: Option<Seen>,
    /// What the maker calls it, may be empty; `None` where it cannot be read.
    pub name: Option<String>,
    /// How many times it was kept.
    pub revision: u64,
    /// The day it was last changed, where that is known.
    pub changed: Option<Day>,
    /// Whether it can be opened.
    pub standing: Standing,
    /// Whether it lies in the bin.
    pub is_binned: bool,
    /// Whether two tabs wrote at the same moment, so that [`Shelf::settle`] has something to do here.
    pub is_tangled: bool,
}

impl Entry {
    /// What it is called, with a stand-in where it has no name; `None` where it cannot be opened.
    pub fn title<T: Work>(&self) -> Option<&str> {
        let name = self.name.as_deref()?;
        Some(if name.is_empty() { T::UNNAMED } else { name })
    }
}

impl<S: Store> Shelf<S> {
    /// What is under a number.
    pub fn look<T: Work>(&self, number: u32) -> Found<T> {
        match Branch::of(&self.store, number) {
            Err(error) => Found::NoStorage(error),
            Ok(branch) => found(number, branch),
        }
    }

    /// The very state that was seen, as long as it is kept and unaltered. One text is read and nothing listed: for pictures of
    /// many at once.
    pub fn glance<T: Work>(&self, seen: &Seen) -> Option<T> {
        let text = self.store.get(&key::<T>(seen.number, seen.mark)).ok()??;
        match Leaf::read::<T>(&text, seen.mark) {
            Text::Sound(leaf) => T::read(&leaf.file).ok(),
            Text::Newer(_) | Text::Damaged(_) => None,
        }
    }

    /// What to open with: the one noted as open, else that of the highest number, of those not in the bin.
    pub fn to_open<T: Work>(&self) -> Found<T> {
        match self.number_to_open::<T>() {
            Err(error) => Found::NoStorage(error),
            Ok(None) => Found::Nothing,
            Ok(Some(number)) => self.look(number),
        }
    }

    fn number_to_open<T: Work>(&self) -> Result<Option<u32>, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        // The note is a hint: where it is missing or wrong, nothing is lost.
        let noted = self
            .store
            .get(OPEN_KEY)?
            .and_then(|number| number.parse().ok());
        let noted = noted.filter(|number| keys.states.contains_key(number));
        for number in noted.into_iter().chain(keys.states.keys().rev().copied()) {
            if keys.notes_of(number).next().is_none() || !self.is_binned::<T>(number)? {
                return Ok(Some(number));
            }
        }
        Ok(None)
    }

    /// Every line or workshop kept, by number; those in the bin too, marked so.
    ///
    /// Only the newest text of each is looked at, and its head only, unless something is not as it should be.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn list<T: Work>(&self) -> Result<Vec<Entry>, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        let mut entries = Vec::new();
        for (&number, marks) in &keys.states {
            let mut entry = self.entry::<T>(number, marks)?;
            if keys.notes_of(number).next().is_some() {
                entry.is_binned = self.is_binned::<T>(number)?;
            }
            entries.push(entry);
        }
        Ok(entries)
    }

    fn entry<T: Work>(&self, number: u32, marks: &[Mark]) -> Result<Entry, StoreError> {
        let newest_first: Vec<Mark> = marks.iter().rev().copied().collect();
        if let Some(leaf) = self.plain_sailing::<T>(number, &newest_first)? {
            return Ok(sound_entry(number, &leaf, false));
        }
        let branch = Branch::<T>::of_marks(&self.store, number, &newest_first)?;
        Ok(entry_of(number, &branch))
    }

    /// The newest state, where its head is sound and nothing else stands there but what it was made from.
    fn plain_sailing<T: Work>(
        &self,
        number: u32,
        marks: &[Mark],
    ) -> Result<Option<Leaf>, StoreError> {
        let (newest, older) = match marks {
            [newest] => (*newest, None),
            [newest, older] => (*newest, Some(*older)),
            _ => return Ok(None),
        };
        let text = self.store.get(&key::<T>(number, newest))?;
        let read = text.map(|text| Leaf::read::<T>(&text, newest));
        Ok(match read {
            Some(Text::Sound(leaf)) if older.is_none() || older == leaf.base => Some(leaf),
            _ => None,
        })
    }

    /// The number of what has this lasting name; the lowest where there are several.
    pub(super) fn number_of<T: Work>(&self, id: Id) -> Result<Option<u32>, StoreError> {
        let entries = self.list::<T>()?;
        let found = entries
            .iter()
            .find(|entry| entry.seen.is_some_and(|seen| seen.id == id));
        Ok(found.map(|entry| entry.number))
    }

    /// Every text of the kind that cannot be read, and every key that only looks like one of its: kept as they are. Where the
    /// heads of all states of a number are sound and unaltered, their files are not read once more.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn strange<T: Work>(&self) -> Result<Vec<Strange>, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        let mut found = Vec::new();
        for (&number, marks) in &keys.states {
            if !self.are_sound::<T>(number, marks)? {
                found.extend(Branch::<T>::of_marks(&self.store, number, marks)?.strange);
            }
        }
        for key in keys.strange {
            let why = if is_unreleased::<T>(&key) {
                "An early version that was never released kept it."
            } else {
                "It stands in a place that is not its own."
            };
            found.extend(self.strange_text(key, why)?);
        }
        Ok(found)
    }

    fn are_sound<T: Work>(&self, number: u32, marks: &[Mark]) -> Result<bool, StoreError> {
        for &mark in marks {
            let text = self.store.get(&key::<T>(number, mark))?;
            let read = text.map(|text| Leaf::read::<T>(&text, mark));
            if !matches!(read, Some(Text::Sound(_))) {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Texts from files of everything that could not be read when they came in: kept as they are.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn laid_aside(&self) -> Result<Vec<Strange>, StoreError> {
        let mut found = Vec::new();
        for key in self.store.keys()? {
            if key.starts_with(ASIDE_KEY) {
                found.extend(self.strange_text(key, "It came in so with a file of everything.")?);
            }
        }
        Ok(found)
    }

    fn strange_text(&self, key: String, why: &str) -> Result<Option<Strange>, StoreError> {
        let text = self.store.get(&key)?;
        let why = why.to_owned();
        Ok(text.map(|text| Strange { key, text, why }))
    }

    /// Whether a number lies in the bin: a note says so of the very state that is the newest. One that was changed since, in
    /// another tab, does not.
    pub(super) fn is_binned<T: Work>(&self, number: u32) -> Result<bool, StoreError> {
        let branch = Branch::<T>::of(&self.store, number)?;
        let Some(head) = branch.owner().and_then(|owner| branch.head(owner)) else {
            return Ok(false);
        };
        let note = self.store.get(&bin_key::<T>(number, head.leaf.mark))?;
        let noted = note.as_deref().and_then(leaf::binned);
        Ok(noted.is_some_and(|(id, _)| id == head.leaf.id))
    }
}

impl<T: Work> Kept<T> {
    pub(super) fn of(number: u32, head: Head<T>) -> Self {
        Self {
            seen: Seen {
                number,
                id: head.leaf.id,
                mark: head.leaf.mark,
            },
            work: head.work,
            changed: head.leaf.changed,
        }
    }
}

fn found<T: Work>(number: u32, branch: Branch<T>) -> Found<T> {
    if let Some(newer) = branch.newer.first() {
        let file = newer.file.as_deref();
        let work = file.and_then(|file| T::read(file).ok().or_else(|| T::glimpse(file)));
        return Found::Newer {
            number,
            work: work.map(Box::new),
            text: newer.text.clone(),
        };
    }
    if let Some(head) = branch.owner().and_then(|id| branch.head(id)) {
        return Found::Kept(Box::new(Kept::of(number, head.clone())));
    }
    match branch.strange.into_iter().next() {
        Some(Strange { text, why, .. }) => Found::Unreadable { number, text, why },
        None => Found::Nothing,
    }
}

fn sound_entry(number: u32, leaf: &Leaf, is_tangled: bool) -> Entry {
    Entry {
        number,
        seen: Some(Seen {
            number,
            id: leaf.id,
            mark: leaf.mark,
        }),
        name: Some(leaf.name.clone()),
        revision: leaf.mark.revision,
        changed: leaf.changed,
        standing: Standing::Sound,
        is_binned: false,
        is_tangled,
    }
}

fn entry_of<T: Work>(number: u32, branch: &Branch<T>) -> Entry {
    let head = branch.owner().and_then(|id| branch.head(id));
    match head {
        Some(head) if branch.newer.is_empty() => {
            sound_entry(number, &head.leaf, !branch.strays().is_empty())
        }
        _ => Entry {
            number,
            seen: None,
            name: None,
            revision: 0,
            changed: None,
            standing: if branch.newer.is_empty() {
                Standing::Unreadable
            } else {
                Standing::Newer
            },
            is_binned: false,
            is_tangled: false,
        },
    }
}
