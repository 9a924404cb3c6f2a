//! The file of a bench book, version 5: JSON, at most 5,000,000 bytes.
//!
//! `{ "format": "taperwright bench book", "version": 5, "workshop": { … } }`
//!
//! The workshop has `name`, `notes`, `base` (the code of the design whose settings were believed first), and at most 500
//! `swatches` and 500 `records`. Measured numbers are under names with their units; a missing one was not measured, and one that is
//! not a number is kept as a text. A record has `design` (a code), `line` (its number on this browser's shelf), `run` (`done` events,
//! `circuits` counted, `mishaps`), `diary` (`start` and `ticks`, ISO days), `bare`, `coats` and `finished`. Impossible numbers are
//! kept; learning leaves them out.
//!
//! Numbers far from what was expected that the maker confirmed are named: in `confirmed` of a swatch, by `mass_confirmed` and
//! `head_mass_confirmed` at a stage of a line, by `confirmed` of a diameter. Version 1 had none of these; it is read. Version 2 had
//! no `thread_length_m` and `thread_mass_g` of a swatch, a length of its thread weighed before braiding; it is read, too.
//! Version 3 had no `machine_notes` of a workshop, no `tension` of a swatch, no `setup`, `clock` and `checks` of a run, and no `drawn` of
//! a mishap; it is read.
//! Version 4 had no `angle_error_deg`, `crossings_error` and `picture` of a swatch, and no `error` of a check; it is read.
//!
//! An own error is one standard deviation: of an angle in degrees, of crossings in crossings over the length counted, of a check in the
//! unit of its kind. One that cannot be is left out, and the usual one holds. A picture is a JPEG as a data address of at most 32,000
//! characters; a file with anything else in its place is refused.

use core::fmt;

use serde::{Deserialize, Serialize};

use super::later_version::of_a_later_version;
use super::limits::{MOST_COATS, MOST_DIAMETERS, MOST_RECORDS, MOST_SWATCHES};
use super::machine_notes::{CARRIER_ROOM, MARK_ROOM, MOST_LEFT_OVER, MachineNotes, TENSION_ROOM};
use super::record::LineRecord;
use super::swatch::{Swatch, SwatchField};
use super::workshop::Workshop;
use crate::braid::recipe::MOST_STEPS;
use crate::design::check::text;
use crate::design::refusal::{Place, Refusal};
use crate::design::{NAME_ROOM, NOTES_ROOM};
use crate::keep::share::envelope::{CUT_OFF, FileKind, MISSHAPEN, Unopened, contents, stem};
use crate::keep::share::shape::Shape;
use crate::plan::run::{MOST_CHECKS, MOST_MISHAPS, MOST_SETUP_TICKS, MOST_TIMED};

/// The word by which a bench book is known.
pub const FORMAT: &str = "taperwright bench book";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 5;
/// Largest file read or made, in bytes. A browser gives a page some five million characters for all it keeps, and a book is
/// nearly all of characters of one byte: a larger one could be kept nowhere.
pub const LARGEST: usize = 5_000_000;

/// Why a file gave no book, or a book cannot be kept.
#[derive(Clone, Debug, PartialEq)]
pub enum BookError {
    /// More bytes than any book has.
    TooLarge,
    /// The end is missing.
    CutOff,
    /// Not a bench book at all.
    NotABook,
    /// A book file by a newer version of this program.
    Newer(u32),
    /// More pages than go into the largest file; so many bytes would be needed.
    Full(usize),
    /// A bench book with something missing, added or misspelt.
    Damaged(String),
    /// More of something than there is room for.
    TooMany {
        /// Of what.
        what: &'static str,
        /// How many there may be.
        most: usize,
    },
    /// A text that does not fit.
    Refused(Refusal),
}

impl fmt::Display for BookError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The file is too large: a bench book has at most {LARGEST} bytes. Check that you chose the right file."
            ),
            Self::CutOff => write!(out, "{CUT_OFF}"),
            Self::NotABook => write!(
                out,
                "This is not a Taperwright bench book. Choose a file that was saved from a bench book."
            ),
            Self::Newer(version) => write!(
                out,
                "This bench book has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
            ),
            Self::Damaged(what) => write!(
                out,
                "The bench book is damaged: {what}. Look for another copy of it."
            ),
            Self::TooMany { what, most } => write!(
                out,
                "The bench book has too many {what}: there is room for {most}. Start another workshop for the rest."
            ),
            Self::Full(bytes) => write!(
                out,
                "The bench book needs {bytes} bytes; there is room for {LARGEST}. Start another workshop for the rest."
            ),
            Self::Refused(refusal) => write!(out, "The bench book cannot be used. {refusal}"),
        }
    }
}

