//! Everything in, beside what is there.

use std::collections::BTreeMap;

use super::contents::contents;
use super::outcome::{BackupError, Imported};
use super::piece::{BackupItem, BackupText, JsonText, LONGEST, Remains};
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::revision::{self, Revision};
use crate::keep::shelf::revisions::Revisions;
use crate::keep::shelf::{
    ASIDE_KEY, Document, Id, LINE_KEY, MEASURED_KEY, RevisionId, Shelf, Store, StoreError,
    WORKSHOP_KEY,
};
use crate::measured::MeasuredLine;
use crate::plan::days::Day;

/// What stands after the name of what is kept beside another.
const SUFFIX: &str = " (from a file)";
/// Highest revision taken over from a file, so that there is always a next one.
const HIGHEST_REVISION: u64 = 1 << 32;

/// What became of a piece.
enum Fate {
    Added,
    Same { in_bin: bool },
    Beside,
    Aside,
    Damaged { pieces: usize },
}

/// A line or workshop read out of a file.
struct Arrival<T> {
    id: Id,
    revision: u64,
    changed: Option<Day>,
    is_binned: bool,
    work: T,
}

/// Numbers by lasting name: what is here already.
type Here = BTreeMap<Id, Vec<(u32, bool)>>;

impl<S: Store> Shelf<S> {
    /// Takes in a file of everything, or the whole pieces of a damaged one. Nothing that is here is changed: what is here just so is passed over, what is here
    /// otherwise is kept beside it, what cannot be read is kept as a text. Taking the same file in twice adds nothing.
    ///
    /// # Errors
    /// [`BackupError`] when the file is no such file, or the store cannot be read. A store that refuses on the way is told of
    /// in [`Imported`].
    pub fn import(&mut self, text: &str) -> Result<Imported, BackupError> {
        let file = contents(text)?;
        let saves = self.saves().map_err(BackupError::Store)?;
        let mut lines = self.here::<Design>().map_err(BackupError::Store)?;
        let mut books = self.here::<Workshop>().map_err(BackupError::Store)?;
        let mut measured = self.here::<MeasuredLine>().map_err(BackupError::Store)?;
        let mut imported = Imported {
            is_cut_off: file.is_cut_off,
            ..Imported::default()
        };
        for item in file.lines {
            imported.count(self.take_piece::<Design>(&item, &mut lines));
        }
        for item in file.workshops {
            imported.count(self.take_piece::<Workshop>(&item, &mut books));
        }
        for item in file.measured {
            imported.count(self.take_piece::<MeasuredLine>(&item, &mut measured));
        }
        for aside in file.unreadable {
            imported.count(self.take_aside(&aside, [&mut lines, &mut books, &mut measured]));
        }
        let is_whole = !file.is_cut_off && file.remains.is_empty();
        for remains in &file.remains {
            imported.count(self.take_remains(remains));
        }
        // Where it cannot be noted, the maker is only reminded again. A damaged file is none to rely on.
        if is_whole {
            let _ = self.note_import(saves);
        }
        Ok(imported)
    }

    fn here<T: Document>(&self) -> Result<Here, StoreError> {
        let mut here = Here::new();
        for entry in self.list::<T>()? {
            if let Some(seen) = entry.seen {
                here.entry(seen.id())
                    .or_default()
                    .push((entry.number, entry.is_binned));
            }
        }
        Ok(here)
    }

    fn take_piece<T: Document>(
        &mut self,
        piece: &BackupItem,
        here: &mut Here,
    ) -> Result<Fate, StoreError> {
        let file = piece.file.read()?;
        let Ok(work) = T::read(&file) else {
            return self.put_aside(&file);
        };
        let id = piece.id.map(JsonText::read).transpose()?;
        let id = id.and_then(|id| Id::of_word(&id));
        let id = id.unwrap_or_else(|| Id::of_text(T::PREFIX, &file));
        let changed = piece.changed.map(JsonText::read).transpose()?;
        let changed = changed.and_then(|day| Day::parse(&day).ok());
        // It is written again, and may be of megabytes.
        drop(file);
        let (revision, is_binned) = (piece.revision, piece.binned);
        self.take_in(
            Arrival {
                id,
                revision,
                changed,
                is_binned,
                work,
            },
            here,
        )
    }

