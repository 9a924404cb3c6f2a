//! What to measure next, with one button for it.

use leptos::prelude::*;

use super::lines::add_line;
use super::open_book::open_book;
use super::opened::{BookEntry, Opened};
use super::swatches::add_swatch;
use crate::keep::book::Source;
use crate::keep::book::next::{NextMeasure, chance_words, next_measure};
use crate::page::view::bench::bench;

/// The weight of the whole line, bare and finished.
const BARE: &str = "[data-stage='0'] [data-action=line-mass]";
const FINISHED: &str = ".stage:last-of-type [data-action=line-mass]";
const QUESTION: &str = ".question button";

/// The card at the head of the place.
#[component]
pub(super) fn NextCard(opened: Opened) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let next = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        open_book
            .workshop
            .with(|workshop| next_measure(workshop, &estimate))
    });
    let reason = move || {
        open_book
            .workshop
            .with(|workshop| next.get().reason(workshop))
    };
    let chance = move || {
        bench
            .settled_plan
            .with(|plan| plan.prediction.as_ref().and_then(chance_words))
    };
    let press = move |_| match next.get_untracked() {
        NextMeasure::Bare(index) => opened.open(BookEntry::Line(index), BARE),
        NextMeasure::Finished(index) => opened.open(BookEntry::Line(index), FINISHED),
        NextMeasure::Answer(Source::Line(index, ..)) => {
            opened.open(BookEntry::Line(index), QUESTION);
        }
        NextMeasure::Answer(Source::Swatch(index, _)) => {
            opened.open(BookEntry::Swatch(index), QUESTION);
        }
        NextMeasure::Swatch => add_swatch(bench, open_book, opened),
        NextMeasure::Line => add_line(bench, open_book, opened),
    };
    view! {
        <div class="card next-measure">
            <div>
                <h2>{move || next.get().heading()}</h2>
                <p class="hint">{reason}" "{chance}</p>
            </div>
            <button class="main" data-action="next-measure" on:click=press>{move || next.get().button()}</button>
        </div>
    }
}
