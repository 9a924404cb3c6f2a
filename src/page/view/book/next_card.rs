//! What to measure next, with one button for it, and what else can be measured.

use leptos::prelude::*;

use super::begin_measure::begin;
use super::next_rows::NextRows;
use super::next_worths::worths;
use super::open_book::open_book;
use super::opened::Opened;
use crate::keep::book::next::{Worth, chance_words, next_measure};
use crate::page::view::bench::bench;

/// The card at the head of the place.
#[component]
pub(super) fn NextCard(opened: Opened) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    // Once for each finished change of the line or the book: a drag changes neither.
    let worths = Memo::new(move |_| worths(bench, open_book));
    let next = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        open_book.workshop.with(|workshop| {
            worths.with(|worths| next_measure(workshop, &estimate, worths.as_ref()))
        })
    });
    let reason = move || {
        open_book
            .workshop
            .with(|workshop| next.get().reason(workshop))
    };
    let worth = Memo::new(move |_| {
        worths.with(|worths| {
            let worths = worths.as_ref()?;
            let is_next = |worth: &&Worth| worth.measure == next.get();
            worths.worths.iter().find(is_next).copied()
        })
    });
    // What it is worth; where that is not known, the chance as it is.
    let facts = move || {
        let now = worths.with(|worths| worths.as_ref().map(|worths| worths.now));
        let known = now.zip(worth.get());
        known
            .map(|(now, worth)| worth.facts(&now))
            .or_else(|| now.map(|now| now.words()))
            .or_else(|| {
                bench
                    .settled_plan
                    .with(|plan| plan.prediction.as_ref().and_then(chance_words))
            })
    };
    let key = move || worth.get().map(|worth| worth.measure.key());
    let minutes = move || worth.get().map(|worth| worth.minutes.to_string());
    let after = move || worth.get().map(|worth| worth.after.chance.to_string());
    let press = move |_| begin(next.get_untracked(), bench, open_book, opened);
    view! {
        <div class="card next-measure">
            <div class="worth-row" data-next-measure=key data-minutes=minutes data-chance=after>
                <div>
                    <h2>{move || next.get().heading()}</h2>
                    <p class="hint">{reason}</p>
                    <p>{facts}</p>
                </div>
                <button class="main" data-action="next-measure" on:click=press>{move || next.get().button()}</button>
            </div>
            <NextRows worths next opened />
        </div>
    }
}
