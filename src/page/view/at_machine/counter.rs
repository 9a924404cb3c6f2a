//! Counting circuits: by taps, or from the reading of the machine's own counter.

use leptos::prelude::*;

use super::session::session;
use crate::base::units::text::Unit;
use crate::page::view::field::NumberField;
use crate::plan::run::Run;

/// From this many circuits, tens can be counted too. Our own choice.
const MANY: f64 = 50.0;
/// Most circuits that can be typed. Our own choice: more than any stretch takes.
const MOST: f64 = 999_999.0;

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
    let words = move || match over() {
        over if over > 0.5 => format!("of {:.0} circuits: {over:.0} too many", wanted.get()),
        _ => format!("of {:.0} circuits", wanted.get()),
    };
    let count = move |circuits: i32| session.change(|run: Run, _| run.count(circuits));
    // A machine with a counter of its own runs faster than anybody taps: its reading is typed.
    let type_in = move |reading: f64| {
        if !(0.0..=MOST).contains(&reading) {
            return Err(format!("Type a number of circuits from 0 to {MOST:.0}."));
        }
        // Within the range of both.
        #[allow(clippy::cast_possible_truncation)]
        count(reading.round() as i32 - counted.get_untracked().cast_signed());
        Ok(())
    };
    view! {
        <div class="counter" data-past=move || (over() > 0.0).to_string()>
            <NumberField
                label="Circuits counted"
                action="circuits-read"
                value=Signal::derive(move || f64::from(counted.get()))
                unit=Signal::stored(Unit::One)
                decimals=0
                commit=type_in
            />
            <p class="of-circuits">{words}</p>
            <div class="count-buttons">
                <button class="huge" data-action="circuit-less" on:click=move |_| count(-1)>
                    "−1"<span class="spoken">" circuit"</span>
                </button>
                <button class="huge" data-action="circuit" on:click=move |_| count(1)>
                    "+1"<span class="spoken">" circuit"</span>
                </button>
                <Show when=move || are_many.get()>
                    <button class="huge" data-action="circuits-ten" on:click=move |_| count(10)>"+10"<span class="spoken">" circuits"</span></button>
                </Show>
            </div>
        </div>
    }
}
