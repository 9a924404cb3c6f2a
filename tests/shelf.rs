//! The shelf keeps lines whatever the browser's storage does, and never loses one.
#![cfg(not(target_arch = "wasm32"))]

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use taperwright::book::Workshop;
use taperwright::book::file as book_file;
use taperwright::book::swatch::Swatch;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::edit::Edit;
use taperwright::share::file;
use taperwright::shelf::{
    Found, FoundWorkshop, LINE_KEY, OPEN_KEY, Shelf, Store, StoreError, WORKSHOP_KEY,
};
use taperwright::sketch::Sketch;

/// What the store does wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Fault {
    None,
    /// There is no storage at all.
    Absent,
    /// Nothing can be written.
    Full,
    /// So many bytes of text can be kept, no more.
    Tight(usize),
    /// Says yes and writes nothing.
    Forgetful,
    /// Gives back something else than was written.
    Garbling,
    /// Cannot list its keys.
    Unlistable,
    /// Cannot read a text.
    Unreadable,
}

/// A store whose texts and faults the test holds on to.
#[derive(Clone)]
struct Fussy {
    texts: Rc<RefCell<BTreeMap<String, String>>>,
    fault: Rc<Cell<Fault>>,
}

impl Fussy {
    fn with(texts: &[(String, &str)]) -> Self {
        let texts = texts
            .iter()
            .map(|(key, text)| (key.clone(), (*text).to_owned()))
            .collect();
        Self {
            texts: Rc::new(RefCell::new(texts)),
            fault: Rc::new(Cell::new(Fault::None)),
        }
    }

    /// Bytes of all texts, with this one in its place.
    fn size_with(&self, key: &str, text: &str) -> usize {
        let texts = self.texts.borrow();
        let others = texts.iter().filter(|(other, _)| *other != key);
        others.map(|(_, text)| text.len()).sum::<usize>() + text.len()
    }

    fn text(&self, key: &str) -> Option<String> {
        self.texts.borrow().get(key).cloned()
    }
}

impl Store for Fussy {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        match self.fault.get() {
            Fault::Absent | Fault::Unreadable => Err(StoreError::Absent),
            Fault::Garbling => Ok(self.text(key).map(|text| text.replace('1', "l"))),
            _ => Ok(self.text(key)),
        }
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.fault.get() {
            Fault::Absent => return Err(StoreError::Absent),
            Fault::Full => return Err(StoreError::Full),
            Fault::Forgetful => return Ok(()),
            Fault::Tight(room) if self.size_with(key, text) > room => return Err(StoreError::Full),
            _ => {}
        }
        self.texts
            .borrow_mut()
            .insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        match self.fault.get() {
            Fault::Absent | Fault::Unlistable => Err(StoreError::Absent),
            _ => Ok(self.texts.borrow().keys().cloned().collect()),
        }
    }
}

fn line(number: u32) -> String {
    format!("{LINE_KEY}{number}")
}

