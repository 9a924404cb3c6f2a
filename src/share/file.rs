//! The design file: JSON, with a word that says what it is and the number of its format. See DEVELOPERS.md.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::design::refusal::Refusal;
use crate::design::{Design, Draft};
use crate::share::{first, second};

/// The word by which a design file is known.
pub const FORMAT: &str = "taperwright design";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 3;
/// Largest file read, in bytes: forty times the largest ever written.
pub const LARGEST: usize = 1_000_000;

/// Why a file gave no design.
#[derive(Clone, Debug, PartialEq)]
pub enum FileError {
    /// More bytes than any design file has.
    TooLarge,
    /// Not a design file at all.
    NotADesign,
    /// Written by a newer version of this program.
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
                "The file is too large: a design file has at most {LARGEST} bytes. Is it the right one?"
            ),
            Self::NotADesign => {
                write!(
                    out,
                    "This is not a Taperwright design file. Choose one saved here with “Save file”."
                )
            }
            Self::Newer(version) => write!(
                out,
                "The file is of format {version}; this page reads up to {VERSION}. Reload the page to get its newest version."
            ),
            Self::Damaged(what) => write!(out, "The design file is damaged: {what}."),
            Self::Refused(refusal) => write!(out, "The file's design cannot be used. {refusal}"),
        }
    }
}

#[derive(Serialize)]
struct Written<'a> {
    format: &'static str,
    version: u32,
    design: &'a Draft,
}

/// What every version of the format has in common.
#[derive(Deserialize)]
struct Envelope {
    format: String,
    version: u32,
}

#[derive(Deserialize)]
struct Contents<D> {
    design: D,
}

/// The file of a design.
pub fn write(design: &Design) -> String {
    let written = Written {
        format: FORMAT,
        version: VERSION,
        design: design.draft(),
    };
    serde_json::to_string_pretty(&written)
        .expect("a design is finite numbers and text, which JSON always holds")
}

/// A file name made from the line's title: letters, digits and dashes only.
pub fn name(design: &Design) -> String {
    let dashed: String = design
        .title()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let words: Vec<&str> = dashed.split('-').filter(|word| !word.is_empty()).collect();
    let stem = if words.is_empty() {
        "line".to_owned()
    } else {
        words.join("-")
    };
    format!("{}.taper.json", stem.to_lowercase())
}

/// The design of a file.
///
/// # Errors
/// [`FileError`] says what the file did wrong.
pub fn read(text: &str) -> Result<Design, FileError> {
    if text.len() > LARGEST {
        return Err(FileError::TooLarge);
    }
    let envelope: Envelope = serde_json::from_str(text).map_err(|_| FileError::NotADesign)?;
    if envelope.format != FORMAT || envelope.version == 0 {
        return Err(FileError::NotADesign);
    }
    if envelope.version > VERSION {
        return Err(FileError::Newer(envelope.version));
    }
    let draft = match envelope.version {
        1 => contents::<first::Draft>(text)?.into(),
        2 => contents::<second::Draft>(text)?.into(),
        _ => contents::<Draft>(text)?,
    };
    Design::parse(draft).map_err(FileError::Refused)
}

fn contents<D: serde::de::DeserializeOwned>(text: &str) -> Result<D, FileError> {
    let contents: Contents<D> =
        serde_json::from_str(text).map_err(|error| FileError::Damaged(error.to_string()))?;
    Ok(contents.design)
}
