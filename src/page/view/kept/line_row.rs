//! A line in the list: its picture, what it makes, and what can be done with it.

use leptos::prelude::*;

use super::shelf_view::{ShelfView, shelf_view};
use super::stored_work::StoredWork;
use crate::base::units::Length;
use crate::design::Design;
use crate::keep::shelf::{EntryStatus, Lookup, ShelfEntry};
use crate::page::view::bench::{Ghost, look, shelf};
use crate::page::view::field::TextField;
use crate::page::view::line_picture::{frame, line_picture};
use crate::page::view::saving::save_line;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::chart::outline::outline;
use crate::paper::figures::verdict_words;
use crate::plan::days::Day;

/// What a row shows of a line.
#[derive(Clone)]
struct LinePreview {
    picture: String,
    length: Length,
    class: String,
}

impl LinePreview {
    fn of(entry: &ShelfEntry, shelf_view: ShelfView) -> Option<Self> {
        let design: Design = shelf().ok()?.glance(entry.seen.as_ref()?)?;
        let taper = design.taper();
        // Each fills its own picture: the list is for recognising a line, and its length is shown below.
        let picture = outline(&taper, &frame(core::slice::from_ref(&taper)));
        let plan = shelf_view.bench().plan_of(&design);
        Some(Self {
            picture,
            length: plan.length,
            class: verdict_words(&plan.verdict),
        })
    }
}

/// A row of the list.
#[component]
pub(super) fn LineRow(entry: ShelfEntry) -> impl IntoView {
    let shelf_view = shelf_view();
    let number = entry.number;
    let title = title_of(&entry);
    let glance = LinePreview::of(&entry, shelf_view);
    let picture = glance
        .as_ref()
        .map(|glance| line_picture(glance.picture.clone()));
    let is_open = move || shelf_view.bench().number() == Some(number);
    let changed = entry.changed.map(Day::words_with_year);
    let status = entry.status;
    let facts = move || {
        let units = shelf_view.bench().units.get();
        let of_glance = glance
            .iter()
            .flat_map(|glance| [glance.class.clone(), units.show_yarn(glance.length, 1)]);
        let facts: Vec<String> = of_glance
            .chain(changed.clone())
            .chain((status == EntryStatus::Newer).then(|| "read only".to_owned()))
            .chain(is_open().then(|| "open now".to_owned()))
            .collect();
        facts.join(" · ")
    };
    view! {
        <li data-number=number.to_string()>
            <button class="open-row" data-action="open-kept" aria-current=move || is_open().then_some("true") on:click=move |_| Design::open(&shelf_view.page(), number)>
                {picture}
                <span class="name">{title}</span>
                <span class="facts">{facts}</span>
            </button>
            {entry.seen.map(|_| view! { <More entry /> })}
        </li>
    }
}

/// What a row is called.
fn title_of(line: &ShelfEntry) -> String {
    match line.title::<Design>() {
        Some(title) => title.to_owned(),
        None => format!("Line {}, of a newer version", line.number),
    }
}

/// What can be done with a line other than opening it.
#[component]
fn More(entry: ShelfEntry) -> impl IntoView {
    let shelf_view = shelf_view();
    let number = entry.number;
    let shown = Signal::stored(entry.name.clone().unwrap_or_default());
    let rename = move |name: String| shelf_view.rename(number, name);
    let copy = move |_| shelf_view.copy::<Design>(number);
    let title = title_of(&entry);
    let bin = move |_| {
        if let Some(seen) = entry.seen {
            shelf_view.bin::<Design>(seen, &title);
        }
    };
    let is_open = RwSignal::new(false);
    let is_on_bench = move || shelf_view.bench().number() == Some(number);
    let parts = move || {
        let bin = bin.clone();
        // The line open now has its name at the head of the sheet, and nothing to be compared with but itself.
        let name = (!is_on_bench()).then(
            || view! { <TextField label="Name" action="rename" value=shown commit=rename /> },
        );
        let compared = (!is_on_bench()).then(|| {
            view! {
                <button data-action="lay-behind" on:click=move |_| compare(shelf_view, number)>"Compare with the open line"</button>
            }
        });
        view! {
            <div class="more">
                {name}
                <div class="step-buttons">
                    <button data-action="copy-kept" on:click=copy>"Make a copy"</button>
                    <button data-action="save-kept" on:click=move |_| save_file(shelf_view, number)>"Save as a file"</button>
                    {compared}
                    <button data-action="bin-kept" on:click=bin>"Delete"</button>
                </div>
            </div>
        }
    };
    // Made when it is opened: most rows are only looked at.
    view! {
        <details class="finer" on:toggle:target=move |event| is_open.set(event.target().open())>
            <summary>"Rename, copy or delete"</summary>
            {move || is_open.get().then(parts.clone())}
        </details>
    }
}

fn save_file(shelf_view: ShelfView, number: u32) {
    match look(number) {
        Lookup::Kept(kept) => {
            save_line(shelf_view.bench(), &kept.work);
        }
        _ => shelf_view.tell("It can no longer be read."),
    }
}

/// Compares the line with the one on the bench, and scrolls to how they differ.
fn compare(shelf_view: ShelfView, number: u32) {
    match look(number) {
        Lookup::Kept(kept) => {
            shelf_view
                .bench()
                .ghost
                .set(Some(Ghost::of(kept.work, Some(number))));
            shelf_view.bench().sheet.set(Some(SheetKind::Compare));
        }
        _ => shelf_view.tell("It can no longer be read."),
    }
}
