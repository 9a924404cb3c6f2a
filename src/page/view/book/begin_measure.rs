//! Beginning a measurement: its entry of the book is opened, or added, at the field to fill in.

use super::lines::add_line;
use super::open_book::OpenBook;
use super::opened::Opened;
use super::swatches::{action, add_swatch};
use crate::keep::book::next::{
    NextMeasure, SwatchPart, begun_swatch, first_of_rest, swatch_for_thread,
};
use crate::keep::book::swatch::SwatchField;
use crate::keep::book::{BookEntry, Source};
use crate::page::view::bench::Bench;
use leptos::prelude::*;

/// The weight of the whole line, bare and finished.
const BARE: &str = "[data-stage='0'] [data-action=line-mass]";
const FINISHED: &str = ".stage:last-of-type [data-action=line-mass]";
const QUESTION: &str = ".question button";

/// Opens the entry of a measurement, or adds one, and goes to its first field.
pub(super) fn begin(measure: NextMeasure, bench: Bench, open_book: OpenBook, opened: Opened) {
    let swatch = |index: Option<usize>, field: SwatchField| {
        let part = format!("[data-action={}]", action(field));
        match index {
            Some(index) => opened.open(BookEntry::Swatch(index), &part),
            None => add_swatch(bench, open_book, opened, &part),
        }
    };
    let begun = || open_book.workshop.with_untracked(begun_swatch);
    match measure {
        NextMeasure::Bare(index) => opened.open(BookEntry::Line(index), BARE),
        NextMeasure::Oiled(index, coat) => {
            let part = format!("[data-stage='{}'] [data-action=line-mass]", coat + 1);
            opened.open(BookEntry::Line(index), &part);
        }
        NextMeasure::Finished(index) => opened.open(BookEntry::Line(index), FINISHED),
        NextMeasure::Answer(Source::Line(index, ..)) => {
            opened.open(BookEntry::Line(index), QUESTION);
        }
        NextMeasure::Answer(Source::Swatch(index, _)) => {
            opened.open(BookEntry::Swatch(index), QUESTION);
        }
        NextMeasure::Rest(index) => {
            let field = open_book.workshop.with_untracked(first_of_rest);
            swatch(Some(index), field.unwrap_or(SwatchField::Mass));
        }
        NextMeasure::Thread => {
            let index = open_book.workshop.with_untracked(swatch_for_thread);
            swatch(index, SwatchField::ThreadLength);
        }
        NextMeasure::Swatch => swatch(begun(), SwatchField::Length),
        NextMeasure::SwatchPart(part) => swatch(begun(), first_field(part)),
        NextMeasure::Line => add_line(bench, open_book, opened),
    }
}

fn first_field(part: SwatchPart) -> SwatchField {
    part.fields()
        .first()
        .copied()
        .unwrap_or(SwatchField::Length)
}
