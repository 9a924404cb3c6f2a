//! The workshops, each with its bench book.

use leptos::prelude::*;

use super::copy_or_delete::copy_or_delete;
use super::lines::{key_of, on_the_shelf};
use super::shelf_view::shelf_view;
use super::stored_work::StoredWork;
use crate::keep::book::Workshop;
use crate::keep::shelf::{Lookup, ShelfEntry};
use crate::page::view::bench::shelf;
use crate::plan::days::Day;

/// The list, once there is one.
#[component]
pub(super) fn Books() -> impl IntoView {
    let shelf_view = shelf_view();
    let here = Memo::new(move |_| on_the_shelf(&shelf_view.books.read()));
    view! {
        <Show when=move || here.with(|books| !books.is_empty())>
            <section class="kept-books" aria-label="Workshops">
                <h2>"My workshops"</h2>
                <p class="hint">"A machine with one lot of yarn, and its bench book."</p>
                <ul class="kept-list">
                    <For each=move || here.get() key=key_of let:entry>
                        <BookRow entry />
                    </For>
                </ul>
            </section>
        </Show>
    }
}

#[component]
fn BookRow(entry: ShelfEntry) -> impl IntoView {
    let shelf_view = shelf_view();
    let number = entry.number;
    let is_open = move || shelf_view.open_book().number.get() == Some(number);
    let written = written(number);
    let facts = move || {
        let facts: Vec<String> = written
            .clone()
            .into_iter()
            .chain(entry.changed.map(Day::words_with_year))
            .chain(is_open().then(|| "open".to_owned()))
            .collect();
        facts.join(" · ")
    };
    view! {
        <li data-number=number.to_string()>
            <button class="open-row" data-action="open-workshop" aria-current=move || is_open().then_some("true") on:click=move |_| Workshop::open(&shelf_view.page(), number)>
                <span class="name">{title_of(&entry)}</span>
                <span class="facts">{facts}</span>
            </button>
            {entry.seen.map(|seen| copy_or_delete::<Workshop>(shelf_view, seen, title_of(&entry), ["copy-workshop", "bin-workshop"]))}
        </li>
    }
}

/// What its book contains.
fn written(number: u32) -> Option<String> {
    let Lookup::Kept(kept) = shelf().ok()?.look::<Workshop>(number) else {
        return None;
    };
    let counted = |count: usize, one: &str, many: &str| match count {
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    };
    let swatches = counted(kept.work.swatches.len(), "swatch", "swatches");
    let lines = counted(kept.work.records.len(), "line made", "lines made");
    Some(format!("{swatches}, {lines}"))
}

fn title_of(book: &ShelfEntry) -> String {
    match book.title::<Workshop>() {
        Some(title) => title.to_owned(),
        None => format!("Workshop {}, of a newer version", book.number),
    }
}
