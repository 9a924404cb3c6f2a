//! Texts that mean harm are made harmless where they come in, at every field there is, and stay words wherever they go out.
//!
//! Sources: RFC 5545 (calendars, read by the crate `icalendar`), Microsoft Learn, "Naming Files, Paths, and Namespaces" (from
//! memory), and the alphabet of RFC 4648, section 5 (links).

use std::collections::BTreeSet;

use icalendar::{Calendar, Component as _};
use serde_json::Value;
use taperwright::design::Design;
use taperwright::edit::Edit;
use taperwright::keep::book::file as book;
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::book::{Frozen, Workshop};
use taperwright::keep::share::{calendar, card_svg, file, link, table};
use taperwright::paper::card::maker;
use taperwright::plan::days::Day;

use crate::designs::usual;
use crate::hostile::{NAMES, named};

/// Every kind of what is to be taken off, with letters between: zero, bell, escape, delete, a control of the upper range,
/// marks and overrides of direction, isolates, an unseen blank, a mark of byte order, a soft hyphen, a tag, line marks.
const HARM: &str = "a\0b\u{7}c\u{1b}d\u{7f}e\u{85}f\u{200f}g\u{202e}h\u{2066}i\u{200b}j\u{feff}k\u{ad}l\u{e0041}m\u{2028}n\r\u{61c}o\u{fff9}p";
const LEFT: &str = "abcdefghijklmnop";

fn is_harm(c: char) -> bool {
    HARM.contains(c) && !LEFT.contains(c)
}

/// Where each text of a tree stands.
fn places(tree: &Value, at: &str, found: &mut BTreeSet<String>) {
    match tree {
        Value::String(_) => drop(found.insert(at.to_owned())),
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                places(value, &format!("{at}/{index}"), found);
            }
        }
        Value::Object(table) => {
            for (key, value) in table {
                places(value, &format!("{at}/{key}"), found);
            }
        }
        _ => {}
    }
}

/// Puts the harm into every text of a file in turn, but for the one that is kept to the letter. Where that is read, it comes out
/// clean; those places are given back.
fn free_texts(whole: &str, kept: &str, again: fn(&str) -> Option<String>) -> Vec<String> {
    let tree: Value = serde_json::from_str(whole).expect("a file is JSON");
    let mut all = BTreeSet::new();
    places(&tree, "", &mut all);
    assert!(kept.is_empty() || all.remove(kept), "{all:?}");
    let takes_it = |place: &String| {
        let mut tree = tree.clone();
        *tree.pointer_mut(place)? = Value::String(HARM.to_owned());
        let written: Value = serde_json::from_str(&again(&tree.to_string())?).ok()?;
        assert_eq!(written.pointer(place)?.as_str(), Some(LEFT), "{place}");
        Some(place.clone())
    };
    all.iter().filter_map(takes_it).collect()
}

/// The lists below are to grow with every text a maker can type: one that is not cleaned fails at once.
#[test]
fn every_text_of_a_design_file_is_cleaned() {
    let mut draft = usual().draft().clone();
    "Heron Weir".clone_into(&mut draft.workshop);
    let design = Design::parse(draft).expect("a workshop may have a name");
    let again = |text: &str| file::read(text).ok().map(|design| file::write(&design));
    let found = free_texts(&file::write(&design), "", again);
    assert_eq!(found, ["/design/name", "/design/notes", "/design/workshop"]);
}

#[test]
fn every_text_of_a_bench_book_is_cleaned() {
    let mut workshop = Workshop::new("Heron Weir".to_owned(), &usual());
    workshop.swatches.push(Swatch::default());
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.diary = Day::parse("2026-11-26")
        .ok()
        .map(taperwright::plan::days::Diary::new);
    line.bare.mass_g = Some(f64::NAN);
    workshop.records.push(line);
    let again = |text: &str| book::read(text).ok().map(|workshop| book::write(&workshop));
    // A line's code is kept to the letter even where this version cannot read it; nobody sees it.
    let kept = "/workshop/records/0/design";
    let mut found = free_texts(&book::write(&workshop), kept, again);
    found.sort();
    let wanted = [
        "/workshop/name",
        "/workshop/notes",
        "/workshop/records/0/name",
        "/workshop/records/0/notes",
        "/workshop/swatches/0/name",
        "/workshop/swatches/0/notes",
    ];
    assert_eq!(found, wanted);
}

