//! Of a damaged file of everything every whole piece comes in, and what is left of the others is kept and told.

use std::collections::BTreeSet;

use serde_json::{Value, json};
use taperwright::design::Design;
use taperwright::keep::book::Workshop;
use taperwright::keep::shelf::backup::{self, BackupError, Imported};
use taperwright::keep::shelf::{ASIDE_KEY, Document as _, LINE_KEY};

use crate::books::workshop;
use crate::everything::everything;
use crate::fussy::{Fussy, keep, named, names, shelf};

/// A file with three lines, two workshops and two texts that could not be read.
fn file() -> String {
    let store = Fussy::with(&[
        (format!("{LINE_KEY}x"), "not “ours” {\"at all\""),
        (format!("{ASIDE_KEY}0000000000000001"), "{"),
    ]);
    let mut shelf = shelf(&store);
    for (id, name) in [(1, "one"), (2, "two {\"braces\"}"), (3, "three")] {
        keep(&mut shelf, id, &named(name));
    }
    for (id, name) in [(4, "lot A"), (5, "lot \\ B")] {
        keep(&mut shelf, id, &workshop(name));
    }
    everything(&store.texts.borrow())
}

/// Where each piece of a list stands in the file.
fn places(text: &str, list: &str) -> Vec<core::ops::Range<usize>> {
    let tree: Value = serde_json::from_str(text).expect("JSON");
    let pieces = tree[list].as_array().expect("a list").iter();
    let place = |piece: &Value| {
        let written = piece.to_string();
        let at = text.find(&written).expect("it stands there");
        at..at + written.len()
    };
    pieces.map(place).collect()
}

fn taken_in(text: &str) -> (Fussy, Result<Imported, BackupError>) {
    let store = Fussy::with(&[]);
    let imported = shelf(&store).import(text);
    (store, imported)
}

fn all_names(store: &Fussy) -> BTreeSet<String> {
    let shelf = shelf(store);
    let lines = names::<Design>(&shelf).into_iter();
    let all = lines.chain(names::<Workshop>(&shelf));
    all.filter_map(|(_, name)| name).collect()
}

#[test]
fn a_file_cut_off_anywhere_gives_all_that_is_whole_before() {
    let text = file();
    let works = [places(&text, "lines"), places(&text, "workshops")].concat();
    let asides = places(&text, "unreadable");
    assert_eq!((works.len(), asides.len()), (5, 2));
    let before = |places: &[core::ops::Range<usize>], end| {
        places.iter().filter(|place| place.end <= end).count()
    };
    let ends = works
        .iter()
        .chain(&asides)
        .flat_map(|place| place.end - 1..=place.end + 1);
    for end in (30..text.len()).step_by(53).chain(ends) {
        let cut = &text[..(0..=end)
            .rev()
            .find(|end| text.is_char_boundary(*end))
            .unwrap_or(0)];
        let (added, unreadable) = (before(&works, cut.len()), before(&asides, cut.len()));
        let (store, imported) = taken_in(cut);
        if added + unreadable == 0 {
            assert_eq!(imported, Err(BackupError::CutOff), "{end}");
            assert!(store.texts.borrow().is_empty());
            continue;
        }
        let imported = imported.unwrap_or_else(|error| panic!("{end}: {error}"));
        assert_eq!(
            (imported.added, imported.unreadable),
            (added, unreadable),
            "{end}"
        );
        assert!(
            imported.is_cut_off && imported.damaged <= 1,
            "{end}: {imported:?}"
        );
        let said = imported.to_string();
        assert!(
            said.starts_with("The file was cut off: its end is missing."),
            "{said}"
        );
        // Taken in again it adds nothing.
        let once = store.texts.borrow().clone();
        let again = shelf(&store).import(cut).expect("it was taken in before");
        assert_eq!((again.added, again.beside, again.same), (0, 0, added));
        assert_eq!(*store.texts.borrow(), once);
    }
}

/// One character altered, lost or put in, anywhere: all pieces but the one it stands in come in, and of that one all is kept.
#[test]
fn one_damaged_piece_costs_no_other() {
    let text = file();
    let everyone = all_names(&taken_in(&text).0);
    assert_eq!(everyone.len(), 5);
    let mut told = 0;
    for at in (60..text.len())
        .step_by(29)
        .filter(|at| text.is_char_boundary(*at) && text.is_char_boundary(at + 1))
    {
        for new in ["~", "", "\"", "\\", "{", "}", "{\"", "\",\"", "\u{0}"] {
            let damaged = format!("{}{new}{}", &text[..at], &text[at + 1..]);
            let (store, imported) = taken_in(&damaged);
            let imported = match imported {
                Ok(imported) => imported,
                // The number of the format may have become a higher one.
                Err(error) => panic!("{new:?} at {at}: {error}"),
            };
            let there = all_names(&store);
            let missing = everyone.difference(&there).count();
            assert!(missing <= 1, "{new:?} at {at}: {imported:?}, {there:?}");
            assert_eq!(imported.unkept, 0);
            if imported.damaged > 0 {
                told += 1;
                assert!(imported.to_string().contains("damaged"), "{imported}");
            }
            let whole = imported.added + imported.unreadable + imported.damaged;
            assert!(whole >= 7, "{new:?} at {at}: {imported:?}");
        }
    }
    assert!(told > 100, "{told} told");
}

