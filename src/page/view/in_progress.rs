//! A line that is being braided says so first, with one button to go on.

use leptos::prelude::*;

use super::current_line::current_line;
use super::places::places;
use super::planned::planned;
use super::run_clock::{Way, left_words, run_clocks};
use crate::page::places::Place;
use crate::plan::run::Now;

/// The strip above all else, while the line on the bench is begun at the machine and not finished.
#[component]
pub(crate) fn LineInProgress() -> impl IntoView {
    let (places, record) = (places(), current_line().record);
    let run = Memo::new(move |_| record.with(|record| record.as_ref()?.1.run.clone()));
    let is_begun = Memo::new(move |_| run.with(Option::is_some));
    let planned = planned(move || {
        is_begun.get().then_some(())?;
        record.with(|record| Some(record.as_ref()?.1.design.clone()))
    });
    let clocks = run_clocks();
    let standing = Memo::new(move |_| {
        let run = run.get()?;
        let index = record.with(|record| record.as_ref().map(|it| it.0))?;
        planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            let now = Now::of(&run, &run.adjusted(design, plan), plan);
            let steps = (now.index < now.count).then_some((now.index + 1, now.count));
            Some((steps, Way::of(index, &run, &now, plan)))
        })
    });
    let steps = Memo::new(move |_| standing.with(|standing| standing.as_ref()?.0));
    // The clock counts in every place, also where the Braid place was not opened yet.
    Effect::new(move |_| {
        if let Some((_, way)) = standing.get() {
            clocks.way.set(Some(way));
        }
    });
    let left = move || {
        let countdown = clocks.countdown.get().filter(|it| it.is_running)?;
        Some(format!(" {}.", left_words(&countdown)))
    };
    let is_unfinished =
        Memo::new(move |_| places.now() != Place::Braid && steps.with(Option::is_some));
    let words = move || {
        let words = |(step, all)| format!("Continue, step {step} of {all}");
        steps.get().map(words)
    };
    view! {
        <Show when=move || is_unfinished.get()>
            <section aria-label="Line at the machine">
                <p class="message">
                    <span>"This line is being braided."{left}</span>
                    <button data-action="continue" on:click=move |_| places.go(Place::Braid)>
                        {words}
                    </button>
                </p>
            </section>
        </Show>
    }
}
