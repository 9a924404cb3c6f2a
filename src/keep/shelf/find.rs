//! Looking: what is on the shelf. Nothing here writes.

use super::document::Document;
use super::ids::{Id, RevisionId, SeenRevision};
use super::keys::{Keys, bin_key, is_unreleased, key};
use super::prefixes::{ASIDE_KEY, OPEN_KEY};
use super::revision::{self, Revision, RevisionText};
use super::revisions::{LoadedRevision, Revisions, UnreadableText};
use super::store::{Shelf, Store, StoreError};
use crate::plan::days::Day;

/// A line or workshop as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept<T> {
    /// Which state of it this is: what a later [`Shelf::keep`] follows.
    pub seen: SeenRevision,
    /// The line or workshop.
    pub work: T,
    /// The day it was last changed, where that is known.
    pub changed: Option<Day>,
}

/// What was found under a number.
#[derive(Clone, Debug, PartialEq)]
pub enum Lookup<T> {
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
pub enum EntryStatus {
    /// It can be opened.
    Sound,
    /// A newer version of this page kept it.
    Newer,
    /// It cannot be read.
    Unreadable,
}

/// A row of the list of what is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfEntry {
    /// Its number in this browser.
    pub number: u32,
    /// Which state of it is listed; `None` where it cannot be read.
    pub seen: Option<SeenRevision>,
    /// What the maker calls it, may be empty; `None` where it cannot be read.
    pub name: Option<String>,
    /// How many times it was kept.
    pub revision: u64,
    /// The day it was last changed, where that is known.
    pub changed: Option<Day>,
    /// Whether it can be opened.
    pub status: EntryStatus,
    /// Whether it is in the bin.
    pub is_binned: bool,
    /// Whether two tabs wrote at the same moment, so that [`Shelf::settle`] has something to do here.
    pub is_tangled: bool,
}

impl ShelfEntry {
    /// What it is called, with a stand-in where it has no name; `None` where it cannot be opened.
    pub fn title<T: Document>(&self) -> Option<&str> {
        let name = self.name.as_deref()?;
        Some(if name.is_empty() { T::UNNAMED } else { name })
    }
}

impl<S: Store> Shelf<S> {
    /// What is under a number.
    pub fn look<T: Document>(&self, number: u32) -> Lookup<T> {
        match Revisions::of(&self.store, number) {
            Err(error) => Lookup::NoStorage(error),
            Ok(revisions) => found(number, revisions),
        }
    }

    /// The very state that was seen, as long as it is kept and unaltered. One text is read and nothing listed: for pictures of
    /// many at once.
    pub fn glance<T: Document>(&self, seen: &SeenRevision) -> Option<T> {
        let text = self.store.get(&key::<T>(seen.number, seen.mark)).ok()??;
        match Revision::read::<T>(&text, seen.mark) {
            RevisionText::Sound(revision) => T::read(&revision.file).ok(),
            RevisionText::Newer(_) | RevisionText::Damaged(_) => None,
        }
    }

    /// What to open with: the one noted as open, else that of the highest number, of those not in the bin.
    pub fn to_open<T: Document>(&self) -> Lookup<T> {
        match self.number_to_open::<T>() {
            Err(error) => Lookup::NoStorage(error),
            Ok(None) => Lookup::Nothing,
            Ok(Some(number)) => self.look(number),
        }
    }

