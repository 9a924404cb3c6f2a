//! A file that comes without a button that says what it is: a line, a measured line, or a bench book.

use core::fmt;

use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::book::file::{self as book, BookError};
use crate::keep::share::envelope;
use crate::keep::share::file::{self, FileError};
use crate::keep::share::link::{self, LinkError};
use crate::keep::share::measured_file::{self, MeasuredFileError};
use crate::measured::MeasuredLine;

/// Largest file worth reading, in bytes.
pub const LARGEST: usize = book::LARGEST;

/// What a file turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub enum Dropped {
    /// A line.
    Line(Box<Design>),
    /// The bench book of a workshop.
    Book(Box<Workshop>),
    /// A measured line.
    Measured(Box<MeasuredLine>),
}

/// Why what was dropped opens nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum DropError {
    /// More files than one; so many.
    Several(usize),
    /// A file whose end is missing.
    CutOff,
    /// Neither a design file nor a bench book.
    Unknown,
    /// Words, but no link to a line.
    NoLink,
    /// A link to a line with something wrong.
    Link(LinkError),
    /// A design file with something wrong.
    Line(FileError),
    /// A bench book with something wrong.
    Book(BookError),
    /// A measured line with something wrong.
    Measured(MeasuredFileError),
}

impl fmt::Display for DropError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Several(count) => write!(
                out,
                "You dropped {count} things at once, so none was opened. Drop one file at a time."
            ),
            Self::CutOff => write!(out, "{}", envelope::CUT_OFF),
            Self::Unknown => write!(
                out,
                "What you dropped is not a file from Taperwright: not a line, a bench book or a backup. Drop a file that was saved here."
            ),
            Self::NoLink => write!(
                out,
                "What you dropped has no line in it. A link to a line contains “#{}”.",
                link::PREFIX
            ),
            Self::Link(error) => write!(out, "{error}"),
            Self::Line(error) => write!(out, "{error}"),
            Self::Book(error) => write!(out, "{error}"),
            Self::Measured(error) => write!(out, "{error}"),
        }
    }
}

/// What the text of a file holds.
///
/// # Errors
/// [`DropError`] says what the file is not, or what is wrong with it.
pub fn read(text: &str) -> Result<Dropped, DropError> {
    if text.len() > LARGEST {
        return Err(DropError::Book(BookError::TooLarge));
    }
    let format = envelope::format_of(text, &book::SHAPE);
    match format.as_deref() {
        Ok(file::FORMAT) => file::read(text)
            .map(|design| Dropped::Line(Box::new(design)))
            .map_err(DropError::Line),
        Ok(book::FORMAT) => book::read(text)
            .map(|workshop| Dropped::Book(Box::new(workshop)))
            .map_err(DropError::Book),
        Ok(measured_file::FORMAT) => measured_file::read(text)
            .map(|line| Dropped::Measured(Box::new(line)))
            .map_err(DropError::Measured),
        Err(envelope::Unopened::CutOff) => Err(DropError::CutOff),
        _ => Err(DropError::Unknown),
    }
}
