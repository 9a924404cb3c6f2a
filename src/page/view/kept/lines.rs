//! The lines: searched, in an order, some at a time.

use leptos::prelude::*;

use super::line_row::LineRow;
use super::shelf_view::shelf_view;
use crate::base::choice::Choice;
use crate::design::Design;
use crate::keep::shelf::{EntryStatus, Order, ShelfEntry, sought};

/// How many lines are drawn at once: each is read and planned for its picture.
const AT_ONCE: usize = 24;

/// The list.
#[component]
pub(super) fn Lines() -> impl IntoView {
    let shelf_view = shelf_view();
    let (words, order) = (
        RwSignal::new(String::new()),
        RwSignal::new(Order::default()),
    );
    let most = RwSignal::new(AT_ONCE);
    let here = Memo::new(move |_| on_the_shelf(&shelf_view.lines.read()));
    let found =
        Memo::new(move |_| here.with(|lines| sought::<Design>(lines, &words.read(), order.get())));
    let seen = move || {
        let found = found.get();
        found.into_iter().take(most.get())
    };
    let left = move || found.with(Vec::len).saturating_sub(most.get());
    let more = move |_| most.update(|most| *most += AT_ONCE);
    view! {
        <section class="kept-lines" aria-label="Lines">
            <Show when=move || here.with(|lines| lines.len() > 1)>
                <Seeking words order />
            </Show>
            <p class="hint" role="status" data-found=move || found.with(Vec::len).to_string()>
                {move || count_words(found.with(Vec::len), here.with(Vec::len))}
            </p>
            <ul class="kept-list">
                <For each=seen key=key_of let:entry>
                    <LineRow entry />
                </For>
            </ul>
            <Show when=move || { left() > 0 }>
                <button data-action="more-lines" on:click=more>{move || format!("Show {} more", left().min(AT_ONCE))}</button>
            </Show>
        </section>
    }
}

/// Those outside the bin that can be read; the others have lists of their own.
pub(super) fn on_the_shelf(entries: &[ShelfEntry]) -> Vec<ShelfEntry> {
    let is_there =
        |entry: &&ShelfEntry| !entry.is_binned && entry.status != EntryStatus::Unreadable;
    entries.iter().filter(is_there).cloned().collect()
}

/// A row is made again when another state of its line is stored.
pub(super) fn key_of(entry: &ShelfEntry) -> String {
    format!("{}/{:?}", entry.number, entry.seen.map(|seen| seen.mark()))
}

fn count_words(found: usize, all: usize) -> String {
    match (found, all) {
        (_, 0) => {
            "No line is saved yet. The open line is saved at your first change to it.".to_owned()
        }
        (0, _) => "No line name contains these words.".to_owned(),
        (1, 1) => "1 line".to_owned(),
        (found, all) if found == all => format!("{all} lines"),
        (found, all) => format!("{found} of {all} lines"),
    }
}

/// Words to look for, and the order.
#[component]
fn Seeking(words: RwSignal<String>, order: RwSignal<Order>) -> impl IntoView {
    let option = move |choice: &'static Order| {
        view! { <option value=choice.key() prop:selected=move || order.get() == *choice>{choice.name()}</option> }
    };
    let choose = move |key: String| order.set(Order::from_key(&key).unwrap_or_default());
    view! {
        <div class="seeking" role="search">
            <label class="field">
                <span class="label">"Search for a name"</span>
                <input
                    type="text"
                    inputmode="search"
                    enterkeyhint="search"
                    autocomplete="off"
                    spellcheck="false"
                    data-action="seek"
                    prop:value=words
                    on:input:target=move |event| words.set(event.target().value())
                    on:keydown=move |event| if event.key() == "Escape" { words.set(String::new()) }
                />
            </label>
            <label class="field">
                <span class="label">"Order"</span>
                <select data-action="order" on:change:target=move |event| choose(event.target().value())>
                    {Order::ALL.iter().map(option).collect_view()}
                </select>
            </label>
        </div>
    }
}
