//! The largest that is read at every door, and the same with something wrong near its end.

use serde_json::json;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::pin::DraftPin;
use taperwright::keep::book::file as book;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::dropped;
use taperwright::keep::share::{file, link};
use taperwright::keep::shelf::backup;

use crate::designs::point;
use crate::small_pictures::largest as largest_picture;
use crate::storage::nowhere;

/// A file, the door it is read at, and its text.
pub(crate) type Case = (&'static str, fn(&str) -> bool, String);

fn reads_design(text: &str) -> bool {
    file::read(text).is_ok()
}

fn reads_book(text: &str) -> bool {
    book::read(text).is_ok()
}

fn reads_dropped(text: &str) -> bool {
    dropped::read(text).is_ok()
}

fn takes_in(text: &str) -> bool {
    nowhere().import(text).is_ok()
}

pub(crate) fn all() -> Vec<Case> {
    let blanks = |text: String, largest: usize| {
        let missing = " ".repeat(largest - text.len());
        text + &missing
    };
    let design = blanks(file::write(&fullest()), file::LARGEST);
    let fragment = link::encode(&demo()).expect("it is short");
    vec![
        ("fullest design file", reads_design, design.clone()),
        ("fullest design, dropped", reads_dropped, design),
        (
            "link",
            |text| matches!(link::decode(text), Some(Ok(_))),
            fragment,
        ),
        (
            "book of many lines",
            reads_book,
            blanks(lines(), book::LARGEST),
        ),
        (
            "book of many diameters",
            reads_book,
            blanks(diameters(), book::LARGEST),
        ),
        (
            "book of many pictures",
            reads_book,
            blanks(pictures(), book::LARGEST),
        ),
        ("book of many pictures, dropped", reads_dropped, pictures()),
        (
            "everything: a book of many pictures",
            takes_in,
            of_one_book(pictures()),
        ),
        (
            "everything: a book of many pictures as it is written",
            takes_in,
            of_one_book(written(&pictures())),
        ),
        ("book of both", reads_book, blanks(both(), book::LARGEST)),
        ("book of both, dropped", reads_dropped, both()),
        (
            "everything: many lines",
            takes_in,
            everything(20_000, 1_000),
        ),
        ("everything: one great book", takes_in, of_one_book(both())),
        (
            "everything: one great book as it is written",
            takes_in,
            of_one_book(written(&both())),
        ),
        (
            "everything: texts no browser keeps",
            takes_in,
            everything(4, 7_900_000),
        ),
        (
            "everything: escapes",
            takes_in,
            asides(4, &"\\u0041".repeat(1_300_000)),
        ),
        (
            "everything: escapes as long as is read",
            takes_in,
            asides(1, &"\\u0000".repeat(1_166_000)),
        ),
        (
            "everything: letters and one escape",
            takes_in,
            asides(4, &format!("{}\\n", "n".repeat(6_999_990))),
        ),
    ]
}

/// A text with what stands there last replaced.
fn last(text: &str, from: &str, to: &str) -> String {
    let at = text.rfind(from).expect("it stands there");
    format!("{}{to}{}", &text[..at], &text[at + from.len()..])
}

/// Files of everything that are damaged, and of which the whole pieces come in.
pub(crate) fn damaged() -> Vec<Case> {
    let many = everything(20_000, 1_500);
    vec![
        (
            "everything, cut off",
            takes_in,
            many[..many.len() - 1].to_owned(),
        ),
        (
            "everything, a lone surrogate",
            takes_in,
            last(&many, "\"text\":\"", "\"text\":\"\\ud800"),
        ),
        (
            "everything, a number as a text",
            takes_in,
            last(&many, "\"key\":\"", "\"text\":7,\"key\":\""),
        ),
        (
            "everything, a text that does not end",
            takes_in,
            last(&many, "n\"}", "n}"),
        ),
        (
            "everything, every second piece",
            takes_in,
            many.replace("x\",\"text\":\"n", "x,\"text\":\"n").replacen(
                "x,\"text\"",
                "x\",\"text\"",
                10_000,
            ),
        ),
        (
            "everything, braces and quotes to its end",
            takes_in,
            format!("{}{}", &many[..5_000], "{\"{\":\"{\",".repeat(2_900_000)),
        ),
        (
            "everything, brackets to its end",
            takes_in,
            format!("{}{}", &many[..5_000], "[{\"a\":".repeat(4_000_000)),
        ),
    ]
}

/// As they are, but for what stands near the end.
pub(crate) fn spoilt() -> Vec<Case> {
    let design = file::write(&fullest());
    let many = everything(20_000, 1_500);
    let words = format!("\"{}\":", "n".repeat(99_000));
    vec![
        (
            "design, misspelt",
            reads_design,
            last(&design, "\"diameter_mm\":", &words),
        ),
        (
            "design, a number as a text",
            reads_design,
            last(
                &design,
                "\"diameter_mm\":",
                &format!("\"diameter_mm\":\"{}\",\"a\":", "é".repeat(49_000)),
            ),
        ),
        (
            "book, misspelt",
            reads_book,
            last(&both(), "\"diameters\":", &words),
        ),
        (
            "book, with a coat too many",
            reads_book,
            last(
                &both(),
                "\"coats\":[",
                "\"coats\":[{},{},{},{},{},{},{},{},{},{},{},{},",
            ),
        ),
        (
            "book, with a picture that is none",
            reads_book,
            last(&pictures(), "\"}", "=\"}"),
        ),
        (
            "everything, not one piece of it whole",
            takes_in,
            many.replace("\"text\":", "\"test\":"),
        ),
    ]
}

/// The longest texts, most points, pins and gears.
fn fullest() -> Design {
    let mut draft = demo().draft().clone();
    let pin = |at: u32| DraftPin::Place {
        threads: 8,
        heavy: 0,
        rising: true,
        at_m: f64::from(at) * 0.1,
    };
    draft.notes = "魚".repeat(400);
    draft.points = (0..1000)
        .map(|at| point(f64::from(at) * 0.1, 1.0))
        .collect();
    draft.pins = (1..=100).map(pin).collect();
    Design::parse(draft).expect("it is within what is allowed")
}

/// A book with these records and little else.
fn book_of(records: &str) -> String {
    let code = code_of(&demo());
    format!(
        "{{\"format\":\"taperwright bench book\",\"version\":1,\"workshop\":{{\"name\":\"\",\"notes\":\"\",\"base\":\"{code}\",\"swatches\":[],\"records\":[{records}]}}}}"
    )
}

/// What a link of a design carries, or what a book holds of one too large for a link.
fn code_of(design: &Design) -> String {
    let workshop = taperwright::keep::book::Workshop::new(String::new(), design);
    let tree: serde_json::Value = serde_json::from_str(&book::write(&workshop)).expect("JSON");
    tree["workshop"]["base"]
        .as_str()
        .expect("a code")
        .to_owned()
}

/// As many of the fullest designs as go into a book.
fn lines() -> String {
    let record = format!("{{\"name\":\"\",\"design\":\"{}\"}}", code_of(&fullest()));
    let written = 1_800 + record.len();
    book_of(&vec![record; (book::LARGEST / written).min(500)].join(","))
}

/// As many of the largest pictures as go into a book.
fn pictures() -> String {
    let swatch = Swatch {
        picture: Some(largest_picture()),
        ..Swatch::default()
    };
    let swatch = serde_json::to_string(&swatch).expect("JSON");
    // Some room is left for the design of the base.
    let count = (book::LARGEST - 2_000) / (swatch.len() + 1);
    book_of("")
        .replacen("\"version\":1", "\"version\":5", 1)
        .replacen(
            "\"swatches\":[]",
            &format!("\"swatches\":[{}]", vec![swatch; count].join(",")),
            1,
        )
}

/// As many diameters as go into a book once it is written.
fn diameters() -> String {
    book_of(&vec![record_of("z", 220); 400].join(","))
}

fn both() -> String {
    let full = record_of(&code_of(&fullest()), 50);
    let many = vec![record_of("z", 200); 300];
    let designs = vec![full; 120];
    book_of(&[many, designs].concat().join(","))
}

/// A record of a design with so many diameters, nothing in them.
fn record_of(code: &str, diameters: usize) -> String {
    let coat = |count: usize| format!("{{\"diameters\":[{}]}}", vec!["{}"; count].join(","));
    let coats: Vec<String> = (0..diameters.div_ceil(50))
        .map(|at| coat(50.min(diameters - 50 * at)))
        .collect();
    format!(
        "{{\"name\":\"\",\"design\":\"{code}\",\"coats\":[{}]}}",
        coats.join(",")
    )
}

/// A file of everything with so many pieces, each with a text of so many letters.
fn everything(count: usize, letters: usize) -> String {
    asides(count, &"n".repeat(letters))
}

fn asides(count: usize, text: &str) -> String {
    let aside = format!("{{\"key\":\"taperwright/line/x\",\"text\":\"{text}\"}}");
    let asides = vec![aside; count].join(",");
    format!(
        "{{\"format\":\"{}\",\"version\":1,\"lines\":[],\"workshops\":[],\"unreadable\":[{asides}]}}",
        backup::FORMAT
    )
}

fn written(book: &str) -> String {
    book::write(&book::read(book).expect("it is admitted"))
}

fn of_one_book(book: String) -> String {
    let piece = json!({"id": "0123456789abcdef", "revision": 1, "changed": null, "binned": false, "file": book});
    json!({"format": backup::FORMAT, "version": 1, "lines": [], "workshops": [piece], "unreadable": []}).to_string()
}
