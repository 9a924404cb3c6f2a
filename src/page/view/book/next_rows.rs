//! What else can be measured now, a row for each: the minutes it takes, what it adds to the chance of the class, and a button for it.

use leptos::prelude::*;

use super::begin_measure::begin;
use super::open_book::open_book;
use super::opened::Opened;
use crate::keep::book::next::{NextMeasure, Worth, Worths};
use crate::page::view::bench::bench;

/// A row.
#[derive(Clone, Debug, PartialEq)]
struct Row {
    measure: NextMeasure,
    what: String,
    facts: String,
    minutes: f64,
    chance: f64,
}

/// The rows.
#[component]
pub(super) fn NextRows(
    worths: Memo<Option<Worths>>,
    /// What stands above them already.
    next: Memo<NextMeasure>,
    opened: Opened,
) -> impl IntoView {
    let open_book = open_book();
    let rows = Memo::new(move |_| {
        worths.with(|worths| {
            let Some(Worths { now, worths }) = worths else {
                return Vec::new();
            };
            let row = |worth: &Worth| Row {
                measure: worth.measure,
                what: open_book.workshop.with(|book| worth.measure.words(book)),
                facts: worth.facts(now),
                minutes: worth.minutes,
                chance: worth.after.chance,
            };
            let others = worths.iter().filter(|worth| worth.measure != next.get());
            others.map(row).collect::<Vec<Row>>()
        })
    });
    let listed = move || {
        let row = |row| view! { <NextRow row opened /> };
        rows.get().into_iter().map(row).collect_view()
    };
    view! {
        <Show when=move || rows.with(|rows| !rows.is_empty())>
            <details class="finer">
                <summary data-action="more-measures">"What else you can measure"</summary>
                <ul>{listed}</ul>
                <p class="ground">
                    "The chance is that of a line planned for the middle of its class. What comes first adds most to it for each minute, up to 90 %. Minutes are our own choice, for tools at hand. A line counts with the time it takes to make. How much is added is calculated from the errors of the instruments, before anything is measured."
                </p>
            </details>
        </Show>
    }
}

#[component]
fn NextRow(row: Row, opened: Opened) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let Row {
        measure,
        what,
        facts,
        minutes,
        chance,
    } = row;
    view! {
        <li class="worth-row" data-next-measure=measure.key() data-minutes=minutes.to_string() data-chance=chance.to_string()>
            <p>{what}<span class="facts">{facts}</span></p>
            <button data-action="begin-measure" on:click=move |_| begin(measure, bench, open_book, opened)>
                {measure.button()}
            </button>
        </li>
    }
}
