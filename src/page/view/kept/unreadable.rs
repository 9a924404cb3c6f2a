//! Texts that cannot be read: they stay as they are until the maker deletes them.

use leptos::prelude::*;

use super::confirm::DeleteForGood;
use super::shelf_view::shelf_view;
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::keep::shelf::{UnreadableText, number_in};
use crate::measured::MeasuredLine;
use crate::page::view::saving::save;

/// The list, when there is any.
#[component]
pub(super) fn Unreadable() -> impl IntoView {
    let shelf_view = shelf_view();
    view! {
        <Show when=move || shelf_view.strange.with(|strange| !strange.is_empty())>
            <section class="kept-strange" aria-label="Unreadable texts">
                <h2>"Unreadable texts"</h2>
                <p class="hint">"These texts are not changed, and each backup includes them. A later version of this page may read them."</p>
                <ul class="kept-list">
                    <For each=move || shelf_view.strange.get() key=|strange| strange.key.clone() let:strange>
                        <UnreadableRow strange />
                    </For>
                </ul>
            </section>
        </Show>
    }
}

#[component]
fn UnreadableRow(strange: UnreadableText) -> impl IntoView {
    let shelf_view = shelf_view();
    let (what, why, size) = (what(&strange.key), strange.why.clone(), strange.text.len());
    let kept = StoredValue::new(strange);
    let save_text = move |_| {
        let text = kept.with_value(|strange| strange.text.clone());
        save(shelf_view.bench(), "unreadable.txt", &text, "text/plain");
    };
    let discard = move |()| kept.with_value(|strange| shelf_view.discard(strange));
    view! {
        <li class="strange">
            <p><span class="name">{what}</span>" "<span class="facts">{format!("{why} {size} bytes.")}</span></p>
            <div class="step-buttons">
                <button data-action="save-strange" on:click=save_text>"Save the text as a file"</button>
                <DeleteForGood
                    action="discard"
                    label="Delete"
                    question="For good? This cannot be taken back."
                    delete=discard
                />
            </div>
        </li>
    }
}

/// What the text would be.
fn what(key: &str) -> String {
    let of = |word: &str, number: Option<u32>| number.map(|number| format!("{word} {number}"));
    of("Line", number_in::<Design>(key))
        .or_else(|| of("Workshop", number_in::<Workshop>(key)))
        .or_else(|| of("Measured line", number_in::<MeasuredLine>(key)))
        .unwrap_or_else(|| "A text".to_owned())
}
