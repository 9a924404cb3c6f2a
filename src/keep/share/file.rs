//! The design file, version 4: JSON in UTF-8, at most 1,000,000 bytes.
//!
//! ```json
//! {
//!   "format": "taperwright design",
//!   "version": 4,
//!   "design": {
//!     "name": "Heron Weir double taper", "notes": "",
//!     "fibre": "silk", "condition": "as-braided", "build": "more-threads", "pattern": "regular",
//!     "mounted": { "clockwise": [], "counter_clockwise": [] },
//!     "train": "driver", "gears": [15.0, 16.0],
//!     "settings": { "label_low_denier": 20.0, "…": 0.0 },
//!     "pins": [{ "pin": "place", "threads": 8, "heavy": 0, "rising": true, "at_m": 0.5 }],
//!     "recipe": [{ "kind": "oil-vacuum", "hours": 2.0, "mbar": 100.0 }],
//!     "workshop": "Heron Weir, lot A", "learned": null, "original": null,
//!     "points": [{ "at_m": 0.0, "diameter_mm": 0.76 }, { "at_m": 25.146, "diameter_mm": 0.76 }]
//!   }
//! }
//! ```
//!
//! - `mounted` lists places from 0 in track order; an empty list means every place. `gears` are teeth; a gear owned twice stands
//!   twice.
//! - `settings` holds every key of the table of settings, no more and no less; units are in the keys. Only a setting younger than
//!   the format may be missing ([`Setting::may_be_missing`](crate::design::settings::Setting::may_be_missing)).
//! - A pin names the lower level of a change: `threads`, of which `heavy` are heavier.
//! - `recipe` lists at most 40 dressing steps; a value its kind does not take may be missing.
//! - `learned` is null, or `spreads` (one standard deviation of each parameter, in the unit of its setting),
//!   `correlations_percent` of every pair, `scatter_percent`, `swatches` and `lines`.
//! - `original` is null, or the measured line of which the design is a copy: `name`, `head_g` (what its first 30 ft weigh, grams;
//!   may be null), and `points` like those of the design.
//! - `points` begin at 0 m, at least 10 mm apart, 2 to 1,000 of them. Numbers are brought to their step on reading.
//!
//! A higher version is refused as newer. Version 3 has no `original`, and is read. Versions 1 and 2 were never released and are refused. The schema is
//! `tests/doors/design.schema.json` (JSON Schema 2020-12); the reader also holds the order of points and what makes a pair.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::design::refusal::Refusal;
use crate::design::{Design, Draft};
use crate::keep::share::envelope::{self, FileKind, Unopened, stem};
use crate::keep::share::shape::Shape;

/// The word by which a design file is known.
pub const FORMAT: &str = "taperwright design";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 4;
/// The oldest format read.
const OLDEST: u32 = 3;
/// Largest file read, in bytes: forty times the largest ever written.
pub const LARGEST: usize = 1_000_000;

/// Why a file gave no design.
#[derive(Clone, Debug, PartialEq)]
pub enum FileError {
    /// More bytes than any design file has.
    TooLarge,
    /// The end is missing.
    CutOff,
    /// Not a design file at all.
    NotADesign,
    /// A design file by a version that was never released.
    Unreleased(u32),
    /// A design file by a newer version of this program.
    Newer(u32),
    /// A design file with something missing, added or misspelt.
    Damaged(String),
    /// Readable, but not a design that could be braided.
    Refused(Refusal),
}

impl fmt::Display for FileError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The file is too large: a design file has at most {LARGEST} bytes. Check that you chose the right file."
            ),
            Self::CutOff => write!(out, "{}", envelope::CUT_OFF),
            Self::NotADesign => {
                write!(
                    out,
                    "This is not a Taperwright design file. Choose a file that was saved here with “Save file”."
                )
            }
            Self::Unreleased(version) => write!(
                out,
                "The file has format {version}, from an early version that was never released. This page reads formats {OLDEST} and {VERSION}. Choose a file that was saved later."
            ),
            Self::Newer(version) => write!(
                out,
                "The file has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
            ),
            Self::Damaged(what) => write!(
                out,
                "The design file is damaged: {what}. Look for another copy of it."
            ),
            Self::Refused(refusal) => write!(out, "The file's design cannot be used. {refusal}"),
        }
    }
}

#[derive(Serialize)]
struct DesignFile<'a> {
    format: &'static str,
    version: u32,
    design: &'a Draft,
}

#[derive(Deserialize)]
struct Contents {
    design: Draft,
}

/// The file of a design.
pub fn write(design: &Design) -> String {
    serde_json::to_string_pretty(&written(design))
        .expect("a design is finite numbers and text, which JSON always holds")
}

/// The file of a design without blanks and line ends: half the size, read in the same way. The shelf keeps lines so.
pub fn write_small(design: &Design) -> String {
    serde_json::to_string(&written(design))
        .expect("a design is finite numbers and text, which JSON always holds")
}

fn written(design: &Design) -> DesignFile<'_> {
    DesignFile {
        format: FORMAT,
        version: VERSION,
        design: design.draft(),
    }
}

/// A file name made from the line's title: letters, digits and dashes only.
pub fn name(design: &Design) -> String {
    format!("{}.taper.json", stem(design.title(), "line"))
}

const KIND: FileKind = FileKind {
    format: FORMAT,
    oldest: OLDEST,
    version: VERSION,
    largest: LARGEST,
    shape: SHAPE,
};
/// A design is nested four deep and has some 350 braces; many more are let by, so that a list too long is reported as such.
const SHAPE: Shape = Shape {
    depth: 8,
    pieces: 40_000,
    text: 100_000,
    long: &[],
};

/// The design of a file.
///
/// # Errors
/// [`FileError`] says what the file did wrong.
pub fn read(text: &str) -> Result<Design, FileError> {
    KIND.admits(text)?;
    let draft = contents(text)?;
    Design::parse(draft).map_err(FileError::Refused)
}

/// The design of a file of a newer format that holds nothing unknown here; `None` for all others. To look at, never to
/// write back: what the newer version means by it is not known.
pub fn glimpse(text: &str) -> Option<Design> {
    let newer = matches!(KIND.admits(text), Err(Unopened::Newer(_)));
    let draft = newer.then(|| contents(text))?.ok()?;
    Design::parse(draft).ok()
}

impl From<Unopened> for FileError {
    fn from(unopened: Unopened) -> Self {
        match unopened {
            Unopened::TooLarge => Self::TooLarge,
            Unopened::Misshapen => Self::Damaged(envelope::MISSHAPEN.to_owned()),
            Unopened::CutOff => Self::CutOff,
            Unopened::Other => Self::NotADesign,
            Unopened::Unreleased(version) => Self::Unreleased(version),
            Unopened::Newer(version) => Self::Newer(version),
        }
    }
}

fn contents(text: &str) -> Result<Draft, FileError> {
    let contents: Contents = envelope::contents(text).map_err(FileError::Damaged)?;
    Ok(contents.design)
}
