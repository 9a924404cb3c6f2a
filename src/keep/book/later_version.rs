//! What is in a book that files of earlier versions did not have yet.

use super::record::{LineRecord, Measures};
use super::swatch::Swatch;
use super::workshop::Workshop;
use crate::plan::run::{Check, Run};

/// The first version in which numbers can be confirmed.
const CONFIRMS: u32 = 2;
/// The first version in which thread can be weighed.
const WEIGHS_THREAD: u32 = 3;
/// The first version in which a machine is set up, timed and checked.
const NOTES_THE_MACHINE: u32 = 4;
/// The first version in which numbers come from photos.
const READS_PHOTOS: u32 = 5;

/// What is in a book that this version did not have yet, in words.
pub(super) fn of_a_later_version(version: u32, book: &Workshop) -> Option<&'static str> {
    if version < CONFIRMS && has_confirmed(book) {
        Some("confirmed numbers")
    } else if version < WEIGHS_THREAD && has_thread_weighed(book) {
        Some("weights of thread")
    } else if version < NOTES_THE_MACHINE && has_machine_notes(book) {
        Some("notes of the machine")
    } else if version < READS_PHOTOS && has_photos(book) {
        Some("readings of photos")
    } else {
        None
    }
}

/// Whether anything in the book was confirmed.
fn has_confirmed(book: &Workshop) -> bool {
    let of_stage = |measures: &Measures| {
        let mut fields = measures.fields();
        fields.any(|field| measures.is_confirmed(field))
    };
    let of_line = |record: &LineRecord| record.stages().any(|(_, stage)| of_stage(stage));
    let of_swatch = |swatch: &Swatch| !swatch.confirmed.is_empty();
    book.swatches.iter().any(of_swatch) || book.records.iter().any(of_line)
}

/// Whether thread was weighed, or its length noted.
fn has_thread_weighed(book: &Workshop) -> bool {
    let of_swatch = |swatch: &Swatch| swatch.thread_length_m.or(swatch.thread_mass_g).is_some();
    book.swatches.iter().any(of_swatch)
}

/// Whether anything of setting up, running and checking a machine is noted.
fn has_machine_notes(book: &Workshop) -> bool {
    let of_swatch = |swatch: &Swatch| !swatch.tension.is_empty();
    !book.machine_notes.is_empty()
        || book.swatches.iter().any(of_swatch)
        || runs(book).any(Run::has_machine_notes)
}

/// Whether anything came from a photo.
fn has_photos(book: &Workshop) -> bool {
    let by_photo = |check: &Check| check.error.is_some();
    let in_run = |run: &Run| run.checks.iter().any(by_photo);
    book.swatches.iter().any(Swatch::has_photo) || runs(book).any(in_run)
}

fn runs(book: &Workshop) -> impl Iterator<Item = &Run> {
    book.records.iter().filter_map(|record| record.run.as_ref())
}
