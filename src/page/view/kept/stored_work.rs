//! The kinds of stored work: how one of each is opened, and what replaces an open one that is deleted.

use leptos::prelude::*;

use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::Document;
use crate::measured::MeasuredLine;
use crate::page::places::Place;
use crate::page::view::bench::Bench;
use crate::page::view::book::OpenBook;
use crate::page::view::measured::OpenMeasured;
use crate::page::view::places::Places;

/// The work that is open on this page.
#[derive(Clone, Copy)]
pub(super) struct OpenWork {
    pub(super) bench: Bench,
    pub(super) book: OpenBook,
    pub(super) measured: OpenMeasured,
    pub(super) places: Places,
}

/// A kind of work that can be stored.
pub(super) trait StoredWork: Document + Send + Sync + 'static {
    /// Whether it is the one open on this page.
    fn is_open(page: &OpenWork, number: u32) -> bool;

    /// Opens it.
    fn open(page: &OpenWork, number: u32);

    /// Whether the open one may be deleted; where that would lose something, says so.
    fn may_go(page: &OpenWork) -> bool;

    /// Opens another in place of the open one.
    fn put_away(page: &OpenWork);
}

impl StoredWork for Design {
    fn is_open(page: &OpenWork, number: u32) -> bool {
        untrack(|| page.bench.number()) == Some(number)
    }

    fn open(page: &OpenWork, number: u32) {
        page.bench.sheet.set(None);
        page.bench.fetch(number);
    }

    fn may_go(page: &OpenWork) -> bool {
        page.bench.may_leave()
    }

    fn put_away(page: &OpenWork) {
        page.bench.turn_to_own();
    }
}

impl StoredWork for Workshop {
    fn is_open(page: &OpenWork, number: u32) -> bool {
        page.book.is_open(number)
    }

    fn open(page: &OpenWork, number: u32) {
        page.book.choose(number);
        page.places.go(Place::Weigh);
    }

    fn may_go(page: &OpenWork) -> bool {
        page.book.may_leave()
    }

    fn put_away(page: &OpenWork) {
        let design = page.bench.settled.get_untracked();
        page.book.replace_deleted(&design);
    }
}

impl StoredWork for MeasuredLine {
    fn is_open(page: &OpenWork, number: u32) -> bool {
        untrack(|| page.measured.is_open(number))
    }

    fn open(page: &OpenWork, number: u32) {
        page.measured.fetch(number);
    }

    fn may_go(page: &OpenWork) -> bool {
        page.measured.may_go()
    }

    fn put_away(page: &OpenWork) {
        page.measured.put_away();
    }
}