fn named(name: &str) -> Design {
    Edit::Name(name.to_owned())
        .apply(&demo())
        .unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// Texts no version of this page can read, or that only a newer one can.
fn unreadable_texts() -> [String; 4] {
    let written = file::write(&demo());
    [
        "not a design".to_owned(),
        String::new(),
        written[..written.len() / 2].to_owned(),
        written.replacen("\"version\": 3", "\"version\": 4", 1),
    ]
}

/// Steps are a convenience: a line that has no room beside them takes theirs, and steps never take a line's.
#[test]
fn a_line_has_room_before_all_steps() {
    let store = Fussy::with(&[]);
    let mut shelf = Shelf::new(store.clone());
    let mut sketch = Sketch::new(demo());
    for name in ["a", "b", "c"] {
        sketch.try_out(Edit::Name(name.to_owned())).expect("a name");
        sketch.settle();
    }
    let first = shelf.keep(None, sketch.settled()).expect("there is room");
    shelf.keep_steps(first, &sketch).expect("there is room");
    assert_eq!(shelf.sketch(first, sketch.settled().clone()), sketch);
    // Room for one line more, but not beside the steps.
    let line_size = file::write(&named("second")).len();
    let lines = line_size * 2 + 20;
    assert!(store.size_with("", "") + line_size > lines);
    store.fault.set(Fault::Tight(lines));
    let second = shelf.keep(None, &named("second")).expect("steps give way");
    assert!(matches!(shelf.line(second), Found::Line(_, design) if *design == named("second")));
    assert!(matches!(shelf.line(first), Found::Line(_, design) if *design == *sketch.settled()));
    assert_eq!(
        shelf.sketch(first, sketch.settled().clone()),
        Sketch::new(sketch.settled().clone())
    );
    assert_eq!(shelf.keep_steps(second, &sketch), Err(StoreError::Full));
    assert!(matches!(shelf.line(second), Found::Line(..)));
}

#[test]
fn what_is_kept_reads_back() {
    let mut shelf = Shelf::new(Fussy::with(&[]));
    assert_eq!(shelf.found(), Found::Nothing);
    assert_eq!(shelf.keep(None, &named("first")), Ok(1));
    assert_eq!(shelf.keep(None, &named("second")), Ok(2));
    assert_eq!(shelf.found(), Found::Line(2, Box::new(named("second"))));
    assert_eq!(shelf.keep(Some(1), &named("first, again")), Ok(1));
    assert_eq!(
        shelf.found(),
        Found::Line(1, Box::new(named("first, again")))
    );
    assert_eq!(shelf.line(2), Found::Line(2, Box::new(named("second"))));
    let titles: Vec<_> = shelf
        .kept()
        .into_iter()
        .map(|kept| (kept.number, kept.title))
        .collect();
    assert_eq!(
        titles,
        [
            (1, Some("first, again".to_owned())),
            (2, Some("second".to_owned()))
        ]
    );
    assert_eq!(shelf.open(2), Ok(()));
    assert_eq!(shelf.found(), Found::Line(2, Box::new(named("second"))));
    assert_eq!(shelf.line(3), Found::Nothing);
}

#[test]
fn an_unreadable_line_is_shown_and_never_overwritten() {
    for text in unreadable_texts() {
        let store = Fussy::with(&[(line(1), &text), (OPEN_KEY.to_owned(), "1")]);
        let mut shelf = Shelf::new(store.clone());
        match shelf.found() {
            Found::Unreadable {
                number,
                text: shown,
                why,
            } => {
                assert_eq!((number, &shown), (1, &text));
                assert!(!why.is_empty());
            }
            found => panic!("{text} was taken for {found:?}"),
        }
        assert_eq!(shelf.kept()[0].title, None);
        // Neither under a new number nor, by a page that forgot to ask for one, under its own.
        for wished in [None, Some(1)] {
            let kept = shelf.keep(wished, &demo());
            assert!(
                matches!(kept, Ok(number) if number > 1),
                "{wished:?} was kept as {kept:?}"
            );
            assert_eq!(store.text(&line(1)).as_ref(), Some(&text));
        }
    }
}

#[test]
fn a_store_that_cannot_be_listed_loses_no_line() {
    let older = file::write(&named("older"));
    let store = Fussy::with(&[(line(1), &older)]);
    store.fault.set(Fault::Unlistable);
    let mut shelf = Shelf::new(store.clone());
    assert_eq!(shelf.keep(None, &demo()), Err(StoreError::Absent));
    assert_eq!(store.text(&line(1)), Some(older));
    assert_eq!(shelf.found(), Found::NoStorage(StoreError::Absent));
}

#[test]
fn a_line_that_cannot_be_looked_at_is_not_overwritten() {
    let store = Fussy::with(&[(line(1), "not a design")]);
    store.fault.set(Fault::Unreadable);
    assert_eq!(
        Shelf::new(store.clone()).keep(Some(1), &demo()),
        Err(StoreError::Absent)
    );
    assert_eq!(store.text(&line(1)), Some("not a design".to_owned()));
}

#[test]
fn a_full_store_says_so_and_keeps_the_older_text() {
    let older = file::write(&named("older"));
    let store = Fussy::with(&[(line(1), &older), (OPEN_KEY.to_owned(), "1")]);
    store.fault.set(Fault::Full);
    let mut shelf = Shelf::new(store.clone());
    for wished in [Some(1), None] {
        let error = shelf
            .keep(wished, &named("newer"))
            .expect_err("a full store kept something");
        assert_eq!(error, StoreError::Full);
        assert!(
            error.to_string().contains("full")
                && error.to_string().contains("Save the line as a file")
        );
    }
    assert_eq!(store.texts.borrow().len(), 2);
    assert_eq!(shelf.found(), Found::Line(1, Box::new(named("older"))));
}

#[test]
fn a_store_that_does_not_keep_what_it_was_given_is_found_out() {
    for fault in [Fault::Forgetful, Fault::Garbling] {
        let store = Fussy::with(&[]);
        store.fault.set(fault);
        let error = Shelf::new(store)
            .keep(None, &demo())
            .expect_err("nothing was kept");
        assert_eq!(error, StoreError::NotKept, "{fault:?}");
        assert!(error.to_string().contains("did not keep"));
    }
}

#[test]
fn no_storage_is_said_and_nothing_panics() {
    let store = Fussy::with(&[]);
    store.fault.set(Fault::Absent);
    let mut shelf = Shelf::new(store);
    assert_eq!(shelf.found(), Found::NoStorage(StoreError::Absent));
    assert_eq!(shelf.line(1), Found::NoStorage(StoreError::Absent));
    assert_eq!(shelf.keep(None, &demo()), Err(StoreError::Absent));
    assert_eq!(shelf.open(1), Err(StoreError::Absent));
    assert_eq!(shelf.kept(), []);
    assert!(StoreError::Absent.to_string().contains("no storage"));
}

#[test]
fn a_wrong_note_of_the_open_line_gives_the_newest() {
    let texts = ["a", "b", "c"].map(|name| file::write(&named(name)));
    for note in ["", "abc", "-1", "7", "99999999999999999999", "2.0"] {
        let store = Fussy::with(&[
            (line(1), &texts[0]),
            (line(2), &texts[1]),
            (line(10), &texts[2]),
            (OPEN_KEY.to_owned(), note),
        ]);
        assert_eq!(
            Shelf::new(store).found(),
            Found::Line(10, Box::new(named("c"))),
            "{note}"
        );
    }
    let unnoted = Fussy::with(&[(line(1), &texts[0]), (line(2), &texts[1])]);
    assert_eq!(
        Shelf::new(unnoted).found(),
        Found::Line(2, Box::new(named("b")))
    );
}

#[test]
fn a_new_line_takes_the_number_after_the_highest() {
    let text = file::write(&named("kept"));
    let store = Fussy::with(&[(line(2), &text), (line(10), &text)]);
    let mut shelf = Shelf::new(store.clone());
    assert_eq!(shelf.keep(None, &demo()), Ok(11));
    assert_eq!(shelf.keep(None, &demo()), Ok(12));
    assert_eq!(store.text(&line(10)), Some(text));
}

#[test]
fn keys_of_others_are_left_alone() {
    let mine = file::write(&named("mine"));
    let strays = ["+9", "09", "9 ", "x", ""].map(|stray| format!("{LINE_KEY}{stray}"));
    let mut texts: Vec<_> = strays.iter().map(|key| (key.clone(), "stray")).collect();
    texts.push((line(3), &mine));
    texts.push(("another/page".to_owned(), "theirs"));
    let store = Fussy::with(&texts);
    let mut shelf = Shelf::new(store.clone());
    assert_eq!(shelf.found(), Found::Line(3, Box::new(named("mine"))));
    assert_eq!(shelf.kept().len(), 1);
    assert_eq!(shelf.keep(None, &demo()), Ok(4));
    for (key, text) in texts {
        assert_eq!(store.text(&key).as_deref(), Some(text));
    }
}

#[test]
fn the_highest_number_there_is_leaves_room_below() {
    let mine = file::write(&named("mine"));
    let store = Fussy::with(&[(line(1), &mine), (line(u32::MAX), &mine)]);
    assert_eq!(Shelf::new(store.clone()).keep(None, &demo()), Ok(2));
    assert_eq!(store.text(&line(u32::MAX)), Some(mine));
}

fn workshop_key(number: u32) -> String {
    format!("{WORKSHOP_KEY}{number}")
}

fn workshop(name: &str) -> Workshop {
    let mut workshop = Workshop::new(name.to_owned(), &demo());
    workshop.swatches.push(Swatch {
        mass_g: Some(-1.0),
        ..Swatch::default()
    });
    workshop
}

#[test]
fn workshops_are_kept_beside_the_lines() {
    let mut shelf = Shelf::new(Fussy::with(&[]));
    assert_eq!(shelf.workshops(), []);
    assert_eq!(shelf.workshop(1), FoundWorkshop::Nothing);
    assert_eq!(shelf.keep(None, &named("a line")), Ok(1));
    assert_eq!(shelf.keep_workshop(None, &workshop("lot A")), Ok(1));
    assert_eq!(shelf.keep_workshop(None, &workshop("")), Ok(2));
    assert_eq!(shelf.keep_workshop(Some(1), &workshop("lot B")), Ok(1));
    assert_eq!(
        shelf.workshop(1),
        FoundWorkshop::Workshop(Box::new(workshop("lot B")))
    );
    let names: Vec<_> = shelf
        .workshops()
        .into_iter()
        .map(|kept| (kept.number, kept.name))
        .collect();
    assert_eq!(
        names,
        [(1, Some("lot B".to_owned())), (2, Some(String::new()))]
    );
    // Neither is taken for the other.
    assert_eq!(shelf.kept().len(), 1);
    assert_eq!(shelf.found(), Found::Line(1, Box::new(named("a line"))));
}

#[test]
fn an_unreadable_workshop_is_shown_and_never_overwritten() {
    let written = book_file::write(&workshop("lot A"));
    let texts = [
        "not a book".to_owned(),
        String::new(),
        file::write(&demo()),
        written[..written.len() / 2].to_owned(),
        written.replacen("\"version\":1", "\"version\":2", 1),
    ];
    for text in texts {
        assert_ne!(text, written);
        let store = Fussy::with(&[(workshop_key(1), &text)]);
        let mut shelf = Shelf::new(store.clone());
        match shelf.workshop(1) {
            FoundWorkshop::Unreadable { text: shown, why } => {
                assert_eq!(shown, text);
                assert!(!why.is_empty());
            }
            found => panic!("{text} was taken for {found:?}"),
        }
        assert_eq!(shelf.workshops()[0].name, None);
        for wished in [None, Some(1)] {
            let kept = shelf.keep_workshop(wished, &workshop("lot B"));
            assert!(
                matches!(kept, Ok(number) if number > 1),
                "{wished:?} was kept as {kept:?}"
            );
            assert_eq!(store.text(&workshop_key(1)).as_ref(), Some(&text));
        }
    }
}

#[test]
fn a_workshop_that_is_not_kept_is_found_out() {
    let rows = [
        (Fault::Forgetful, StoreError::NotKept),
        (Fault::Garbling, StoreError::NotKept),
        (Fault::Full, StoreError::Full),
        (Fault::Absent, StoreError::Absent),
        (Fault::Unlistable, StoreError::Absent),
    ];
    for (fault, error) in rows {
        let store = Fussy::with(&[]);
        store.fault.set(fault);
        let kept = Shelf::new(store).keep_workshop(None, &workshop("lot A"));
        assert_eq!(kept, Err(error), "{fault:?}");
    }
    // One that could not be read again is not written at all.
    let store = Fussy::with(&[]);
    let kept = Shelf::new(store.clone()).keep_workshop(None, &workshop(&"n".repeat(81)));
    assert_eq!(kept, Err(StoreError::NotKept));
    assert!(store.texts.borrow().is_empty());
}