    fn number_to_open<T: Document>(&self) -> Result<Option<u32>, StoreError> {
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
    pub fn list<T: Document>(&self) -> Result<Vec<ShelfEntry>, StoreError> {
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

    fn entry<T: Document>(
        &self,
        number: u32,
        marks: &[RevisionId],
    ) -> Result<ShelfEntry, StoreError> {
        let newest_first: Vec<RevisionId> = marks.iter().rev().copied().collect();
        if let Some(revision) = self.plain_sailing::<T>(number, &newest_first)? {
            return Ok(sound_entry(number, &revision, false));
        }
        let revisions = Revisions::<T>::of_marks(&self.store, number, &newest_first)?;
        Ok(entry_of(number, &revisions))
    }

    /// The newest state, where its head is sound and nothing else stands there but what it was made from.
    fn plain_sailing<T: Document>(
        &self,
        number: u32,
        marks: &[RevisionId],
    ) -> Result<Option<Revision>, StoreError> {
        let (newest, older) = match marks {
            [newest] => (*newest, None),
            [newest, older] => (*newest, Some(*older)),
            _ => return Ok(None),
        };
        let text = self.store.get(&key::<T>(number, newest))?;
        let read = text.map(|text| Revision::read::<T>(&text, newest));
        Ok(match read {
            Some(RevisionText::Sound(revision)) if older.is_none() || older == revision.base => {
                Some(revision)
            }
            _ => None,
        })
    }

    /// The number of what has this lasting name; the lowest where there are several.
    pub(super) fn number_of<T: Document>(&self, id: Id) -> Result<Option<u32>, StoreError> {
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
    pub fn strange<T: Document>(&self) -> Result<Vec<UnreadableText>, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        let mut found = Vec::new();
        for (&number, marks) in &keys.states {
            if !self.are_sound::<T>(number, marks)? {
                found.extend(Revisions::<T>::of_marks(&self.store, number, marks)?.strange);
            }
        }
        for key in keys.strange {
            let why = if is_unreleased::<T>(&key) {
                "It was saved by an early version that was never released."
            } else {
                "It is in the wrong place."
            };
            found.extend(self.strange_text(key, why)?);
        }
        Ok(found)
    }

    fn are_sound<T: Document>(
        &self,
        number: u32,
        marks: &[RevisionId],
    ) -> Result<bool, StoreError> {
        for &mark in marks {
            let text = self.store.get(&key::<T>(number, mark))?;
            let read = text.map(|text| Revision::read::<T>(&text, mark));
            if !matches!(read, Some(RevisionText::Sound(_))) {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Texts from files of everything that could not be read when they came in: kept as they are.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn laid_aside(&self) -> Result<Vec<UnreadableText>, StoreError> {
        let mut found = Vec::new();
        for key in self.store.keys()? {
            if key.starts_with(ASIDE_KEY) {
                found.extend(
                    self.strange_text(key, "It was unreadable in the backup it came from.")?,
                );
            }
        }
        Ok(found)
    }

    fn strange_text(&self, key: String, why: &str) -> Result<Option<UnreadableText>, StoreError> {
        let text = self.store.get(&key)?;
        let why = why.to_owned();
        Ok(text.map(|text| UnreadableText { key, text, why }))
    }

    /// Whether a number is in the bin: a note says so of the very state that is the newest. One that was changed since, in
    /// another tab, does not.
    pub(super) fn is_binned<T: Document>(&self, number: u32) -> Result<bool, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, number)?;
        let Some(head) = revisions.owner().and_then(|owner| revisions.head(owner)) else {
            return Ok(false);
        };
        let note = self.store.get(&bin_key::<T>(number, head.revision.mark))?;
        let noted = note.as_deref().and_then(revision::binned);
        Ok(noted.is_some_and(|(id, _)| id == head.revision.id))
    }
}

impl<T: Document> Kept<T> {
    pub(super) fn of(number: u32, head: LoadedRevision<T>) -> Self {
        Self {
            seen: SeenRevision {
                number,
                id: head.revision.id,
                mark: head.revision.mark,
            },
            work: head.work,
            changed: head.revision.changed,
        }
    }
}

fn found<T: Document>(number: u32, revisions: Revisions<T>) -> Lookup<T> {
    if let Some(newer) = revisions.newer.first() {
        let file = newer.file.as_deref();
        let work = file.and_then(|file| T::read(file).ok().or_else(|| T::glimpse(file)));
        return Lookup::Newer {
            number,
            work: work.map(Box::new),
            text: newer.text.clone(),
        };
    }
    if let Some(head) = revisions.owner().and_then(|id| revisions.head(id)) {
        return Lookup::Kept(Box::new(Kept::of(number, head.clone())));
    }
    match revisions.strange.into_iter().next() {
        Some(UnreadableText { text, why, .. }) => Lookup::Unreadable { number, text, why },
        None => Lookup::Nothing,
    }
}

fn sound_entry(number: u32, revision: &Revision, is_tangled: bool) -> ShelfEntry {
    ShelfEntry {
        number,
        seen: Some(SeenRevision {
            number,
            id: revision.id,
            mark: revision.mark,
        }),
        name: Some(revision.name.clone()),
        revision: revision.mark.revision,
        changed: revision.changed,
        status: EntryStatus::Sound,
        is_binned: false,
        is_tangled,
    }
}

fn entry_of<T: Document>(number: u32, revisions: &Revisions<T>) -> ShelfEntry {
    let head = revisions.owner().and_then(|id| revisions.head(id));
    match head {
        Some(head) if revisions.newer.is_empty() => {
            sound_entry(number, &head.revision, !revisions.strays().is_empty())
        }
        _ => ShelfEntry {
            number,
            seen: None,
            name: None,
            revision: 0,
            changed: None,
            status: if revisions.newer.is_empty() {
                EntryStatus::Unreadable
            } else {
                EntryStatus::Newer
            },
            is_binned: false,
            is_tangled: false,
        },
    }
}
