//! The measured lines, and the ways to a new one.

use leptos::prelude::*;

use super::copy_or_delete::copy_or_delete;
use super::lines::{key_of, on_the_shelf};
use super::shelf_view::shelf_view;
use super::stored_work::StoredWork;
use crate::keep::shelf::{Lookup, ShelfEntry};
use crate::measured::MeasuredLine;
use crate::page::view::bench::shelf;
use crate::page::view::line_picture::{frame, line_picture};
use crate::page::view::measured::{OpenReadings, open_measured};
use crate::paper::chart::outline::outline;
use crate::plan::days::Day;

/// The list, with the buttons to begin one and to open a table.
#[component]
pub(super) fn MeasuredLines() -> impl IntoView {
    let (shelf_view, open) = (shelf_view(), open_measured());
    let here = Memo::new(move |_| on_the_shelf(&shelf_view.measured.read()));
    view! {
        <section class="kept-measured" aria-label="Measured lines">
            <h2>"Copy a line you own"</h2>
            <p class="hint">"Measure a line that casts well with a micrometer. Its taper is found, and braided on your machine."</p>
            <div class="step-buttons">
                <button class="main" data-action="measure-line" on:click=move |_| open.begin()>"Measure a line"</button>
                <OpenReadings />
                <Show when=move || open.is_preview()>
                    <button data-action="show-preview" on:click=move |_| open.show_again()>"Show the line from the link"</button>
                </Show>
            </div>
            <ul class="kept-list">
                <For each=move || here.get() key=key_of let:entry>
                    <MeasuredRow entry />
                </For>
            </ul>
        </section>
    }
}

/// What a row shows of a line.
struct Preview {
    picture: Option<String>,
    readings: usize,
}

fn preview(entry: &ShelfEntry) -> Option<Preview> {
    let Lookup::Kept(kept) = shelf().ok()?.look::<MeasuredLine>(entry.number) else {
        return None;
    };
    let line = kept.work;
    let taper = line.found().map(|found| found.taper());
    Some(Preview {
        picture: taper.map(|taper| outline(&taper, &frame(core::slice::from_ref(&taper)))),
        readings: line.draft().readings.len(),
    })
}

#[component]
fn MeasuredRow(entry: ShelfEntry) -> impl IntoView {
    let shelf_view = shelf_view();
    let number = entry.number;
    let preview = preview(&entry);
    let (picture, readings) = preview.map_or((None, None), |preview| {
        let readings = match preview.readings {
            1 => "1 reading".to_owned(),
            count => format!("{count} readings"),
        };
        (preview.picture, Some(readings))
    });
    let is_open = move || open_measured().is_open(number);
    let facts = move || {
        let facts: Vec<String> = readings
            .clone()
            .into_iter()
            .chain(entry.changed.map(Day::words_with_year))
            .chain(is_open().then(|| "open".to_owned()))
            .collect();
        facts.join(" · ")
    };
    let title = entry.title::<MeasuredLine>().map_or_else(
        || format!("Measured line {number}, of a newer version"),
        str::to_owned,
    );
    let name = title.clone();
    view! {
        <li data-number=number.to_string()>
            <button class="open-row" data-action="open-measured-line" aria-current=move || is_open().then_some("true") on:click=move |_| MeasuredLine::open(&shelf_view.page(), number)>
                {picture.map(line_picture)}
                <span class="name">{name}</span>
                <span class="facts">{facts}</span>
            </button>
            {entry.seen.map(|seen| copy_or_delete::<MeasuredLine>(shelf_view, seen, title.clone(), ["copy-measured", "bin-measured"]))}
        </li>
    }
}
