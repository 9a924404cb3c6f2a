//! What a table of readings gives, and why one gives nothing.

use core::fmt;

use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::measured::{DraftReading, DraftUnread, MOST_READINGS, MeasuredEdit, Trust};

/// Largest text read, in bytes: two thousand readings with long remarks take a fifth of it.
pub const LARGEST: usize = 1_000_000;
/// Most rows looked at that are not blank.
pub(super) const MOST_ROWS: usize = 10_000;
/// Most cells looked at.
pub(super) const MOST_CELLS: usize = 200_000;
/// Most cells of one row: twice as many as a table on its side needs.
pub(super) const MOST_COLUMNS: usize = 4_096;

/// What the reader asks for before a table is read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct AskedUnits {
    /// The unit of places; replaces what the heading says. A unit written in a cell still applies to that cell. One that
    /// measures no length is as none.
    pub place: Option<Unit>,
    /// The unit of diameters, likewise.
    pub diameter: Option<Unit>,
    /// The reader's own system: it decides where neither the table nor the sizes in it do.
    pub system: Units,
}

/// A table that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadTable {
    /// Place and diameter, in the order of the table. Both are in the range and on the steps of a
    /// design's: 0 to 100 m from the tip, 0.1 to 10 mm.
    pub readings: Vec<(Length, Length)>,
    /// The unit of places without a unit of their own.
    pub at_unit: Unit,
    /// The unit of diameters without a unit of their own.
    pub diameter_unit: Unit,
    /// Whether places had no unit, so that their size decided.
    pub at_assumed: bool,
    /// Whether diameters had no unit, so that their size decided.
    pub diameter_assumed: bool,
    /// Rows, or cells of them, that gave no reading, in the order of the table.
    pub unread: Vec<UnreadRow>,
    /// The columns that hold something and were not used: their headings, or `column 3` where they have none.
    pub passed_by: Vec<String>,
    /// The line's name, where [`write`](super::write()) wrote one.
    pub name: Option<String>,
    /// Which rows became what.
    pub rows: Rows,
}

impl ReadTable {
    /// The edit that adds its readings to a measured line, the rows that gave none, and its name where the line has none.
    pub fn edit(&self) -> MeasuredEdit {
        let reading = |&(at, diameter): &(Length, Length)| DraftReading {
            at_m: at.metres(),
            diameter_mm: diameter.millimetres(),
            trust: Trust::Judged,
        };
        let unread = |row: &UnreadRow| DraftUnread {
            row: u32::try_from(row.row).unwrap_or(u32::MAX),
            text: row.text.clone(),
            why: row.why.clone(),
        };
        MeasuredEdit::Table {
            name: self.name.clone(),
            readings: self.readings.iter().map(reading).collect(),
            unread: self.unread.iter().map(unread).collect(),
        }
    }
}

/// Numbers of rows, counted from 1 as a spreadsheet counts: blank ones too, and a row whose cells hold several lines once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Rows {
    /// Those that gave a reading at least. Of a table on its side: the row of places and those of diameters.
    pub read: Vec<usize>,
    /// Headings and units.
    pub heading: Vec<usize>,
    /// Comments, rules and the line that names the separator.
    pub comments: Vec<usize>,
}

/// A row that gave no reading, or not all of its readings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnreadRow {
    /// Its number, counted as in [`Rows`].
    pub row: usize,
    /// The row as it stood, at most 200 characters; what cannot be seen is a blank.
    pub text: String,
    /// What is wrong and what to do, in a sentence or two.
    pub why: String,
}

/// Why a text gave no table of readings.
#[derive(Clone, Debug, PartialEq)]
pub enum TableError {
    /// More bytes than are read.
    TooLarge,
    /// Not a text: a spreadsheet file itself, a picture.
    Binary,
    /// A text without rows of numbers.
    NotATable,
    /// Rows, but no reading in any.
    NothingRead {
        /// The first rows, three at most, each with what is wrong.
        first: Vec<UnreadRow>,
    },
    /// A heading names a unit that is not known here, such as hundredths of a millimetre.
    UnknownUnit {
        /// The heading.
        heading: String,
    },
    /// Commas before the decimals as well as between the cells.
    TwoKindsOfComma,
    /// More readings than a line can have; so many.
    TooMany {
        /// The readings counted.
        readings: usize,
    },
    /// More rows or cells than are looked at.
    TooManyCells,
}

impl fmt::Display for TableError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The table is too large: at most {LARGEST} bytes are read. Copy only the columns with places and diameters."
            ),
            Self::Binary => write!(
                out,
                "This is not text. In the spreadsheet, copy the cells and paste them here, or save the sheet as CSV."
            ),
            Self::NotATable => write!(
                out,
                "There is no table of numbers here. Each row needs a place and a diameter, such as “0.5; 0.95”."
            ),
            Self::NothingRead { first } => {
                write!(out, "No reading was found.")?;
                match first.first() {
                    Some(UnreadRow { row, why, .. }) => write!(out, " Row {row}: {why}"),
                    None => write!(
                        out,
                        " Add rows with a place and a diameter below the heading."
                    ),
                }
            }
            Self::UnknownUnit { heading } => write!(
                out,
                "The unit in the heading “{heading}” is not known here. Choose the unit yourself, or change the heading to mm."
            ),
            Self::TwoKindsOfComma => write!(
                out,
                "Commas are between the cells and before the decimals, so neither can be seen. Copy the cells, or save with semicolons."
            ),
            Self::TooMany { readings } => write!(
                out,
                "The table has {readings} readings; a line can have {MOST_READINGS}. Leave some rows out."
            ),
            Self::TooManyCells => write!(
                out,
                "The table is too large: at most {MOST_ROWS} rows and {MOST_CELLS} cells are read. Copy only the columns needed."
            ),
        }
    }
}
