//! When to remind the maker to save everything as one file: browsers can be cleaned, tablets fall into the river.

use core::fmt;

use super::document::Document;
use super::keys::Keys;
use super::store::{Shelf, Store, StoreError};
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::measured::MeasuredLine;
use crate::plan::days::Day;

/// Key of the note of the last export.
const EXPORTED_KEY: &str = "taperwright/exported";
/// Longest note read, in bytes: the longest written has some thirty.
const LONGEST_NOTE: usize = 100;
/// So many changes kept since the last export call for another; a drag is one. About what two evenings at a drawing make.
/// Our own choice, no source.
pub const MOST_SAVES: u64 = 100;
/// So many days since the last export call for another, where anything was changed at all. Our own choice, no source.
pub const MOST_DAYS: i64 = 14;
/// The same in a browser that deletes what a page stores after a week without a visit. Our own choice, no source.
pub const MOST_SAVES_OF_A_WEEK: u64 = 20;
/// The same, in days: well before the seventh.
pub const MOST_DAYS_OF_A_WEEK: i64 = 4;

/// The last export.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exported {
    /// Its day, where that was known.
    pub day: Option<Day>,
    /// How many changes had been kept by then, over all that is kept.
    pub saves: u64,
}

/// What stands open since the last export.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reminder {
    /// The last export, if there ever was one.
    pub last: Option<Exported>,
    /// Changes kept since.
    pub saves: u64,
    /// Days since, where both days are known.
    pub days: Option<i64>,
}

impl Reminder {
    /// Whether to remind the maker: after so many changes, or so many days with any change in them; sooner in a browser that deletes
    /// what a page stores after a week.
    pub fn is_due(&self, is_deleted_after_a_week: bool) -> bool {
        let (most_saves, most_days) = if is_deleted_after_a_week {
            (MOST_SAVES_OF_A_WEEK, MOST_DAYS_OF_A_WEEK)
        } else {
            (MOST_SAVES, MOST_DAYS)
        };
        let is_long_ago = self.days.is_some_and(|days| days >= most_days);
        self.saves >= most_saves || (self.saves > 0 && is_long_ago)
    }
}

impl fmt::Display for Reminder {
    /// When everything was last saved as a file, and what has changed since.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.last.map(|last| last.day) {
            None => write!(out, "Never backed up")?,
            Some(None) => write!(out, "Backed up before")?,
            Some(Some(day)) => write!(out, "Last backup on {}", day.words_with_year())?,
        }
        match (self.saves, self.last) {
            (0, None) => write!(out, "."),
            (0, Some(_)) => write!(out, "; no changes since."),
            (1, _) => write!(out, "; 1 change not backed up."),
            (saves, _) => write!(out, "; {saves} changes not backed up."),
        }
    }
}

impl<S: Store> Shelf<S> {
    /// What stands open since the last export.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn reminder(&self, today: Option<Day>) -> Result<Reminder, StoreError> {
        let last = self.store.get(EXPORTED_KEY)?.as_deref().and_then(noted);
        let saves = self
            .saves()?
            .saturating_sub(last.map_or(0, |last| last.saves));
        let day = last.and_then(|last| last.day);
        let days = today.zip(day).map(|(today, day)| today.since(day));
        Ok(Reminder { last, saves, days })
    }

    /// Notes that everything was exported today.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn note_export(&mut self, today: Option<Day>) -> Result<(), StoreError> {
        self.write_note(today, self.saves()?)
    }

    /// Notes that changes came in from a file, since a count of all changes ever kept: these are in a file.
    pub(super) fn note_import(&mut self, before: u64) -> Result<(), StoreError> {
        let brought = self.saves()?.saturating_sub(before);
        let last = self.store.get(EXPORTED_KEY)?.as_deref().and_then(noted);
        if brought == 0 {
            return Ok(());
        }
        let (day, saves) = last.map_or((None, 0), |last| (last.day, last.saves));
        self.write_note(day, saves.saturating_add(brought))
    }

    fn write_note(&mut self, day: Option<Day>, saves: u64) -> Result<(), StoreError> {
        let day = day.map_or("unknown".to_owned(), Day::iso);
        self.store.set(EXPORTED_KEY, &format!("{day} {saves}"))
    }

    /// How many changes were ever kept, of all that is kept now: the sum of the newest revisions. Read off the keys alone.
    pub(super) fn saves(&self) -> Result<u64, StoreError> {
        let saves = [
            self.saves_of::<Design>()?,
            self.saves_of::<Workshop>()?,
            self.saves_of::<MeasuredLine>()?,
        ];
        Ok(saves.into_iter().fold(0, u64::saturating_add))
    }

    fn saves_of<T: Document>(&self) -> Result<u64, StoreError> {
        let keys = Keys::of::<T>(&self.store)?;
        let newest = keys.states.values().filter_map(|marks| marks.last());
        Ok(newest.fold(0, |sum: u64, mark| sum.saturating_add(mark.revision)))
    }
}

fn noted(note: &str) -> Option<Exported> {
    (note.len() <= LONGEST_NOTE).then_some(())?;
    let (day, saves) = note.split_once(' ')?;
    Some(Exported {
        day: Day::parse(day).ok(),
        saves: saves.parse().ok()?,
    })
}
