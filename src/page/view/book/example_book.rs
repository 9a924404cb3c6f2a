//! What a book brings, shown by an invented one while the maker's own is empty. It is read only, and never stored.

use leptos::prelude::*;

use super::open_book::open_book;
use super::weighed_chart::weighed;
use crate::design::demo::demo;
use crate::keep::book::example::Example;
use crate::keep::book::next::Brought;

/// The offer to see it, and the example itself once that is accepted; nothing where the own book has an entry.
#[component]
pub(super) fn ExampleBook() -> impl IntoView {
    let open_book = open_book();
    let is_open = RwSignal::new(false);
    let is_empty = Memo::new(move |_| {
        open_book
            .workshop
            .with(|book| book.swatches.is_empty() && book.records.is_empty())
    });
    let press = move |_| is_open.update(|is_open| *is_open = !*is_open);
    let label = move || {
        if is_open.get() {
            "Close the example book"
        } else {
            "See an example book"
        }
    };
    view! {
        <Show when=move || is_empty.get()>
            <section class="card" aria-label="Example book">
                <h2>"What a book brings"</h2>
                <p class="hint">"An invented book with two swatches and three weighed lines shows it."</p>
                <div class="step-buttons">
                    <button data-action="example-book" aria-expanded=move || is_open.get().to_string() on:click=press>{label}</button>
                </div>
            </section>
            <Show when=move || is_open.get()>{shown()}</Show>
        </Show>
    }
}

/// The example, calculated now: nothing on the page changes it.
fn shown() -> impl IntoView {
    let demo = demo();
    let example = Example::of(&demo)?;
    let chart = weighed(&example.book, &example.lines, "The invented");
    let title = demo.title().to_owned();
    Some(view! {
        <div class="pair" data-example-book="">
            <section class="card" aria-label="Example: planned and weighed">
                <h2>"Invented example: planned and weighed"</h2>
                <p>"The workshop, its measurements and its lines are invented. Nothing here is saved or used for your lines."</p>
                {chart}
            </section>
            <section class="lesson card" aria-label="Example: what the book brings">
                <h2>"Invented example: what the book brings"</h2>
                <p>"The head of the line “"{title}"” without a book: "<b data-example-head="without">{example.without.words()}</b></p>
                <p>"Planned with the invented book: "<b data-example-head="with">{example.with.words()}</b></p>
                <p>"How each measurement narrows the weight of the head, in their order:"</p>
                <ul>{brought(&example)}</ul>
                <p class="hint">"In this list, each chance is that of a line planned for the middle of its class."</p>
            </section>
        </div>
    })
}

/// What each entry brought, under its name.
fn brought(example: &Example) -> impl IntoView + use<> {
    let row = |(name, brought): &(String, Brought)| {
        view! { <li data-brought="">{name.clone()}", "{brought.facts()}</li> }
    };
    example.brought.iter().map(row).collect_view()
}
