//! What is said of bad files, at every door: plain sentences, in which no word of the program's insides or of its libraries
//! stands, and a file that was cut off is called so.

use serde_json::{Value, json};
use taperwright::keep::book::file as book;
use taperwright::keep::book::record::LineRecord;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::book::{Frozen, Workshop};
use taperwright::keep::dropped;
use taperwright::keep::share::file;
use taperwright::keep::shelf::memory::Memory;
use taperwright::keep::shelf::{Shelf, Writer};

use crate::designs::usual;
use crate::small_pictures::picture;

/// Words of the program's insides and of the reader of JSON. Names that stand in the file are in quotes and do not count.
const INNER: [&str; 36] = [
    "`",
    "serde",
    "enum",
    "struct",
    "field",
    "variant",
    "tagged",
    "expected",
    "invalid",
    "column",
    " map",
    "sequence",
    "eof",
    "f64",
    "u8",
    "u32",
    "u64",
    "usize",
    "i64",
    "string",
    "boolean",
    "null",
    "trailing",
    "draft",
    "option",
    "recursion",
    "surrogate",
    "escape",
    "control character",
    "parsing",
    "key must",
    "tuple",
    "unit",
    "byte array",
    "floating",
    "integer",
];

/// Longest sentence, in words: as in `tests/plain.rs`.
const MOST_WORDS: usize = 20;

/// A door: what it is, and what it says of a text that it does not read.
type Door = (&'static str, fn(&str) -> Option<String>);

const DOORS: [Door; 4] = [
    ("design file", |text| {
        file::read(text).err().map(|error| error.to_string())
    }),
    ("bench book", |text| {
        book::read(text).err().map(|error| error.to_string())
    }),
    ("dropped file", |text| {
        dropped::read(text).err().map(|error| error.to_string())
    }),
    ("backup", |text| {
        let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("memory does not fail");
        Some(match shelf.import(text) {
            Ok(imported) => imported.to_string(),
            Err(error) => error.to_string(),
        })
    }),
];

fn workshop() -> Workshop {
    let mut workshop = Workshop::new("Heron Weir, lot A".to_owned(), &usual());
    workshop.swatches.push(Swatch {
        mass_g: Some(1.5e-7),
        angle_deg: Some(46.2),
        angle_error_deg: Some(0.5),
        picture: Some(picture()),
        ..Swatch::default()
    });
    let mut line = LineRecord::new("first".to_owned(), Frozen::of(&usual()));
    line.finished.mass_g = Some(26.25);
    line.finished
        .diameters
        .push(taperwright::keep::book::record::DiameterAt::default());
    line.diary = taperwright::plan::days::Day::parse("2026-11-26")
        .ok()
        .map(|day| taperwright::plan::days::Diary {
            start: day,
            ticks: vec![Some(day), None],
        });
    workshop.records.push(line);
    workshop
}

/// A good file of every kind.
fn good() -> [String; 3] {
    let (design, book) = (file::write(&usual()), book::write(&workshop()));
    let piece = |file: &str| json!({"id": "0123456789abcdef", "revision": 1, "changed": null, "binned": false, "file": file});
    let aside = json!({"key": "taperwright/line/x", "text": "half a line"});
    let all = json!({
        "format": "taperwright backup", "version": 1, "lines": [piece(&design)], "workshops": [piece(&book)], "unreadable": [aside],
    });
    let golden = include_str!("golden/version-3.json").to_owned();
    [golden, book, all.to_string()]
}

/// Without what a file says itself.
fn own_words(said: &str) -> String {
    let mut parts = said.split('“');
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |all, part| {
        all + part.split_once('”').map_or("", |(_, after)| after)
    })
}

/// Whether all that is said is clean, plain and short.
#[track_caller]
fn is_plain(said: &str, text: &str) {
    let shown: String = text.chars().take(300).collect();
    let words = own_words(said);
    let lower = words.to_lowercase();
    for inner in INNER {
        let is_whole = |at: usize| {
            let before = lower[..at]
                .chars()
                .next_back()
                .is_some_and(char::is_alphanumeric);
            let after = lower[at + inner.len()..]
                .chars()
                .next()
                .is_some_and(char::is_alphanumeric);
            !before && !after
        };
        let found = lower.match_indices(inner).any(|(at, _)| is_whole(at));
        assert!(!found, "“{inner}” in: {said}\n{shown}");
    }
    assert!(said.ends_with('.') && !said.contains(".."), "{said}");
    assert!(!said.contains(|c: char| c.is_control()), "{said:?}");
    for sentence in words
        .split_inclusive(['.', ';', ':'])
        .filter(|part| part.len() > 2)
    {
        let count = sentence.split_whitespace().count();
        assert!(count <= MOST_WORDS, "{count} words: {sentence}\n{said}");
    }
}

/// What the doors say of a text; each answer is looked at.
fn all_said(text: &str) -> Vec<(&'static str, String)> {
    let said = DOORS.into_iter().filter_map(|(door, read)| {
        let said = read(text)?;
        is_plain(&said, text);
        Some((door, said))
    });
    said.collect()
}

