//! Damaged files. They have no checksum: a digit changed for another is another line, and nothing can tell. What is read is a
//! valid design or book all the same, and goes out and in again as it is.

use taperwright::book::Frozen;
use taperwright::book::Workshop;
use taperwright::book::file as book;
use taperwright::book::record::LineRecord;
use taperwright::book::swatch::Swatch;
use taperwright::share::file;
use taperwright::shelf::memory::Memory;
use taperwright::shelf::{Id, Shelf, Writer, backup};

use crate::damaged;
use crate::designs::usual;

const GOLDEN: [&str; 3] = [
    include_str!("../doors/golden/version-1.json"),
    include_str!("../doors/golden/version-2.json"),
    include_str!("../doors/golden/version-3.json"),
];

fn workshop() -> Workshop {
    let mut workshop = Workshop::new("Heron Weir, lot A".to_owned(), &usual());
    workshop.swatches = vec![Swatch::default(); 2];
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.finished.mass_g = Some(26.25);
    workshop.records.push(line);
    workshop
}

#[test]
fn design_files_damaged() {
    for golden in GOLDEN {
        let (mut read, mut refused) = (0, 0);
        for text in damaged(golden, 3_000) {
            match file::read(&text) {
                Ok(design) => {
                    assert_eq!(file::read(&file::write(&design)), Ok(design));
                    read += 1;
                }
                Err(error) => {
                    assert!(!error.to_string().contains(char::is_control), "{error}");
                    refused += 1;
                }
            }
        }
        println!("{read} read, {refused} refused");
        assert!(
            read > 10 && refused > 2_000,
            "{read} read, {refused} refused"
        );
    }
}

#[test]
fn bench_books_damaged() {
    let (mut read, mut refused) = (0, 0);
    for text in damaged(&book::write(&workshop()), 3_000) {
        match book::read(&text) {
            Ok(workshop) => {
                assert_eq!(book::read(&book::write(&workshop)), Ok(workshop));
                read += 1;
            }
            Err(error) => {
                assert!(!error.to_string().contains(char::is_control), "{error}");
                refused += 1;
            }
        }
    }
    println!("{read} read, {refused} refused");
    assert!(
        read > 10 && refused > 2_000,
        "{read} read, {refused} refused"
    );
}

/// Whatever a file of everything has become, nothing here is touched, and taking it in again adds nothing.
#[test]
fn files_of_everything_damaged() {
    let whole = backup::loose(&[(Id(1), usual())], &[(Id(2), workshop())]);
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
