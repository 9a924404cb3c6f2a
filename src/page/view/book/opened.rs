//! Which entries of the book are open. They stay so while another place is shown.

use leptos::prelude::*;
use web_sys::Event;

use crate::keep::book::BookEntry;
use crate::page::browser::focus::{find, is_unfolded, reveal};

/// The entries that are open.
#[derive(Clone, Copy)]
pub(crate) struct Opened(RwSignal<Vec<BookEntry>>);

impl Opened {
    /// None.
    pub(super) fn none() -> Self {
        Self(RwSignal::new(Vec::new()))
    }

    /// Whether it is open.
    pub(super) fn has(self, entry: BookEntry) -> bool {
        self.0.with(|open| open.contains(&entry))
    }

    /// Closes all: another book is open, or entries have other places.
    pub(super) fn clear(self) {
        self.0.set(Vec::new());
    }

    /// The maker opened or closed an entry.
    pub(super) fn follow(self, entry: BookEntry, toggled: &Event) {
        let is_open = is_unfolded(toggled);
        if is_open != self.0.with_untracked(|open| open.contains(&entry)) {
            self.0.update(|open| {
                open.retain(|other| *other != entry);
                if is_open {
                    open.push(entry);
                }
            });
        }
    }

    /// Opens an entry, once it is there, and goes to a part of it.
    pub(super) fn open(self, entry: BookEntry, part: &str) {
        self.0.update(|open| open.push(entry));
        let part = format!("{} {part}", row_of(entry));
        request_animation_frame(move || {
            if let Some(part) = find(&part) {
                reveal(&part);
            }
        });
    }
}

/// The row of an entry.
fn row_of(entry: BookEntry) -> String {
    let (list, index) = match entry {
        BookEntry::Swatch(index) => (".swatches", index),
        BookEntry::Line(index) => (".made-lines", index),
    };
    format!("{list} .entry-row:nth-child({})", index + 1)
}
