//! Workshops have the same care as lines.

use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::keep::book::Workshop;
use taperwright::keep::book::file as book_file;
use taperwright::keep::book::swatch::Swatch;
use taperwright::keep::share::file;
use taperwright::keep::shelf::{Id, Lookup, StoreError, Unkept, WORKSHOP_KEY};
use taperwright::photo::Estimate;

use crate::everything::everything;
use crate::fussy::{Fault, Fussy, keep, keep_on, list, named, names, shelf};
use crate::small_pictures::largest;

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

/// What came from photos is kept with its book, goes into a file of everything and comes out of it, the picture to the last letter.
/// A book without the picture is another book: neither takes the place of the other.
#[test]
fn a_picture_goes_with_its_book() {
    let mut book = workshop("lot A");
    let angle = Estimate {
        value: 0.8,
        error: 0.01,
    };
    book.swatches[0].take_photo(angle, None, Some(largest()));
    let store = Fussy::with(&[]);
    let mut here = shelf(&store);
    keep(&mut here, 1, &book);
    let kept = |lookup: Lookup<Workshop>| matches!(lookup, Lookup::Kept(kept) if kept.work.swatches == book.swatches);
    assert!(kept(shelf(&store).look::<Workshop>(1)));
    let file = everything(&store.texts.borrow());
    let elsewhere = Fussy::with(&[]);
    let imported = shelf(&elsewhere).import(&file).expect("it is whole");
    assert_eq!(imported.added, 1);
    assert!(kept(shelf(&elsewhere).look::<Workshop>(1)));
    let mut plain = book.clone();
    plain.swatches[0].picture = None;
    let other = Fussy::with(&[]);
    keep(&mut shelf(&other), 1, &plain);
    let beside = shelf(&other).import(&file).expect("it is whole");
    assert_eq!((beside.same, beside.beside), (0, 1));
    assert!(kept(shelf(&other).look::<Workshop>(2)));
    // Where the browser has no room for the picture, the book says so and nothing is kept of it.
    store.fault.set(Fault::Full);
    let refused = shelf(&store).keep_new(Id(9), &book, None);
    assert!(refused.is_err_and(|unkept| unkept.why == StoreError::Full));
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
