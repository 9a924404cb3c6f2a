//! Damaged files. They have no checksum: a digit changed for another is another line, and nothing can tell. What is read is a
//! valid design or book all the same, and goes out and in again as it is.

use core::fmt::{Debug, Display};

use taperwright::keep::book::Frozen;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book;
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::share::file;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Id, Shelf, Writer};

use crate::damaged;
use crate::designs::usual;
use crate::everything::everything;
use crate::small_pictures::picture;

const GOLDEN: &str = include_str!("../doors/golden/version-3.json");

fn workshop() -> Workshop {
    let mut workshop = Workshop::new("Heron Weir, lot A".to_owned(), &usual());
    let photo = Swatch {
        angle_deg: Some(46.2),
        angle_error_deg: Some(0.5),
        picture: Some(picture()),
        ..Swatch::default()
    };
    workshop.swatches = vec![Swatch::default(), photo];
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.finished.mass_g = Some(26.25);
    workshop.records.push(line);
    workshop
}

/// Every text is read as something that goes out and in again as it is, or refused in clean words; both happen often.
fn are_read_or_refused<T: Debug + PartialEq, E: Debug + Display + PartialEq>(
    texts: &[String],
    read: fn(&str) -> Result<T, E>,
    write: fn(&T) -> String,
) {
    let mut sound = 0;
    for text in texts {
        match read(text) {
            Ok(work) => {
                assert_eq!(read(&write(&work)), Ok(work));
                sound += 1;
            }
            Err(error) => assert!(!error.to_string().contains(char::is_control), "{error}"),
        }
    }
    let refused = texts.len() - sound;
    println!("{sound} read, {refused} refused");
    assert!(
        sound > 10 && refused > 2_000,
        "{sound} read, {refused} refused"
    );
}

#[test]
fn design_files_damaged() {
    are_read_or_refused(&damaged(GOLDEN, 9_000), file::read, file::write);
}

#[test]
fn bench_books_damaged() {
    let texts = damaged(&book::write(&workshop()), 3_000);
    are_read_or_refused(&texts, book::read, book::write);
}

/// Whatever a file of everything has become, nothing here is touched, and taking it in again adds nothing.
#[test]
fn files_of_everything_damaged() {
    let mut theirs = Shelf::load(Memory::default(), Writer(2)).expect("memory does not fail");
    theirs
        .keep_new(Id(1), &usual(), None)
        .expect("memory does not fail");
    theirs
        .keep_new(Id(2), &workshop(), None)
        .expect("memory does not fail");
    let whole = everything(&theirs.into_store().0);
    let mut mine = Shelf::load(Memory::default(), Writer(1)).expect("memory does not fail");
    mine.keep_new(Id(1), &usual(), None)
        .expect("memory does not fail");
    let (mut taken, mut refused) = (0, 0);
    for text in damaged(&whole, 1_000) {
        let mut shelf = mine.clone();
        let is_taken = shelf.import(&text).is_ok();
        let once = shelf.clone().into_store();
        if is_taken {
            let again = shelf.import(&text).expect("it was taken in before");
            assert_eq!((again.added, again.beside), (0, 0), "{text}");
        }
        assert_eq!(shelf.into_store(), once);
        for (key, kept) in &mine.clone().into_store().0 {
            assert_eq!(once.0.get(key), Some(kept), "{text}");
        }
        (taken, refused) = (taken + u32::from(is_taken), refused + u32::from(!is_taken));
    }
    println!("{taken} taken in, {refused} refused");
    assert!(
        taken > 50 && refused > 50,
        "{taken} taken in, {refused} refused"
    );
}
