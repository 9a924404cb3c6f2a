//! What the shelf keeps: lines, measured lines and workshops, each as the text of its file.

use super::prefixes::{LINE_KEY, MEASURED_KEY, STEPS_KEY, WORKSHOP_KEY, WOUND_KEY};
use crate::design::{self, Design};
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::book::file::{self as book_file, BookError};
use crate::keep::share::file::{self, FileError};
use crate::keep::share::measured_file::{self, MeasuredFileError};
use crate::measured::{self, MeasuredDraft, MeasuredLine};

/// Why a text gives no work of a kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// Whether a newer version of this page wrote it.
    pub is_newer: bool,
    /// Why, in words.
    pub why: String,
}

/// Something the maker made, that the shelf keeps as a text.
pub trait Document: Clone + PartialEq {
    /// What it is, in words: “line”.
    const WORD: &'static str;
    /// Keys: this, then a number, then the mark of a state.
    const PREFIX: &'static str;
    /// Keys of notes that one is in the bin: this, then its number.
    const BIN: &'static str;
    /// Keys of what is kept beside one as a convenience, and goes for good when it does: this, then its number.
    const BESIDE: &'static [&'static str] = &[];
    /// The number of the format written.
    const FORMAT: u32;
    /// Largest file, in bytes: more is not read.
    const LARGEST: usize;
    /// What it is called until it has a name.
    const UNNAMED: &'static str;
    /// Most characters in a name.
    const NAME_ROOM: usize = design::NAME_ROOM;

    /// What a text holds.
    ///
    /// # Errors
    /// [`Unread`] says why it holds nothing of the kind.
    fn read(text: &str) -> Result<Self, Unread>;

    /// What can be shown of a text of a newer format, where it holds nothing this version does not know.
    fn glimpse(text: &str) -> Option<Self>;

    /// Its text.
    fn write(&self) -> String;

    /// What the maker calls it; may be empty.
    fn name(&self) -> &str;

    /// The same under another name.
    #[must_use]
    fn renamed(&self, name: &str) -> Self;
}

impl Document for Design {
    const WORD: &'static str = "line";
    const PREFIX: &'static str = LINE_KEY;
    const BIN: &'static str = "taperwright/bin/line/";
    const BESIDE: &'static [&'static str] = &[STEPS_KEY, WOUND_KEY];
    const FORMAT: u32 = file::VERSION;
    const LARGEST: usize = file::LARGEST;
    const UNNAMED: &'static str = design::UNNAMED;

    fn read(text: &str) -> Result<Self, Unread> {
        file::read(text).map_err(|error| Unread {
            is_newer: matches!(error, FileError::Newer(_)),
            why: error.to_string(),
        })
    }

    fn glimpse(text: &str) -> Option<Self> {
        file::glimpse(text)
    }

    fn write(&self) -> String {
        file::write_small(self)
    }

    fn name(&self) -> &str {
        &self.draft().name
    }

    fn renamed(&self, name: &str) -> Self {
        let renamed = Edit::Name(name.to_owned()).apply(self);
        renamed.unwrap_or_else(|_| self.clone())
    }
}

impl Document for Workshop {
    const WORD: &'static str = "workshop";
    const PREFIX: &'static str = WORKSHOP_KEY;
    const BIN: &'static str = "taperwright/bin/workshop/";
    const FORMAT: u32 = book_file::VERSION;
    const LARGEST: usize = book_file::LARGEST;
    const UNNAMED: &'static str = crate::keep::book::UNNAMED;

    fn read(text: &str) -> Result<Self, Unread> {
        book_file::read(text).map_err(|error| Unread {
            is_newer: matches!(error, BookError::Newer(_)),
            why: error.to_string(),
        })
    }

    fn glimpse(text: &str) -> Option<Self> {
        book_file::glimpse(text)
    }

    fn write(&self) -> String {
        book_file::write(self)
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn renamed(&self, name: &str) -> Self {
        Self {
            name: name.to_owned(),
            ..self.clone()
        }
    }
}

impl Document for MeasuredLine {
    const WORD: &'static str = "measured line";
    const PREFIX: &'static str = MEASURED_KEY;
    const BIN: &'static str = "taperwright/bin/measured/";
    const FORMAT: u32 = measured_file::VERSION;
    const LARGEST: usize = measured_file::LARGEST;
    const UNNAMED: &'static str = measured::UNNAMED;

    fn read(text: &str) -> Result<Self, Unread> {
        measured_file::read(text).map_err(|error| Unread {
            is_newer: matches!(error, MeasuredFileError::Newer(_)),
            why: error.to_string(),
        })
    }

    fn glimpse(text: &str) -> Option<Self> {
        measured_file::glimpse(text)
    }

    fn write(&self) -> String {
        measured_file::write(self)
    }

    fn name(&self) -> &str {
        &self.draft().name
    }

    fn renamed(&self, name: &str) -> Self {
        let renamed = Self::parse(MeasuredDraft {
            name: name.to_owned(),
            ..self.draft().clone()
        });
        renamed.unwrap_or_else(|_| self.clone())
    }
}
