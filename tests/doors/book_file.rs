//! Files of bench books, damaged in every way.

use serde_json::{Value, json};
use taperwright::keep::book::file::{BookError, LARGEST, name, read, write};
use taperwright::keep::book::record::{DiameterAt, LineField, LineRecord, LineStage, Measures};
use taperwright::keep::book::swatch::{Swatch, SwatchField};
use taperwright::keep::book::{
    Frozen, MOST_COATS, MOST_DIAMETERS, MOST_RECORDS, MOST_SWATCHES, Source, Workshop,
};

use crate::designs::usual;
use crate::says;

/// A book with a swatch and a line on which much was written down, and some of it could not be.
pub(crate) fn book() -> Workshop {
    let mut workshop = Workshop::new("Heron Weir, lot A".to_owned(), &usual());
    workshop.notes += "Scale in the window.\nOil of last spring.";
    let mut swatch = Swatch {
        name: "22 teeth".to_owned(),
        ..Swatch::default()
    };
    for (index, field) in SwatchField::ALL.into_iter().enumerate() {
        swatch.set(field, Some(index as f64 + 0.125));
    }
    swatch.mass_g = Some(f64::NEG_INFINITY);
    swatch.angle_deg = Some(-3.0);
    swatch.diameter_mm = None;
    workshop.swatches.push(swatch);
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.bare.mass_g = Some(13.2);
    line.finished.diameters = vec![DiameterAt {
        at_m: Some(1e300),
        ..DiameterAt::default()
    }];
    if let Some(coat) = line.measures_mut(LineStage::Coat(1)) {
        coat.head_mass_g = Some(f64::INFINITY);
    }
    workshop.records.push(line);
    workshop
}

fn spoiled(spoil: impl FnOnce(&mut Value)) -> String {
    let mut tree: Value = serde_json::from_str(&write(&book())).expect("a file is JSON");
    spoil(&mut tree);
    tree.to_string()
}

#[track_caller]
pub(crate) fn refused(text: &str, things: &[&str]) {
    let error = read(text).expect_err("a damaged book was read");
    says(&error.to_string(), things);
}

#[test]
fn the_book_itself_reads_with_all_that_cannot_be() {
    assert_eq!(read(&write(&book())), Ok(book()));
    assert_eq!(book().admitted(), Ok(book()));
    assert_eq!(name(&book()), "heron-weir-lot-a.bench.json");
    assert_eq!(
        name(&Workshop::new("…".to_owned(), &usual())),
        "workshop.bench.json"
    );
    // What is no number at all is as lasting as the rest.
    let mut nothing = book();
    nothing.swatches[0].circuits = Some(f64::NAN);
    let again = read(&write(&nothing)).expect("the rest is sound");
    assert!(again.swatches[0].circuits.is_some_and(f64::is_nan));
}

#[test]
fn texts_that_are_no_book() {
    let design = taperwright::keep::share::file::write(&usual());
    for text in ["", "{}", "[]", "null", "7", "\0", &design] {
        assert_eq!(read(text), Err(BookError::NotABook), "{text}");
        refused(text, &["not a Taperwright bench book"]);
    }
    for version in [json!(0), json!(-1), json!("1"), json!(null)] {
        let text = spoiled(|file| file["version"] = version);
        assert_eq!(read(&text), Err(BookError::NotABook));
    }
    for version in [6_u32, u32::MAX] {
        let text = spoiled(|file| file["version"] = json!(version));
        assert_eq!(read(&text), Err(BookError::Newer(version)));
        refused(&text, &[&version.to_string(), "up to 5", "Reload the page"]);
    }
    assert_eq!(read(&" ".repeat(LARGEST + 1)), Err(BookError::TooLarge));
    for text in [
        "[".repeat(17),
        format!("\"{}\"", "n".repeat(100_001)),
        "{}".repeat(LARGEST / 2),
    ] {
        refused(&text, &["damaged", "more pieces, or longer ones"]);
    }
}

#[test]
fn books_cut_off_anywhere() {
    let whole = write(&book());
    for end in (0..whole.len()).filter(|&end| whole.is_char_boundary(end)) {
        let expected = if end == 0 {
            BookError::NotABook
        } else {
            BookError::CutOff
        };
        assert_eq!(read(&whole[..end]), Err(expected), "cut at {end}");
    }
}

