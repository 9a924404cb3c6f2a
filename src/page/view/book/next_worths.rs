//! What measurements are worth for the line on the bench: for the place Weigh, and beside the class.

use leptos::prelude::*;

use super::open_book::OpenBook;
use crate::keep::book::next::{ENOUGH, Worths};
use crate::page::view::bench::Bench;

/// What they are worth, for the settled line; `None` where it has no class.
pub(super) fn worths(bench: Bench, open_book: OpenBook) -> Option<Worths> {
    let estimate = open_book.estimate.read();
    let (design, plan) = (bench.settled.read(), bench.settled_plan.read());
    open_book
        .workshop
        .with(|workshop| Worths::of(workshop, &estimate, (&design, &plan)))
}

/// The measurement that is worth most, in words: `Braid a swatch and measure all of it: 36 min, chance of class 5 from 34 % to 77 %.`
/// `None` where the class is sure enough, or nothing makes it surer.
pub(crate) fn next_words(bench: Bench, open_book: OpenBook) -> Option<String> {
    let Worths { now, worths } = worths(bench, open_book)?;
    let worth = worths.first().filter(|_| now.chance < ENOUGH)?;
    let what = open_book.workshop.with(|book| worth.measure.words(book));
    Some(format!("{what}: {}.", worth.facts(&now)))
}