const KIND: FileKind = FileKind {
    format: FORMAT,
    oldest: 1,
    version: VERSION,
    largest: LARGEST,
    shape: SHAPE,
};

/// A book is nested eight deep. Every diameter written takes more than 31 bytes, so that the largest file has no more
/// pieces than this; the code of a line is its longest text.
pub(crate) const SHAPE: Shape = Shape {
    depth: 16,
    pieces: LARGEST / 31,
    text: 100_000,
    long: &[],
};

#[derive(Serialize)]
struct BookFile<'a> {
    format: &'static str,
    version: u32,
    workshop: &'a Workshop,
}

#[derive(Deserialize)]
struct Contents {
    version: u32,
    workshop: Workshop,
}

/// The file of a workshop's book.
pub fn write(workshop: &Workshop) -> String {
    // Grown by doubling, a large one would for a moment take up three times its room.
    written_into(Vec::with_capacity(bytes(workshop)), workshop)
}

fn written_into(mut room: Vec<u8>, workshop: &Workshop) -> String {
    let written = BookFile {
        format: FORMAT,
        version: VERSION,
        workshop,
    };
    serde_json::to_writer(&mut room, &written)
        .expect("numbers and texts always have a form in JSON");
    String::from_utf8(room).expect("JSON is text")
}

/// A file name made from the workshop's title: letters, digits and dashes only.
pub fn name(workshop: &Workshop) -> String {
    format!("{}.bench.json", stem(workshop.title(), "workshop"))
}

/// The workshop of a file. Numbers that cannot be are read all the same; lines whose design this version cannot read are
/// kept as they are.
///
/// # Errors
/// [`BookError`] says what the file did wrong.
pub fn read(text: &str) -> Result<Workshop, BookError> {
    KIND.admits(text)?;
    let contents: Contents = contents(text).map_err(BookError::Damaged)?;
    let version = contents.version;
    if let Some(what) = of_a_later_version(version, &contents.workshop) {
        let what = format!("format {version} has no {what}, and this has some");
        return Err(BookError::Damaged(what));
    }
    contents.workshop.admitted()
}

/// The workshop of a book of a newer format that holds nothing unknown here; `None` for all others. To look at, never to
/// write back.
pub fn glimpse(text: &str) -> Option<Workshop> {
    let newer = matches!(KIND.admits(text), Err(Unopened::Newer(_)));
    let contents: Contents = newer.then(|| contents(text))?.ok()?;
    contents.workshop.admitted().ok()
}

impl From<Unopened> for BookError {
    fn from(unopened: Unopened) -> Self {
        match unopened {
            Unopened::TooLarge => Self::TooLarge,
            Unopened::Misshapen => Self::Damaged(MISSHAPEN.to_owned()),
            Unopened::CutOff => Self::CutOff,
            Unopened::Other | Unopened::Unreleased(_) => Self::NotABook,
            Unopened::Newer(version) => Self::Newer(version),
        }
    }
}

impl Workshop {
    /// The workshop with its texts cleaned and its numbers kept to twelve digits, when all of it fits a book. What has been
    /// admitted reads back from its file as it is.
    ///
    /// # Errors
    /// [`BookError::TooMany`] of pages, [`BookError::Refused`] of a text too long, [`BookError::Full`] of all together.
    pub fn admitted(self) -> Result<Self, BookError> {
        room("swatches", self.swatches.len(), MOST_SWATCHES)?;
        room("lines", self.records.len(), MOST_RECORDS)?;
        let (name, notes) = texts(&self.name, &self.notes)?;
        let machine_notes = machine_notes(self.machine_notes)?;
        let swatches = self.swatches.into_iter().map(swatch);
        let records = self.records.into_iter().map(record);
        let admitted = Self {
            name,
            notes,
            machine_notes,
            swatches: swatches.collect::<Result<_, _>>()?,
            records: records.collect::<Result<_, _>>()?,
            ..self
        };
        match bytes(&admitted) {
            bytes if bytes > LARGEST => Err(BookError::Full(bytes)),
            _ => Ok(admitted),
        }
    }
}

