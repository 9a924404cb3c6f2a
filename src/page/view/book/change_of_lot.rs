//! The last lines depart from the earlier ones: that is said, with a new book one press away.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::keep::book::change_of_lot::ChangeOfLot;
use crate::page::view::bench::bench;

/// The warning, where the lines of the book show a change beyond chance.
#[component]
pub(super) fn ChangeWarning() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let change = Memo::new(move |_| open_book.estimate.with(ChangeOfLot::of));
    let begin = move |_| {
        bench
            .settled
            .with_untracked(|design| open_book.begin(design));
    };
    let warning = move |change: ChangeOfLot| {
        view! {
            <section class="card" aria-label="Change of lot" role="status" data-change-of-lot=change.lines.to_string()>
                <h2>{change.words()}</h2>
                <p>"Has the lot of yarn or the machine changed? Then start a new book. This one is saved."</p>
                <p class="hint">
                    "Each line is compared with the weight this book expects of it. By chance alone, fewer than 5 of 100 books of ten lines show this."
                </p>
                <div class="step-buttons"><button data-action="new-book" on:click=begin>"Start a new book"</button></div>
            </section>
        }
    };
    move || change.get().map(warning)
}
