//! What an entry of the book really brought.

use leptos::prelude::*;

use super::open_book::open_book;
use super::opened::Opened;
use crate::keep::book::BookEntry;
use crate::keep::book::next::Brought;
use crate::page::view::bench::bench;

/// What it brought for the line on the bench, in words. The book is learnt again without it, so this waits until the entry is open.
#[component]
pub(super) fn BroughtWords(entry: BookEntry, opened: Opened) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let words = Memo::new(move |_| {
        if !opened.has(entry) {
            return None;
        }
        let estimate = open_book.estimate.read();
        let (design, plan) = (bench.settled.read(), bench.settled_plan.read());
        let brought = open_book
            .workshop
            .with(|workshop| Brought::of(workshop, &estimate, (&design, &plan), entry));
        brought.as_ref().map(Brought::words)
    });
    move || {
        words
            .get()
            .map(|words| view! { <p class="hint" data-brought="">{words}</p> })
    }
}