    fn take_in<T: Document>(
        &mut self,
        arrival: Arrival<T>,
        here: &mut Here,
    ) -> Result<Fate, StoreError> {
        let Some(places) = here.get(&arrival.id).cloned() else {
            self.add(arrival, here)?;
            return Ok(Fate::Added);
        };
        for (number, in_bin) in places {
            if self.is_just_so(number, &arrival)? {
                return Ok(Fate::Same { in_bin });
            }
        }
        let id = arrival.id.parted_by_text(&arrival.work.write());
        if here.contains_key(&id) {
            return Ok(Fate::Same { in_bin: false });
        }
        let name = arrival.work.name();
        let base = if name.is_empty() { T::UNNAMED } else { name };
        let room = T::NAME_ROOM.saturating_sub(SUFFIX.chars().count());
        let held: String = base.chars().take(room).collect();
        let work = arrival
            .work
            .renamed(&format!("{}{SUFFIX}", held.trim_end()));
        self.add(
            Arrival {
                id,
                work,
                ..arrival
            },
            here,
        )?;
        Ok(Fate::Beside)
    }

    /// Whether what is under a number is what arrived, to the last digit.
    fn is_just_so<T: Document>(
        &self,
        number: u32,
        arrival: &Arrival<T>,
    ) -> Result<bool, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, number)?;
        Ok(revisions
            .head(arrival.id)
            .is_some_and(|head| head.work == arrival.work))
    }

    fn add<T: Document>(&mut self, arrival: Arrival<T>, here: &mut Here) -> Result<(), StoreError> {
        let Arrival {
            id,
            revision,
            changed,
            is_binned,
            work,
        } = arrival;
        let file = work.write();
        // What is kept is read back, and it may be of megabytes.
        drop(work);
        let turn = (revision.clamp(1, HIGHEST_REVISION), self.writer);
        let kept = self.put_new::<T>(id, turn, &file, changed)?;
        let number = kept.seen.number;
        // In the bin or not, it is here; where the note finds no room, it just lies in the open.
        let in_bin = is_binned && self.delete::<T>(&kept.seen, None).unwrap_or(false);
        here.entry(id).or_default().push((number, in_bin));
        Ok(())
    }

    /// A text that could not be read where the file was written: perhaps it can be here.
    fn take_aside(
        &mut self,
        aside: &BackupText,
        [lines, books, measured]: [&mut Here; 3],
    ) -> Result<Fate, StoreError> {
        let (key, text) = (aside.key.read()?, aside.text.read()?);
        if key.starts_with(LINE_KEY)
            && let Some(arrival) = arrival::<Design>(&key, &text)
        {
            return self.take_in(arrival, lines);
        }
        if key.starts_with(WORKSHOP_KEY)
            && let Some(arrival) = arrival::<Workshop>(&key, &text)
        {
            return self.take_in(arrival, books);
        }
        if key.starts_with(MEASURED_KEY)
            && let Some(arrival) = arrival::<MeasuredLine>(&key, &text)
        {
            return self.take_in(arrival, measured);
        }
        self.put_aside(&text)
    }

    /// Keeps what is left of damaged pieces: with care a maker can still read it.
    fn take_remains(&mut self, remains: &Remains) -> Result<Fate, StoreError> {
        if remains.text.len() > LONGEST {
            return Err(StoreError::Full);
        }
        let pieces = remains.pieces;
        self.put_aside(remains.text)
            .map(|_| Fate::Damaged { pieces })
    }

    /// Keeps a text as it is, under a key made of it: never under the key a file names.
    fn put_aside(&mut self, text: &str) -> Result<Fate, StoreError> {
        let key = format!("{ASIDE_KEY}{}", Id::of_text(ASIDE_KEY, text));
        match self.store.get(&key)? {
            Some(there) if there == text => Ok(Fate::Aside),
            Some(_) => Err(StoreError::NotKept),
            None => self.put_text(&key, text).map(|()| Fate::Aside),
        }
    }
}

/// The line or workshop in a text that could not be read where the file was written, if it can be read here.
fn arrival<T: Document>(key: &str, text: &str) -> Option<Arrival<T>> {
    let last = key.rsplit('/').next().unwrap_or_default();
    let revision::RevisionText::Sound(revision) =
        Revision::read::<T>(text, RevisionId::of_word(last)?)
    else {
        return None;
    };
    Some(Arrival {
        id: revision.id,
        revision: revision.mark.revision,
        changed: revision.changed,
        is_binned: false,
        work: T::read(&revision.file).ok()?,
    })
}

impl Imported {
    fn count(&mut self, fate: Result<Fate, StoreError>) {
        match fate {
            Ok(Fate::Added) => self.added += 1,
            Ok(Fate::Same { in_bin }) => {
                self.same += 1;
                self.in_bin += usize::from(in_bin);
            }
            Ok(Fate::Beside) => self.beside += 1,
            Ok(Fate::Aside) => self.unreadable += 1,
            Ok(Fate::Damaged { pieces }) => self.damaged += pieces,
            Err(why) => {
                self.unkept += 1;
                self.why = Some(why);
            }
        }
    }
}
