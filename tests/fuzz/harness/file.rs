//! Any text as a file: a line, a measured line, a bench book, everything at once, or refused in words.

use taperwright::keep::book::file as book_file;
use taperwright::keep::dropped::{self, Dropped};
use taperwright::keep::share::{file as design_file, measured_file};
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Shelf, Writer};

use super::everything::everything;

/// The bytes are the text of the file; what is no text is made one, as a browser does.
pub(crate) fn run(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    line(&text, bytes);
    book(&text);
    measured(&text);
    dropped(&text);
    backup(&text);
}

fn line(text: &str, bytes: &[u8]) {
    match design_file::read(text) {
        Ok(design) => {
            super::holds(&design);
            super::may_be_planned(&design, bytes);
        }
        Err(error) => super::is_a_sentence(&error.to_string()),
    }
    if let Some(design) = design_file::glimpse(text) {
        super::holds(&design);
    }
}

fn book(text: &str) {
    match book_file::read(text) {
        Ok(workshop) => assert_eq!(book_file::read(&book_file::write(&workshop)), Ok(workshop)),
        Err(error) => super::is_a_sentence(&error.to_string()),
    }
    let _ = book_file::glimpse(text);
}

fn measured(text: &str) {
    match measured_file::read(text) {
        Ok(line) => assert_eq!(measured_file::read(&measured_file::write(&line)), Ok(line)),
        Err(error) => super::is_a_sentence(&error.to_string()),
    }
    let _ = measured_file::glimpse(text);
}

/// What is dropped is what one of the readers says.
fn dropped(text: &str) {
    match dropped::read(text) {
        Ok(Dropped::Line(design)) => assert_eq!(design_file::read(text), Ok(*design)),
        Ok(Dropped::Book(workshop)) => assert_eq!(book_file::read(text), Ok(*workshop)),
        Ok(Dropped::Measured(line)) => assert_eq!(measured_file::read(text), Ok(*line)),
        Err(error) => super::is_a_sentence(&error.to_string()),
    }
}

/// Taken in twice, a file adds nothing the second time; and what was taken in goes out and in again as it is.
fn backup(text: &str) {
    let mut shelf = empty();
    match shelf.import(text) {
        Err(error) => super::is_a_sentence(&error.to_string()),
        Ok(first) => {
            assert_eq!(first.unkept, 0);
            let once = shelf.clone().into_store();
            let again = shelf.import(text).expect("it was taken in before");
            assert_eq!((again.added, again.beside), (0, 0), "{again:?}");
            assert_eq!(shelf.clone().into_store(), once);
            let whole = everything(&once.0);
            let mut other = empty();
            other.import(&whole).expect("it was written here");
            assert_eq!(everything(&other.into_store().0), whole);
        }
    }
}

fn empty() -> Shelf<Memory> {
    Shelf::load(Memory::default(), Writer(1)).expect("memory does not fail")
}