/// Something done to the tree of a book, and a word of the refusal.
type Row = (fn(&mut Value), &'static str);

#[test]
fn pages_misspelt_or_missing() {
    for key in ["name", "notes", "base", "swatches", "records"] {
        let text = spoiled(|file| {
            let workshop = file["workshop"].as_object_mut();
            assert!(workshop.is_some_and(|workshop| workshop.remove(key).is_some()));
        });
        refused(&text, &["damaged", key]);
    }
    let rows: [Row; 8] = [
        (|book| book["colour"] = json!("green"), "colour"),
        (|book| book["swatches"][0]["weight"] = json!(1), "weight"),
        (|book| book["records"][0]["weight"] = json!(1), "weight"),
        (
            |book| book["records"][0]["bare"]["colour"] = json!(1),
            "colour",
        ),
        (
            |book| book["swatches"][0]["mass_g"] = json!("heavy"),
            "heavy",
        ),
        (|book| book["swatches"][0]["mass_g"] = json!("1.5"), "1.5"),
        (|book| book["base"] = json!("AwAAz"), "cut off"),
        (
            |book| book["records"][0]["design"] = json!("A".repeat(60_001)),
            "longer",
        ),
    ];
    for (spoil, word) in rows {
        refused(
            &spoiled(|file| spoil(&mut file["workshop"])),
            &["damaged", word],
        );
    }
}

#[test]
fn more_than_there_is_room_for() {
    let swatch = Swatch::default();
    let record = || LineRecord::new(String::new(), Frozen::of(&usual()));
    let with = |change: fn(&mut Workshop)| {
        let mut workshop = book();
        change(&mut workshop);
        workshop
            .admitted()
            .expect_err("it does not fit")
            .to_string()
    };
    let mut many = book();
    many.swatches = vec![swatch; MOST_SWATCHES + 1];
    says(
        &many.admitted().expect_err("too many").to_string(),
        &["too many swatches", "500"],
    );
    let mut many = book();
    many.records = vec![record(); MOST_RECORDS + 1];
    refused(&write(&many), &["too many lines", "500"]);
    let coats = with(|book| book.records[0].coats = vec![Measures::default(); MOST_COATS + 1]);
    says(&coats, &["too many coats", "12"]);
    let places = with(|book| {
        book.records[0].bare.diameters = vec![DiameterAt::default(); MOST_DIAMETERS + 1];
    });
    says(&places, &["too many diameters", "50"]);
    says(&with(|book| book.name = "n".repeat(81)), &["81", "80"]);
    says(
        &with(|book| book.swatches[0].notes = "n".repeat(401)),
        &["401", "400"],
    );
    says(
        &with(|book| book.records[0].name = "n".repeat(81)),
        &["81", "80"],
    );
    // Places and coats beyond are not made room for either.
    let mut line = record();
    assert!(line.measures_mut(LineStage::Coat(MOST_COATS)).is_none());
    line.bare.set(LineField::At(MOST_DIAMETERS), Some(1.0));
    assert_eq!(line, record());
}

/// Full pages go into a book until its file is as large as it may be; what goes in reads back, what does not is told.
#[test]
fn a_book_is_full_where_its_file_would_be_too_large() {
    let letters = |count: usize| "\u{10348}".repeat(count);
    let mut line = LineRecord::new(letters(80), Frozen::of(&usual()));
    line.notes = letters(400);
    let diameter = DiameterAt {
        at_m: Some(-1.234_567_890_12e-300),
        ..DiameterAt::default()
    };
    line.bare.diameters = vec![diameter; MOST_DIAMETERS];
    line.coats = vec![line.bare.clone(); MOST_COATS];
    let page = serde_json::to_string(&line).expect("JSON").len() + 1;
    let pages = (LARGEST - write(&book()).len()) / page;
    assert!(pages > 50, "{pages} lines");
    let full = with_lines(&book(), &line, pages).expect("there is room");
    let text = write(&full);
    assert!(text.len() <= LARGEST && text.len() + page > LARGEST);
    assert_eq!(read(&text).as_ref(), Ok(&full));
    let Err(BookError::Full(bytes)) = with_lines(&full, &line, 1) else {
        panic!("one more line went in");
    };
    assert_eq!(bytes, text.len() + page);
    says(
        &BookError::Full(bytes).to_string(),
        &["5000000", "another workshop"],
    );
    // Nor can a file be made of what takes less room as it comes in than as it would be written.
    let mut bare = spoiled(|file| file["workshop"]["records"] = json!([]));
    let short = "{\"name\":\"\",\"design\":\"z\",\"coats\":[";
    let coats = vec![format!("{{\"diameters\":[{}]}}", vec!["{}"; 50].join(",")); 12].join(",");
    let lines = vec![format!("{short}{coats}]}}"); 255].join(",");
    bare = bare.replace("\"records\":[]", &format!("\"records\":[{lines}]"));
    assert!(bare.len() < LARGEST / 4);
    assert!(matches!(read(&bare), Err(BookError::Full(_))));
}

fn with_lines(book: &Workshop, line: &LineRecord, count: usize) -> Result<Workshop, BookError> {
    let mut more = book.clone();
    more.records.extend(vec![line.clone(); count]);
    more.admitted()
}

/// Names are cleaned at this door too.
#[test]
fn disguises_are_taken_off() {
    let text = spoiled(|file| file["workshop"]["name"] = json!(" a\u{202e}b\u{7}c "));
    assert_eq!(read(&text).expect("the rest is sound").name, "abc");
}

/// A book in which a number of each kind was confirmed.
fn confirmed() -> Workshop {
    let mut workshop = book();
    workshop.records[0].bare.set(LineField::At(0), Some(3.0));
    workshop.records[0]
        .bare
        .set(LineField::Diameter(0), Some(0.9));
    workshop.records[0].finished.head_mass_g = Some(9.0);
    for at in PLACES {
        workshop.confirm(at);
        assert!(workshop.is_confirmed(at), "{at:?}");
    }
    workshop
}

const PLACES: [Source; 4] = [
    Source::Swatch(0, SwatchField::Crossings),
    Source::Line(0, LineStage::Bare, LineField::Mass),
    Source::Line(0, LineStage::Finished, LineField::HeadMass),
    Source::Line(0, LineStage::Bare, LineField::Diameter(0)),
];

#[test]
fn what_was_confirmed_stays_confirmed() {
    let text = write(&confirmed());
    assert_eq!(read(&text).as_ref(), Ok(&confirmed()));
    assert_eq!(confirmed().admitted(), Ok(confirmed()));
    // Nothing else is.
    let all = PLACES.map(|at| confirmed().is_confirmed(at));
    assert_eq!((all, book().is_confirmed(PLACES[0])), ([true; 4], false));
}

/// A book in the words of an earlier version.
pub(crate) fn of_version(version: u32, book: &Workshop) -> String {
    write(book).replacen("\"version\":5", &format!("\"version\":{version}"), 1)
}

fn without_thread(mut book: Workshop) -> Workshop {
    for field in [SwatchField::ThreadLength, SwatchField::ThreadMass] {
        book.set(Source::Swatch(0, field), None);
    }
    book
}

/// What is written of a book without anything confirmed and without weights of thread is a file of version 1 but for its number;
/// such files are read. So are those of version 2, which had no weights of thread.
#[test]
fn books_of_earlier_versions_are_read() {
    let plain = without_thread(book());
    let old = of_version(1, &plain);
    assert!(!old.contains("confirmed") && !old.contains("thread_"));
    assert_eq!(read(&old), Ok(plain));
    let mixed = of_version(1, &without_thread(confirmed()));
    refused(&mixed, &["damaged", "format 1", "no confirmed numbers"]);
    let second = without_thread(confirmed());
    assert_eq!(read(&of_version(2, &second)).as_ref(), Ok(&second));
    for version in [1, 2] {
        let mixed = of_version(version, &book());
        let format = format!("format {version}");
        refused(&mixed, &["damaged", &format, "no weights of thread"]);
    }
}

#[test]
fn confirmations_misspelt_or_of_nothing() {
    let spoil =
        |confirmed: Value| spoiled(|file| file["workshop"]["swatches"][0]["confirmed"] = confirmed);
    refused(&spoil(json!(["weight"])), &["damaged", "weight"]);
    refused(&spoil(json!("mass")), &["damaged"]);
    // Of a number that is not there, and twice of one that is.
    let again = read(&spoil(json!(["diameter", "crossings", "crossings"])));
    let again = again.expect("the rest is sound");
    assert_eq!(again.swatches[0].confirmed, [SwatchField::Crossings]);
}

/// A number that changes, or means something else since another one changed, has to be confirmed again.
#[test]
fn a_confirmation_goes_with_its_number() {
    let length = Source::Swatch(0, SwatchField::CrossingsOver);
    let rows = [
        (PLACES[0], PLACES[0]),
        (PLACES[0], length),
        (PLACES[0], Source::Swatch(0, SwatchField::Threads)),
        (PLACES[1], PLACES[1]),
        (
            PLACES[1],
            Source::Line(0, LineStage::Bare, LineField::Length),
        ),
        (PLACES[2], PLACES[2]),
        (PLACES[3], PLACES[3]),
        (
            PLACES[3],
            Source::Line(0, LineStage::Bare, LineField::At(0)),
        ),
    ];
    for (kept, changed) in rows {
        let mut book = confirmed();
        book.set(changed, book.get(changed));
        assert!(book.is_confirmed(kept), "{changed:?} did not change");
        book.set(changed, Some(7.25));
        assert!(!book.is_confirmed(kept), "{changed:?} changed");
    }
    let mut book = confirmed();
    book.set(PLACES[0], None);
    book.confirm(PLACES[0]);
    assert!(!book.is_confirmed(PLACES[0]), "there is nothing to confirm");
}
