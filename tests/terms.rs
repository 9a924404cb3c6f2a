//! The words of the trade: one plain sentence each, in the order of the alphabet, each used on the page, and with the
//! figures of the units they define.
#![cfg(not(target_arch = "wasm32"))]

use std::fs;
use std::path::{Path, PathBuf};

use taperwright::base::units::Mass;
use taperwright::braid::taper::Part;
use taperwright::design::settings::Setting;
use taperwright::paper::figures::FIGURES;
use taperwright::paper::terms::Term;

#[test]
fn every_note_is_one_sentence() {
    for term in Term::ALL {
        let note = term.note();
        let inner = note
            .strip_suffix('.')
            .unwrap_or_else(|| panic!("{} does not end", term.name()));
        for end in [". ", "! ", "? ", "."] {
            let digits = |at: usize| {
                let beside = [
                    inner[..at].chars().next_back(),
                    inner[at + 1..].chars().next(),
                ];
                beside
                    .iter()
                    .all(|one| one.is_some_and(|c| c.is_ascii_digit()))
            };
            let ends = inner.match_indices(end).any(|(at, _)| !digits(at));
            assert!(!ends, "{}: more than one sentence", term.name());
        }
        let words = note.split_whitespace().count();
        assert!((6..=30).contains(&words), "{}: {words} words", term.name());
        assert!(note.starts_with(|c: char| c.is_uppercase()), "{note}");
    }
}

#[test]
fn words_stand_in_the_order_of_the_alphabet_and_each_once() {
    let names = Term::ALL.map(Term::name);
    assert!(names.windows(2).all(|pair| pair[0] < pair[1]), "{names:?}");
    for term in Term::ALL {
        assert_eq!(Term::from_key(term.key()), Some(term), "a key twice");
        let is_plain = |c: char| c.is_ascii_lowercase() || c == '-';
        assert!(term.key().chars().all(is_plain), "{}", term.key());
    }
    assert_eq!(Term::from_key("no such word"), None);
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder can be listed") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else {
            found.push(path);
        }
    }
}

/// Everywhere but in the list of all words, which would make every word a used one.
#[test]
fn every_word_is_explained_where_it_is_used() {
    let mut files = Vec::new();
    sources(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src/page/view"),
        &mut files,
    );
    let page: String = files
        .iter()
        .map(|path| fs::read_to_string(path).expect("a source is text"))
        .collect();
    let beside = FIGURES
        .iter()
        .filter_map(|figure| Term::of_figure(figure.key));
    let beside = beside.chain(Setting::ALL.into_iter().filter_map(Term::of_setting));
    let beside: Vec<_> = beside.collect();
    for term in Term::ALL {
        let is_named = page.split(|c: char| !c.is_alphanumeric() && c != ':');
        let path = format!("Term::{term:?}");
        let is_named = is_named.into_iter().any(|word| word == path);
        assert!(
            is_named || beside.contains(&term),
            "{} is explained nowhere",
            term.name()
        );
    }
}

#[test]
fn figures_and_parts_are_explained_by_their_own_word() {
    for (key, name) in [
        ("cover", "cover"),
        ("longest-float", "float"),
        ("widest-gap", "gap"),
        ("belly-mass", "belly"),
        ("circuits", "carrier circuit"),
    ] {
        assert_eq!(Term::of_figure(key).map(Term::name), Some(name));
    }
    assert_eq!(Term::of_figure("length"), None, "everybody knows a length");
    for (part, name) in [
        (Part::LevelTip, "level stretch"),
        (Part::FrontTaper, "taper"),
        (Part::Belly, "belly"),
        (Part::RearTaper, "taper"),
        (Part::RearTip, "level stretch"),
        (Part::RunningLine, "running line"),
    ] {
        assert_eq!(Term::of_part(part).name(), name);
    }
}

/// Source: the international avoirdupois pound of 0.45359237 kg has 7,000 grains (agreement of 1959, from memory).
#[test]
fn the_note_of_the_grain_has_its_figures_right() {
    let pound = Mass::from_kilograms(0.453_592_37);
    assert!((pound.grains() - 7000.0).abs() < 1e-6);
    let gram = Mass::from_kilograms(1e-3).grains();
    let note = Term::Grain.note();
    assert!(note.contains("7,000"), "{note}");
    assert!(note.contains(&format!("{gram:.1}")), "{note}");
}

/// Source: ISO 1144:2016 for tex; the denier is its ninth part in g/km, from memory.
#[test]
fn the_note_of_yarn_sizes_has_its_figures_right() {
    let note = Term::Denier.note();
    for (unit, metres) in [("denier", "9,000 m"), ("tex", "1,000 m")] {
        let after = note.split(unit).nth(1).expect("the unit is named");
        assert!(after.contains(metres), "{note}");
    }
}
