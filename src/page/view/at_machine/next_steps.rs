//! What comes after the step.

use leptos::prelude::*;

use super::session::session;
use super::step_words::step_words;
use crate::plan::Event;

/// The next two steps.
#[component]
pub(super) fn NextSteps() -> impl IntoView {
    let session = session();
    let ahead = Memo::new(move |_| {
        session
            .with_now(|now| now.ahead.clone())
            .unwrap_or_default()
    });
    let rows = move || {
        let positions = session.positions();
        let row = |step: Vec<Event>| {
            let at = positions.show(step.first()?.at);
            let words = format!("at {at}: {}", step_words(&step));
            Some(view! { <li>{words}</li> })
        };
        ahead.get().into_iter().filter_map(row).collect_view()
    };
    view! {
        <Show when=move || ahead.with(|ahead| !ahead.is_empty())>
            <h2>"Then"</h2>
            <ol class="ahead">{rows}</ol>
        </Show>
    }
}
