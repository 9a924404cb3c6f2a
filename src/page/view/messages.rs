//! Messages: about storage and links at the top, about the plan beside its figures.

use leptos::prelude::*;

use super::bench::{StorageState, bench};
use super::saving::save;
use crate::paper::words;
use crate::plan::Notice;

/// The strip at the top: the choices for a preview, and the last message until it is closed.
#[component]
pub(crate) fn Messages() -> impl IntoView {
    let bench = bench();
    let is_preview = move || bench.storage_state.get() == StorageState::Preview;
    view! {
        <div role="status">
            <Show when=is_preview>
                <p class="message">
                    <span>"This line was opened from a link. Your own lines are not changed. A change here starts a new line."</span>
                    <button data-action="keep-copy" on:click=move |_| bench.keep()>"Save a copy"</button>
                    <button data-action="leave-preview" on:click=move |_| bench.turn_to_own()>"Back to my line"</button>
                </p>
            </Show>
            {move || bench.message.get().map(|message| view! {
                <p class="message">
                    <span>{message.text}</span>
                    {message.unreadable.map(save_unreadable)}
                    {message.is_unkept.then(|| view! {
                        <button class="main" data-action="save-unkept" on:click=move |_| bench.export()>"Back up your lines"</button>
                    })}
                    <button on:click=move |_| bench.message.set(None)>"Close"</button>
                </p>
            })}
        </div>
    }
}

fn save_unreadable(text: String) -> impl IntoView {
    let bench = bench();
    let save_text = move |_| {
        save(bench, "unreadable line.txt", &text, "text/plain");
    };
    view! { <button on:click=save_text>"Save the text as a file"</button> }
}

/// What the maker should know before braiding by this plan.
#[component]
pub(crate) fn Notices() -> impl IntoView {
    let bench = bench();
    let notices = Memo::new(move |_| bench.plan.with(|plan| plan.notices.clone()));
    let listed = move || {
        let units = bench.units.get();
        let item = |notice: &Notice| view! { <li>{words::notice(notice, units)}</li> };
        notices.with(|notices| notices.iter().map(item).collect_view())
    };
    view! {
        <Show when=move || notices.with(|notices| !notices.is_empty())>
            <section class="notices" aria-label="Before you braid">
                <h3>"Before you braid"</h3>
                <ul>{listed}</ul>
            </section>
        </Show>
    }
}
