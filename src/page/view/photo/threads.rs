//! How many threads the braid has: the angle depends on it. They are counted in the picture where the maker does not say.

use leptos::prelude::*;

use super::state::PhotoState;
use crate::page::view::field::TextField;
use crate::paper::words::photo as words;
use crate::photo::PhotoReading;

/// The field.
#[component]
pub(super) fn Threads(state: PhotoState) -> impl IntoView {
    let value = move || {
        state
            .threads
            .get()
            .map_or_else(String::new, |count| count.to_string())
    };
    let take = move |text: String| {
        let threads = words::read_threads(&text)?;
        state.set_threads(threads);
        Ok(())
    };
    let ground = move || {
        let read = state.with_reading(|reading| (reading.threads, reading.counted));
        words::threads(state.threads.get(), read.filter(|_| state.is_current()))
    };
    let is_doubted = move || {
        let doubted = |it: &PhotoReading| it.counted.is_some_and(|counted| counted != it.threads);
        state.with_reading(doubted).unwrap_or_default()
    };
    view! {
        <section class="card" aria-label="Threads in the braid">
            <TextField
                label="threads in the braid"
                action="photo-threads"
                numeric=true
                value=Signal::derive(value)
                commit=take
            />
            <p class="hint" class:said=is_doubted data-photo-threads=move || state.with_reading(|reading| reading.threads)>{ground}</p>
        </section>
    }
}
