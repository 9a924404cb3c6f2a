//! Which entry of the book a button opened, and showing it to the maker.

use leptos::prelude::*;

use crate::page::browser::focus::{find, reveal};

/// An entry of the book, by its place in its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum BookEntry {
    /// A swatch.
    Swatch(usize),
    /// A line made.
    Line(usize),
}

/// The entry last opened by a button.
#[derive(Clone, Copy)]
pub(super) struct Opened(RwSignal<Option<BookEntry>>);

impl BookEntry {
    /// Its row.
    fn selector(self) -> String {
        let (list, index) = match self {
            Self::Swatch(index) => (".swatches", index),
            Self::Line(index) => (".made-lines", index),
        };
        format!("{list} .entry-row:nth-child({})", index + 1)
    }
}

impl Opened {
    /// None yet.
    pub(super) fn none() -> Self {
        Self(RwSignal::new(None))
    }

    /// Whether it is this one.
    pub(super) fn is(self, entry: BookEntry) -> bool {
        self.0.get() == Some(entry)
    }

    /// Opens an entry, once it is there, and goes to a part of it.
    pub(super) fn open(self, entry: BookEntry, part: &'static str) {
        self.0.set(Some(entry));
        request_animation_frame(move || {
            if let Some(part) = find(&format!("{} {part}", entry.selector())) {
                reveal(&part);
            }
        });
    }
}