#[test]
fn what_is_left_is_kept_and_goes_out_again() {
    let text = file();
    let second = &places(&text, "lines")[1];
    let middle = second.start + second.len() / 2;
    // A quote too many, so that the text of the file ends too early.
    let damaged = format!("{}\"{}", &text[..middle], &text[middle..]);
    let (store, imported) = taken_in(&damaged);
    let expected = Imported {
        added: 4,
        unreadable: 2,
        damaged: 1,
        ..Imported::default()
    };
    assert_eq!(imported, Ok(expected));
    let said = expected.to_string();
    assert!(said.starts_with("The backup is damaged."), "{said}");
    assert!(
        said.contains("4 restored") && said.contains("1 damaged"),
        "{said}"
    );
    let left = &damaged[second.start..=second.end];
    let out = everything(&store.texts.borrow());
    let tree: Value = serde_json::from_str(&out).expect("JSON");
    let asides = tree["unreadable"].as_array().expect("a list");
    assert!(
        asides.iter().any(|aside| aside["text"] == json!(left)),
        "{out}"
    );
    // A damaged file is none to rely on: what came from it still asks to be saved.
    let mut whole = shelf(&Fussy::with(&[]));
    whole.import(&text).expect("it is whole");
    assert_eq!(whole.reminder(None).expect("it can be read").saves, 0);
    assert!(shelf(&store).reminder(None).expect("it can be read").saves > 0);
}

/// What is not the text of the file is taken over where it is sound, and else done without.
#[test]
fn a_piece_with_a_damaged_name_or_count_is_whole() {
    let text = file();
    for (old, new) in [
        ("\"revision\":1", "\"revision\":-1"),
        ("\"revision\":1", "\"revision\":\"one\""),
        ("\"binned\":false", "\"binned\":0"),
        ("\"id\":", "\"ib\":"),
        ("\"changed\":", "\"changed\":7,\"charged\":"),
    ] {
        assert!(text.contains(old), "{old}");
        let (store, imported) = taken_in(&text.replacen(old, new, 1));
        let imported = imported.unwrap_or_else(|error| panic!("{new}: {error}"));
        assert_eq!((imported.added, imported.damaged), (5, 0), "{new}");
        assert_eq!(all_names(&store).len(), 5, "{new}");
    }
}

/// The names of the lists may be damaged too: what a piece holds says what it is.
#[test]
fn a_list_with_a_damaged_name_costs_nothing() {
    let text = file();
    for name in ["lines", "workshops", "unreadable"] {
        let (store, imported) =
            taken_in(&text.replacen(&format!("\"{name}\":["), "\"li~es\":[", 1));
        let imported = imported.unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(
            (imported.added, imported.unreadable, imported.damaged),
            (5, 2, 0),
            "{name}"
        );
        assert_eq!(all_names(&store).len(), 5, "{name}");
    }
}

/// Written with blanks and line ends by another program, and with a mark of byte order, it is the same.
#[test]
fn a_file_laid_out_otherwise_is_salvaged_too() {
    let tree: Value = serde_json::from_str(&file()).expect("JSON");
    let text = serde_json::to_string_pretty(&tree).expect("JSON");
    for text in [text.clone(), format!("\u{feff}{text}")] {
        assert!(backup::is_one(&text));
        assert_eq!(
            taken_in(&text).1.map(|it| (it.added, it.damaged)),
            Ok((5, 0))
        );
        let cut = &text[..text.rfind("\"file\"").expect("the last piece")];
        assert!(backup::is_one(cut));
        assert_eq!(
            taken_in(cut)
                .1
                .map(|it| (it.added, it.damaged, it.is_cut_off)),
            Ok((4, 1, true))
        );
    }
}

#[test]
fn a_newer_file_that_is_cut_off_is_newer() {
    let newer = "{\"format\":\"taperwright backup\",\"version\":3,\"lines\":[{\"id\":";
    assert!(backup::is_one(newer));
    assert_eq!(taken_in(newer).1, Err(BackupError::Newer(3)));
    let line = named("one").write();
    assert!(!backup::is_one(&line) && !backup::is_one(&line[..40]));
}
