//! Workshops have the same care as lines.

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book_file;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::share::file;
use taperwright::keep::shelf::{Id, Lookup, StoreError, Unkept, WORKSHOP_KEY};

use crate::fussy::{Fault, Fussy, keep, keep_on, list, named, names, shelf};

fn workshop_key(number: u32) -> String {
    format!("{WORKSHOP_KEY}{number}/1-00000000000000ff-00000000")
}

pub(crate) fn workshop(name: &str) -> Workshop {
    let mut workshop = Workshop::new(name.to_owned(), &demo());
    workshop.swatches.push(Swatch {
        mass_g: Some(-1.0),
        ..Swatch::default()
    });
    workshop
}

#[test]
fn workshops_are_kept_beside_the_lines() {
    let store = Fussy::with(&[]);
    let mut shelf = shelf(&store);
    assert_eq!(shelf.look::<Workshop>(1), Lookup::Nothing);
    keep(&mut shelf, 1, &named("a line"));
    let first = keep(&mut shelf, 2, &workshop("lot A"));
    assert_eq!(keep(&mut shelf, 3, &workshop("")).seen.number(), 2);
    keep_on(&mut shelf, &first, &workshop("lot B"));
    assert!(
        matches!(shelf.look::<Workshop>(1), Lookup::Kept(kept) if kept.work == workshop("lot B"))
    );
    let all = [(1, Some("lot B".to_owned())), (2, Some(String::new()))];
    assert_eq!(names::<Workshop>(&shelf), all);
    assert_eq!(
        list::<Workshop>(&shelf)[1].title::<Workshop>(),
        Some("Unnamed workshop")
    );
    // Neither is taken for the other.
    assert_eq!(list::<Design>(&shelf).len(), 1);
}

#[test]
fn an_unreadable_workshop_is_shown_and_never_overwritten() {
    let written = book_file::write(&workshop("lot A"));
    let texts = [
        "not a book".to_owned(),
        String::new(),
        file::write(&demo()),
        written[..written.len() / 2].to_owned(),
    ];
    for text in texts {
        let store = Fussy::with(&[(workshop_key(1), &text)]);
        let mut shelf = shelf(&store);
        match shelf.look::<Workshop>(1) {
            Lookup::Unreadable {
                text: shown, why, ..
            } => {
                assert_eq!(shown, text);
                assert!(!why.is_empty());
            }
            found => panic!("{text} was taken for {found:?}"),
        }
        assert_eq!(names::<Workshop>(&shelf), [(1, None)]);
        assert_eq!(keep(&mut shelf, 1, &workshop("lot B")).seen.number(), 2);
        assert_eq!(store.text(&workshop_key(1)).as_ref(), Some(&text));
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
    for (fault, why) in rows {
        let store = Fussy::with(&[]);
        let mut shelf = shelf(&store);
        store.fault.set(fault);
        let error = shelf
            .keep_new(Id(1), &workshop("lot A"), None)
            .expect_err("nothing was kept");
        assert_eq!(
            error,
            Unkept {
                what: "workshop",
                why
            },
            "{fault:?}"
        );
        assert!(error.to_string().contains("Save the workshop as a file"));
    }
    // One that could not be read again is not written at all.
    let store = Fussy::with(&[]);
    let kept = shelf(&store).keep_new(Id(1), &workshop(&"n".repeat(81)), None);
    assert!(kept.is_err() && store.texts.borrow().is_empty());
}
