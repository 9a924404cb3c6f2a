//! The pieces of a file of everything, where they stand in it: none of their texts is copied before its turn comes, so that a
//! file of many megabytes needs room for one piece at a time.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer};
use serde_json::value::RawValue;

use super::escapes::unescaped;
use super::outcome::{BackupError, FORMAT, LARGEST, MOST_PIECES, VERSION};
use crate::keep::share::envelope::{FileKind, Unopened};
use crate::keep::share::shape::Shape;
use crate::keep::shelf::store::StoreError;

/// Longest text of a piece taken in, in bytes as it stands in the file: a bench book of the largest size with a quote at every
/// fourth letter, and more than a browser keeps of anything else.
const LONGEST: usize = 7_000_000;

const KIND: FileKind = FileKind {
    format: FORMAT,
    oldest: 1,
    version: VERSION,
    largest: LARGEST,
    shape: Shape {
        depth: 8,
        // The file itself and its three lists are four.
        pieces: MOST_PIECES + 4,
        text: 2_000,
        long: &["file", "text", "key"],
    },
};

/// The file, its texts still where they stand.
#[derive(Deserialize)]
pub(super) struct BackupFile<'a> {
    #[serde(borrow)]
    pub(super) lines: Vec<BackupItem<'a>>,
    #[serde(borrow)]
    pub(super) workshops: Vec<BackupItem<'a>>,
    #[serde(borrow)]
    pub(super) unreadable: Vec<BackupText<'a>>,
}

/// A line or workshop in it.
#[derive(Deserialize)]
pub(super) struct BackupItem<'a> {
    /// The lasting name: sixteen hexadecimal digits.
    #[serde(borrow)]
    pub(super) id: JsonText<'a>,
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

/// A text as it stands in the file, in quotes.
#[derive(Clone, Copy)]
pub(super) struct JsonText<'a>(&'a str);

impl<'de: 'a, 'a> Deserialize<'de> for JsonText<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let raw = <&RawValue>::deserialize(deserializer)?.get();
        if raw.starts_with('"') {
            Ok(Self(raw))
        } else {
            Err(D::Error::custom("this is not text"))
        }
    }
}

impl JsonText<'_> {
    /// The text.
    ///
    /// # Errors
    /// [`StoreError::Full`] where no browser could keep it.
    pub(super) fn read(self) -> Result<String, StoreError> {
        let admitted = (self.0.len() <= LONGEST).then_some(self.0);
        admitted.and_then(unescaped).ok_or(StoreError::Full)
    }

    /// Whether it is a text that can be taken in, or is passed over for its length.
    fn is_sound(self) -> bool {
        let has_escapes = self.0.contains("\\u");
        !has_escapes || self.0.len() > LONGEST || unescaped(self.0).is_some()
    }
}

/// Whether a text is a file of everything, of this version or a newer one, by its word.
pub fn is_one(text: &str) -> bool {
    matches!(KIND.admits(text), Ok(()) | Err(Unopened::Newer(_)))
}

/// The pieces of a file, when all of it is as it should be: half a file would be taken for everything.
///
/// # Errors
/// [`BackupError`] says what the file is not.
pub(super) fn contents(text: &str) -> Result<BackupFile<'_>, BackupError> {
    KIND.admits(text).map_err(|unopened| match unopened {
        Unopened::TooLarge => BackupError::TooLarge,
        Unopened::Misshapen => BackupError::Damaged,
        Unopened::Other | Unopened::Unreleased(_) => BackupError::NotABackup,
        Unopened::Newer(version) => BackupError::Newer(version),
    })?;
    let file: BackupFile<'_> = serde_json::from_str(text).map_err(|_| BackupError::Damaged)?;
    let is_sound = file.texts().all(JsonText::is_sound);
    is_sound.then_some(file).ok_or(BackupError::Damaged)
}

impl<'a> BackupFile<'a> {
    /// Every text there is.
    fn texts(&self) -> impl Iterator<Item = JsonText<'a>> {
        let works = self.lines.iter().chain(&self.workshops);
        let works = works.flat_map(|piece| [Some(piece.id), piece.changed, Some(piece.file)]);
        let asides = self.unreadable.iter();
        let asides = asides.flat_map(|aside| [Some(aside.key), Some(aside.text)]);
        works.chain(asides).flatten()
    }
}
