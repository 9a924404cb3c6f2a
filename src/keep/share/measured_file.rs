//! The file of a measured line, version 1: JSON in UTF-8, at most 1,000,000 bytes.
//!
//! ```json
//! {
//!   "format": "taperwright measured line",
//!   "version": 1,
//!   "measured": {
//!     "name": "Old Heron", "notes": "",
//!     "micrometer_um": 5.0, "closeness": 0, "length_m": 25.2,
//!     "readings": [{ "at_m": 0.5, "diameter_mm": 0.912 }, { "at_m": 1.0, "diameter_mm": 1.4, "trust": "left-out" }],
//!     "whole_g": 18.6, "head_g": null,
//!     "cuts": [{ "from_m": 0.0, "to_m": 1.0, "mass_g": 0.61 }],
//!     "unread": [{ "row": 7, "text": "7.5;?", "why": "“?” is not a number." }]
//!   }
//! }
//! ```
//!
//! - Every key must be there but `trust`: `judged`, `used` or `left-out`, the first where it is missing.
//! - At most 2,000 readings, in any order; 40 pieces weighed; 500 rows that were not understood. Numbers are brought to their step
//!   on reading.
//! - A higher version is refused as newer.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::design::refusal::Refusal;
use crate::keep::share::envelope::{self, FileKind, Unopened, stem};
use crate::keep::share::shape::Shape;
use crate::measured::{MeasuredDraft, MeasuredLine};

/// The word by which the file is known.
pub const FORMAT: &str = "taperwright measured line";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 1;
/// Largest file read, in bytes: twice the largest ever written.
pub const LARGEST: usize = 1_000_000;

/// Why a file gave no measured line.
#[derive(Clone, Debug, PartialEq)]
pub enum MeasuredFileError {
    /// More bytes than any such file has.
    TooLarge,
    /// The end is missing.
    CutOff,
    /// Not such a file at all.
    NotMeasured,
    /// Such a file by a newer version of this program.
    Newer(u32),
    /// Such a file with something missing, added or misspelt.
    Damaged(String),
    /// Readable, but no line that there could be.
    Refused(Refusal),
}

impl fmt::Display for MeasuredFileError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The file is too large: a measured line has at most {LARGEST} bytes. Check that you chose the right file."
            ),
            Self::CutOff => write!(out, "{}", envelope::CUT_OFF),
            Self::NotMeasured => write!(
                out,
                "This is not a measured line from Taperwright. Choose a file that was saved here with “Save file”."
            ),
            Self::Newer(version) => write!(
                out,
                "The file has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
            ),
            Self::Damaged(what) => write!(
                out,
                "The file of the measured line is damaged: {what}. Look for another copy of it."
            ),
            Self::Refused(refusal) => {
                write!(
                    out,
                    "The measured line in the file cannot be used. {refusal}"
                )
            }
        }
    }
}

#[derive(Serialize)]
struct MeasuredFile<'a> {
    format: &'static str,
    version: u32,
    measured: &'a MeasuredDraft,
}

#[derive(Deserialize)]
struct Contents {
    measured: MeasuredDraft,
}

const KIND: FileKind = FileKind {
    format: FORMAT,
    oldest: VERSION,
    version: VERSION,
    largest: LARGEST,
    shape: SHAPE,
};
/// A measured line is nested four deep and has some 2,550 braces; more are let by, so that a list too long is reported as such.
const SHAPE: Shape = Shape {
    depth: 8,
    pieces: 40_000,
    text: 100_000,
    long: &[],
};

/// The file of a measured line, without blanks and line ends.
pub fn write(line: &MeasuredLine) -> String {
    let file = MeasuredFile {
        format: FORMAT,
        version: VERSION,
        measured: line.draft(),
    };
    serde_json::to_string(&file)
        .expect("a measured line is finite numbers and text, which JSON always holds")
}

/// A file name made from the line's title: letters, digits and dashes only.
pub fn name(line: &MeasuredLine) -> String {
    format!("{}.measured.json", stem(line.title(), "measured-line"))
}

/// The measured line of a file.
///
/// # Errors
/// [`MeasuredFileError`] says what the file did wrong.
pub fn read(text: &str) -> Result<MeasuredLine, MeasuredFileError> {
    KIND.admits(text)?;
    MeasuredLine::parse(contents(text)?).map_err(MeasuredFileError::Refused)
}

/// The measured line of a file of a newer format that holds nothing unknown here; `None` for all others. To look at, never to
/// write back.
pub fn glimpse(text: &str) -> Option<MeasuredLine> {
    let newer = matches!(KIND.admits(text), Err(Unopened::Newer(_)));
    let draft = newer.then(|| contents(text))?.ok()?;
    MeasuredLine::parse(draft).ok()
}

impl From<Unopened> for MeasuredFileError {
    fn from(unopened: Unopened) -> Self {
        match unopened {
            Unopened::TooLarge => Self::TooLarge,
            Unopened::Misshapen => Self::Damaged(envelope::MISSHAPEN.to_owned()),
            Unopened::CutOff => Self::CutOff,
            Unopened::Other | Unopened::Unreleased(_) => Self::NotMeasured,
            Unopened::Newer(version) => Self::Newer(version),
        }
    }
}

fn contents(text: &str) -> Result<MeasuredDraft, MeasuredFileError> {
    let contents: Contents = envelope::contents(text).map_err(MeasuredFileError::Damaged)?;
    Ok(contents.measured)
}