/// Bytes of the file of a book, calculated page by page, so that it need not be there as a whole.
fn bytes(workshop: &Workshop) -> usize {
    let swatches = workshop.swatches.iter().map(page);
    let records = workshop.records.iter().map(page);
    let cover = Workshop {
        name: workshop.name.clone(),
        notes: workshop.notes.clone(),
        machine_notes: workshop.machine_notes.clone(),
        ..Workshop::new(String::new(), &workshop.base)
    };
    // Between pages stands a comma, one fewer than there are pages of a kind.
    let commas = [workshop.swatches.len(), workshop.records.len()];
    let commas: usize = commas.map(|pages| pages.saturating_sub(1)).iter().sum();
    written_into(Vec::new(), &cover).len() + swatches.chain(records).sum::<usize>() + commas
}

fn page<P: Serialize>(page: &P) -> usize {
    serde_json::to_string(page)
        .expect("numbers and texts always have a form in JSON")
        .len()
}

fn room(what: &'static str, count: usize, most: usize) -> Result<(), BookError> {
    if count > most {
        Err(BookError::TooMany { what, most })
    } else {
        Ok(())
    }
}

fn texts(name: &str, notes: &str) -> Result<(String, String), BookError> {
    let name = text(name, Place::Name, NAME_ROOM).map_err(BookError::Refused)?;
    let notes = text(notes, Place::Notes, NOTES_ROOM).map_err(BookError::Refused)?;
    Ok((name, notes))
}

fn machine_notes(notes: MachineNotes) -> Result<MachineNotes, BookError> {
    room(
        "bobbins with thread left",
        notes.left_over.len(),
        MOST_LEFT_OVER,
    )?;
    let short = |raw: &str, most| text(raw, Place::Notes, most).map_err(BookError::Refused);
    for left in &notes.left_over {
        short(&left.carrier, CARRIER_ROOM)?;
    }
    Ok(MachineNotes {
        tension: short(&notes.tension, TENSION_ROOM)?,
        first_mark: short(&notes.first_mark, MARK_ROOM)?,
        later_mark: short(&notes.later_mark, MARK_ROOM)?,
        ..notes.kept()
    })
}

fn swatch(mut swatch: Swatch) -> Result<Swatch, BookError> {
    for field in SwatchField::ALL {
        swatch.set(field, swatch.get(field));
    }
    swatch.keep_possible_errors();
    for field in core::mem::take(&mut swatch.confirmed) {
        swatch.confirm(field);
    }
    let (name, notes) = texts(&swatch.name, &swatch.notes)?;
    let tension = text(&swatch.tension, Place::Notes, TENSION_ROOM).map_err(BookError::Refused)?;
    Ok(Swatch {
        name,
        notes,
        tension,
        ..swatch
    })
}

fn record(mut record: LineRecord) -> Result<LineRecord, BookError> {
    room("coats on a line", record.coats.len(), MOST_COATS)?;
    let coats = record.coats.iter_mut();
    for measures in coats.chain([&mut record.bare, &mut record.finished]) {
        room(
            "diameters at one stage of a line",
            measures.diameters.len(),
            MOST_DIAMETERS,
        )?;
        for field in measures.fields() {
            measures.set(field, measures.get(field));
            if measures.is_confirmed(field) {
                measures.confirm(field);
            }
        }
    }
    if let Some(run) = &mut record.run {
        room("mishaps of a line", run.mishaps.len(), MOST_MISHAPS)?;
        room("checks of a line", run.checks.len(), MOST_CHECKS)?;
        room(
            "timed stretches of a line",
            run.clock.timed.len(),
            MOST_TIMED,
        )?;
        room("ticks of setting up", run.setup.len(), MOST_SETUP_TICKS)?;
        for check in &mut run.checks {
            *check = check.with_possible_error();
        }
        run.setup.sort_unstable();
        run.setup.dedup();
    }
    if let Some(diary) = &record.diary {
        room("ticks in a diary", diary.ticks.len(), MOST_STEPS)?;
    }
    let (name, notes) = texts(&record.name, &record.notes)?;
    Ok(LineRecord {
        name,
        notes,
        ..record
    })
}
