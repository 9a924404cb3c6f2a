//! Counting circuits by taps.

use leptos::prelude::*;

use super::session::session;
use crate::plan::run::Run;

/// From this many circuits, tens can be counted too. Our own choice.
const MANY: f64 = 50.0;

/// The count, against the circuits wanted.
#[component]
pub(super) fn Counter(wanted: Signal<f64>) -> impl IntoView {
    let session = session();
    let counted = Memo::new(move |_| {
        session
            .run
            .with(|run| run.as_ref().map_or(0, |run| run.circuits))
    });
    let are_many = Memo::new(move |_| wanted.get() >= MANY);
    let over = move || f64::from(counted.get()) - wanted.get();
    let words = move || format!("{} of {:.1} circuits", counted.get(), wanted.get());
    let state = move || match over() {
        over if over > 0.0 => format!("past the goal by {over:.1}"),
        _ => "tap for each".to_owned(),
    };
    let count = move |circuits: i32| session.change(|run: Run, _| run.count(circuits));
    view! {
        <div class="counter">
            <button class="huge" data-action="circuit" data-past=move || (over() > 0.0).to_string() on:click=move |_| count(1)>
                {words}
                <small>{state}</small>
            </button>
            <Show when=move || are_many.get()>
                <button class="huge" data-action="circuits-ten" on:click=move |_| count(10)>"+10"</button>
            </Show>
            <button class="huge" data-action="circuit-less" on:click=move |_| count(-1)>
                "−1"
            </button>
        </div>
    }
}
