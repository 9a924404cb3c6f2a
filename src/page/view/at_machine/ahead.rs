//! What comes after the step.

use leptos::prelude::*;

use super::deeds::deed_words;
use super::work::work;
use crate::plan::Event;

/// The next two steps.
#[component]
pub(super) fn Ahead() -> impl IntoView {
    let work = work();
    let ahead = Memo::new(move |_| {
        work.now.with(|now| {
            now.as_ref()
                .map(|now| now.ahead.clone())
                .unwrap_or_default()
        })
    });
    let rows = move || {
        let places = work.places();
        let row = |event: Event| {
            let words = format!("at {}: {}", places.told(event.at), deed_words(&event));
            view! { <li>{words}</li> }
        };
        ahead.get().into_iter().map(row).collect_view()
    };
    view! {
        <Show when=move || ahead.with(|ahead| !ahead.is_empty())>
            <h2>"Then"</h2>
            <ol class="ahead">{rows}</ol>
        </Show>
    }
}