#[test]
fn what_is_typed_is_cleaned_too() {
    let typed = [Edit::Name, Edit::Notes, Edit::Workshop];
    for edit in typed {
        let design = edit(HARM.to_owned())
            .apply(&usual())
            .expect("it is short enough");
        let texts = [
            &design.draft().name,
            &design.draft().notes,
            &design.draft().workshop,
        ];
        assert!(texts.iter().any(|text| *text == LEFT), "{texts:?}");
        assert!(
            !texts.iter().any(|text| text.contains(is_harm)),
            "{texts:?}"
        );
        assert!(edit("n".repeat(10_000)).apply(&usual()).is_err());
    }
    assert_eq!(maker(HARM), LEFT);
    assert!(maker(&"n".repeat(10_000)).len() < 100);
}

#[test]
fn links_carry_letters_digits_and_dashes() {
    for name in NAMES {
        let design = named(name);
        assert!(!design.title().contains(is_harm), "{name:?}");
        let fragment = link::encode(&design).expect("a name makes no long link");
        let code = fragment.strip_prefix(link::PREFIX).expect("it begins so");
        let is_safe = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        assert!(code.chars().all(is_safe), "{fragment}");
        assert_eq!(link::decode(&fragment), Some(Ok(design)));
    }
}

#[test]
fn entries_of_a_calendar_stay_entries() {
    for name in NAMES {
        let design = named(name);
        let day = Day::parse("2026-11-26").expect("a day");
        let entry = calendar::CalendarEvent {
            uid: format!("{name}-0@taperwright"),
            first: day,
            last: day,
            title: design.title().to_owned(),
            text: format!("{}\n{name}", design.draft().notes),
        };
        let text = calendar::write(&[entry], "20261125T090000Z");
        assert!(
            !text.replace("\r\n", "").contains(char::is_control),
            "{text:?}"
        );
        let calendar: Calendar = text.parse().expect("another reader reads it");
        assert_eq!(calendar.components.len(), 1, "{text}");
        let event = calendar.components[0].as_event().expect("an event");
        assert_eq!(
            event.get_summary().map(str::trim),
            Some(design.title().trim())
        );
    }
}

#[test]
fn files_have_names_that_every_system_takes() {
    for name in NAMES
        .into_iter()
        .chain(["n".repeat(80).as_str(), "COM10", "lpt0", "console"])
    {
        let design = named(name);
        let workshop = Workshop::new(design.draft().name.clone(), &usual());
        let files = [
            file::name(&design),
            book::name(&workshop),
            card_svg::name(&design),
            calendar::name(&design),
            table::schedule_name(&design),
            table::bobbins_name(&design),
        ];
        for file in files {
            let (stem, ending) = file.split_once('.').expect("it has an ending");
            assert!(
                stem.chars().all(|c| c.is_alphanumeric() || c == '-'),
                "{file}"
            );
            assert!(
                ending.chars().all(|c| c.is_ascii_lowercase() || c == '.'),
                "{file}"
            );
            assert!(
                !stem.is_empty() && !stem.starts_with('-') && !stem.ends_with('-'),
                "{file}"
            );
            assert!(file.len() <= 255, "{} bytes: {file}", file.len());
            assert!(!is_reserved(stem), "{file}");
        }
    }
    assert_eq!(file::name(&named("CON")), "line-con.taper.json");
    assert_eq!(file::name(&named("console")), "console.taper.json");
    assert_eq!(file::name(&named("COM10")), "com10.taper.json");
}

/// The list as Microsoft writes it out, each word with an ending or without.
fn is_reserved(stem: &str) -> bool {
    let reserved = "CON PRN AUX NUL COM0 COM1 COM2 COM3 COM4 COM5 COM6 COM7 COM8 COM9 COM¹ COM² COM³ \
        LPT0 LPT1 LPT2 LPT3 LPT4 LPT5 LPT6 LPT7 LPT8 LPT9 LPT¹ LPT² LPT³";
    reserved
        .split_whitespace()
        .any(|word| word.to_lowercase() == stem.to_lowercase())
}
