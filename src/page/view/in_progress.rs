//! A line that is being braided says so first, with one button to go on.

use leptos::prelude::*;

use super::current_line::current_line;
use super::places::places;
use super::planned::planned;
use crate::page::places::Place;

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
    let steps = Memo::new(move |_| {
        let run = run.get()?;
        planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            let (done, all) = run.steps_of(&run.adjusted(design, plan));
            (done < all).then_some((done + 1, all))
        })
    });
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
                    <span>"This line is being braided."</span>
                    <button data-action="continue" on:click=move |_| places.go(Place::Braid)>
                        {words}
                    </button>
                </p>
            </section>
        </Show>
    }
}
