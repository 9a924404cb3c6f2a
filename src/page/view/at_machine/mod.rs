//! At the machine: one step at a time, large, with the screen kept awake. Every tick is kept at once in the line's record.

mod ahead;
mod counter;
mod deeds;
mod ends;
mod foot;
mod map;
mod mishap;
mod outcome;
mod places;
mod progress;
mod rollers;
mod screen;
mod sight;
mod to_do;
mod work;

use leptos::prelude::*;

use super::bench::bench;
use super::overlay::{Overlay, Sheet};
use crate::plan::run::Now;
use work::{Work, work};

/// The sheet; what is on it is only made while it is open.
#[component]
pub(crate) fn AtMachine() -> impl IntoView {
    let bench = bench();
    let is_open = move || bench.sheet.get() == Some(Sheet::Machine);
    view! {
        <Overlay sheet=Sheet::Machine label="At the machine" has_print=false>
            <Show when=is_open>
                <Stand />
            </Show>
        </Overlay>
    }
}

#[component]
fn Stand() -> impl IntoView {
    let work = Work::open(bench());
    provide_context(work);
    let has_begun = Memo::new(move |_| work.run.with(Option::is_some));
    view! {
        <article class="stand">
            <div class="steps">
                <screen::KeptAwake />
                <Show when=move || has_begun.get() fallback=move || view! { <ends::Begin /> }>
                    <Step />
                </Show>
            </div>
            <foot::Foot />
        </article>
    }
}

/// What to do now.
#[component]
fn Step() -> impl IntoView {
    let work = work();
    let now = work.now;
    let is_done =
        Memo::new(move |_| now.with(|now| now.as_ref().is_some_and(|now| now.event.is_none())));
    let counted = move || now.with(|now| now.as_ref().map(counted));
    let index = move || now.with(|now| now.as_ref().map(|now| now.index.to_string()));
    view! {
        <div class="beside">
            <div class="step" tabindex="-1">
                <h1 class="counted" data-step-index=index>{counted}</h1>
                <ends::ByWhichPlan />
                <Show when=move || !is_done.get() fallback=move || view! { <ends::AllDone /> }>
                    <to_do::ToDo />
                </Show>
            </div>
            <Show when=move || !is_done.get()>
                <map::MapThere />
            </Show>
        </div>
        <progress::Progress />
        <Show when=move || !is_done.get()>
            <ahead::Ahead />
            <mishap::Mishaps />
            <rollers::Rollers />
            <ends::GiveUp />
        </Show>
        <mishap::Log />
    }
}

fn counted(now: &Now) -> String {
    if now.event.is_none() {
        format!("all {} steps done", now.count)
    } else {
        format!("step {} of {}", now.index + 1, now.count)
    }
}
