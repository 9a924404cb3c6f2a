//! The sheet that measures from a photo, as other parts of the page know it.

use leptos::prelude::*;
use web_sys::Blob;

use super::state::PhotoState;
use super::task::PhotoTask;
use crate::page::view::bench::Bench;
use crate::page::view::book::OpenBook;
use crate::page::view::sheet_kind::SheetKind;

/// What opens it, and what is on it.
#[derive(Clone, Copy)]
pub(crate) struct PhotoLink {
    bench: Bench,
    open_book: OpenBook,
    /// What the sheet is opened for next.
    next: StoredValue<Option<PhotoTask>>,
    /// What is on the sheet while it is open.
    shown: StoredValue<Option<PhotoState>>,
}

/// That of this page.
pub(crate) fn photo_link() -> PhotoLink {
    expect_context::<PhotoLink>()
}

impl PhotoLink {
    /// Not opened yet.
    pub(crate) fn new(bench: Bench, open_book: OpenBook) -> Self {
        Self {
            bench,
            open_book,
            next: StoredValue::new(None),
            shown: StoredValue::new(None),
        }
    }

    /// Opens it for this.
    pub(crate) fn open(self, task: PhotoTask) {
        self.next.set_value(Some(task));
        self.bench.sheet.set(Some(SheetKind::Photo));
    }

    /// What it was opened for.
    pub(super) fn begun(self) -> PhotoTask {
        let task = self.next.try_update_value(Option::take).flatten();
        task.unwrap_or_else(|| PhotoTask::of_line(self.bench, self.open_book))
    }

    /// From now on, until the component is disposed of, this is on it.
    pub(super) fn show(self, state: PhotoState) {
        self.shown.set_value(Some(state));
        on_cleanup(move || {
            self.shown.try_set_value(None);
        });
    }

    /// Whether it is open.
    pub(crate) fn is_open(self) -> bool {
        self.shown.with_value(Option::is_some)
    }

    /// Measures what was dropped while it is open.
    pub(crate) fn measure(self, file: &Blob) {
        if let Some(state) = self.shown.get_value() {
            state.open(file);
        }
    }

    /// Says something on it while it is open.
    pub(crate) fn tell(self, words: String) {
        if let Some(state) = self.shown.get_value() {
            state.said.set(words);
        }
    }
}
