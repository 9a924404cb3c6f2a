//! The pieces of a file of everything, where they stand in it: none of their texts is copied before its turn comes, so that a
//! file of many megabytes needs room for one piece at a time.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer};
use serde_json::value::RawValue;

use super::escapes::unescaped;
use crate::keep::shelf::store::StoreError;

/// Longest text of a piece taken in, in bytes as it stands in the file: a bench book of the largest size with a quote at every
/// fourth letter, and more than a browser keeps of anything else.
pub(super) const LONGEST: usize = 7_000_000;

/// The file, its texts still where they stand.
#[derive(Default, Deserialize)]
pub(super) struct BackupFile<'a> {
    #[serde(borrow)]
    pub(super) lines: Vec<BackupItem<'a>>,
    #[serde(borrow)]
    pub(super) workshops: Vec<BackupItem<'a>>,
    /// Measured lines; files of version 1 have none.
    #[serde(borrow, default)]
    pub(super) measured: Vec<BackupItem<'a>>,
    #[serde(borrow)]
    pub(super) unreadable: Vec<BackupText<'a>>,
    /// What is left of pieces that are not whole.
    #[serde(skip)]
    pub(super) remains: Vec<Remains<'a>>,
    /// Whether the end of the file is missing.
    #[serde(skip)]
    pub(super) is_cut_off: bool,
}

/// A line or workshop in it.
#[derive(Deserialize)]
pub(super) struct BackupItem<'a> {
    /// The lasting name: sixteen hexadecimal digits.
    #[serde(borrow)]
    pub(super) id: Option<JsonText<'a>>,
    /// How many times it was kept.
    pub(super) revision: u64,
    /// The day it was last changed, ISO 8601.
    #[serde(borrow)]
    pub(super) changed: Option<JsonText<'a>>,
    /// Whether it was in the bin.
    pub(super) binned: bool,
    /// The text of its file.
    #[serde(borrow)]
    pub(super) file: JsonText<'a>,
}

/// A text in it that could not be read.
#[derive(Deserialize)]
pub(super) struct BackupText<'a> {
    /// The key it had.
    #[serde(borrow)]
    pub(super) key: JsonText<'a>,
    /// The text.
    #[serde(borrow)]
    pub(super) text: JsonText<'a>,
}

/// What is left of pieces that stood one after the other.
pub(super) struct Remains<'a> {
    /// All of it, as it stands in the file.
    pub(super) text: &'a str,
    /// How many pieces it was.
    pub(super) pieces: usize,
}

/// A text as it stands in the file, in quotes.
#[derive(Clone, Copy)]
pub(super) struct JsonText<'a>(&'a str);

impl<'de: 'a, 'a> Deserialize<'de> for JsonText<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let raw = <&RawValue>::deserialize(deserializer)?;
        Self::of(raw).ok_or_else(|| D::Error::custom("this is not text"))
    }
}

impl<'a> JsonText<'a> {
    /// A value that is a text.
    pub(super) fn of(raw: &'a RawValue) -> Option<Self> {
        let raw = raw.get();
        raw.starts_with('"').then_some(Self(raw))
    }

    /// The text.
    ///
    /// # Errors
    /// [`StoreError::Full`] where no browser could keep it.
    pub(super) fn read(self) -> Result<String, StoreError> {
        let admitted = (self.0.len() <= LONGEST).then_some(self.0);
        admitted.and_then(unescaped).ok_or(StoreError::Full)
    }

    /// Whether it is a text that can be taken in, or is passed over for its length.
    pub(super) fn is_sound(self) -> bool {
        let has_escapes = self.0.contains("\\u");
        !has_escapes || self.0.len() > LONGEST || unescaped(self.0).is_some()
    }

    /// Whether these words stand near its beginning.
    pub(super) fn begins_with(self, words: &str) -> bool {
        /// What may stand before them: a brace, a name, blanks.
        const WITHIN: usize = 100;
        self.0.find(words).is_some_and(|at| at < WITHIN)
    }
}

impl<'a> BackupFile<'a> {
    /// Every text there is.
    pub(super) fn texts(&self) -> impl Iterator<Item = JsonText<'a>> {
        let works = self
            .lines
            .iter()
            .chain(&self.workshops)
            .chain(&self.measured);
        let works = works.flat_map(|piece| [piece.id, piece.changed, Some(piece.file)]);
        let asides = self.unreadable.iter();
        let asides = asides.flat_map(|aside| [Some(aside.key), Some(aside.text)]);
        works.chain(asides).flatten()
    }
}