#[test]
fn a_file_cut_off_is_called_so_at_every_door() {
    for whole in good() {
        let mut counted = 0;
        for end in (1..whole.len()).filter(|end| whole.is_char_boundary(*end)) {
            // The blank lines after the last brace are no loss.
            if whole[end..].trim().is_empty() || (whole.len() > 6_000 && end % 7 > 0 && end > 300) {
                continue;
            }
            for (door, said) in all_said(&whole[..end]) {
                let is_called_so = said.starts_with("The file was cut off: its end is missing.");
                assert!(is_called_so, "{door}, cut at {end}: {said}");
                counted += 1;
            }
        }
        assert!(counted > 1_000, "{counted}");
    }
}

/// Every value in a tree by its path.
fn places(tree: &Value, path: &str, found: &mut Vec<String>) {
    found.push(path.to_owned());
    match tree {
        Value::Object(map) => map
            .iter()
            .for_each(|(key, value)| places(value, &format!("{path}/{key}"), found)),
        Value::Array(list) => {
            for (at, value) in list.iter().enumerate() {
                places(value, &format!("{path}/{at}"), found);
            }
        }
        _ => {}
    }
}

#[test]
fn values_of_a_wrong_kind_at_every_place() {
    let kinds = [
        json!(null),
        json!(true),
        json!(-7),
        json!(1.5),
        json!(1e300),
        json!("zzz"),
        json!([]),
        json!([1]),
        json!({}),
        json!({"zzz": 1}),
    ];
    for whole in good() {
        let tree: Value = serde_json::from_str(&whole).expect("JSON");
        let mut all = Vec::new();
        places(&tree, "", &mut all);
        for path in all {
            for kind in &kinds {
                let mut changed = tree.clone();
                *changed.pointer_mut(&path).expect("it is there") = kind.clone();
                all_said(&changed.to_string());
                all_said(&serde_json::to_string_pretty(&changed).expect("JSON"));
            }
        }
    }
}

#[test]
fn names_missing_unknown_or_there_twice() {
    for whole in good() {
        let tree: Value = serde_json::from_str(&whole).expect("JSON");
        let mut all = Vec::new();
        places(&tree, "", &mut all);
        for path in all {
            let Some((parent, name)) = path.rsplit_once('/') else {
                continue;
            };
            let mut changed = tree.clone();
            let Some(map) = changed.pointer_mut(parent).and_then(Value::as_object_mut) else {
                continue;
            };
            let value = map.remove(name).expect("it is there");
            all_said(&changed.to_string());
            let map = changed.pointer_mut(parent).and_then(Value::as_object_mut);
            map.expect("a map")
                .insert(format!("{name}`, expected"), value);
            all_said(&changed.to_string());
        }
        // A name twice has to be written by hand.
        for (at, _) in whole
            .match_indices("\": ")
            .chain(whole.match_indices("\":"))
        {
            let from = whole[..at].rfind('"').expect("a name begins");
            let name = &whole[from..=at];
            all_said(&format!("{}{name}:0,{}", &whole[..from], &whole[from..]));
        }
    }
    let whole = file::write(&usual());
    let twice = whole.replacen("\"notes\"", "\"name\": \"other\", \"notes\"", 1);
    let said = file::read(&twice)
        .expect_err("which of the two?")
        .to_string();
    assert_eq!(
        said,
        "The design file is damaged: “name” is there twice (line 6). Look for another copy of it."
    );
}

#[test]
fn what_is_no_file_of_ours() {
    let utf_16 = |text: &str, to_bytes: fn(u16) -> [u8; 2]| {
        let units = core::iter::once(0xfeff).chain(text.encode_utf16());
        let bytes: Vec<u8> = units.flat_map(to_bytes).collect();
        String::from_utf8_lossy(&bytes).into_owned()
    };
    let mut texts = vec![
        String::new(),
        " \n".to_owned(),
        "\u{feff}".to_owned(),
        "<!doctype html><html><body>404</body></html>".to_owned(),
        "PK\u{3}\u{4}\u{0}\u{0}".to_owned(),
        String::from_utf8_lossy(&[0x89, b'P', b'N', b'G', 0, 0xff, 0xd8]).into_owned(),
        "{} {}".to_owned(),
        "{\"format\":7}".to_owned(),
        "name;weight\n1;2".to_owned(),
        "[".repeat(50),
        "{\"a\":".repeat(50),
    ];
    for whole in good() {
        texts.push(utf_16(&whole, u16::to_le_bytes));
        texts.push(utf_16(&whole, u16::to_be_bytes));
        texts.push(format!("{whole}{whole}"));
        texts.push(format!("{whole} x"));
    }
    for text in texts {
        let said = all_said(&text);
        assert_eq!(said.len(), DOORS.len(), "{text}: {said:?}");
    }
}

/// Some programs put a mark of byte order before every file they save.
#[test]
fn a_mark_of_byte_order_is_passed_over() {
    let [design, book, _] = good();
    assert_eq!(
        file::read(&format!("\u{feff}{design}")),
        file::read(&design)
    );
    assert_eq!(book::read(&format!("\u{feff}{book}")), book::read(&book));
    assert!(file::read(&design).is_ok() && book::read(&book).is_ok());
}
