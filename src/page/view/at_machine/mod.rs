//! The place where the line is braided: one step at a time, large, with the screen kept awake. Every tick is stored at once in the
//! record of the line. No letter is smaller than 24 px, on a phone than 20.

mod begin_finish;
mod check_by_photo;
mod checks;
mod clock_panel;
mod clock_settings;
mod count_words;
mod counter;
mod current_step;
mod focus;
mod footer;
mod here;
mod left_over;
mod machine_map;
mod mishap;
mod next_steps;
mod positions;
mod progress;
mod proposal;
mod rollers;
mod session;
mod setup;
mod speak;
mod step_words;
mod taps;
mod wake_lock;

use leptos::prelude::*;

use super::bench::bench;
use super::entries::{Entries, EntryGroup};
use super::places::places;
use crate::plan::run::Now;
use session::{Session, session};

pub(crate) use session::LineTicks;

/// The place. It is not left before what is typed in it is taken.
#[component]
pub(crate) fn AtMachine() -> impl IntoView {
    let entries = Entries::new();
    places().wait_for(entries);
    let ticks = expect_context::<LineTicks>();
    view! {
        <EntryGroup entries>
            <SessionPage ticks />
        </EntryGroup>
    }
}

#[component]
fn SessionPage(ticks: LineTicks) -> impl IntoView {
    let session = Session::open(bench(), ticks);
    provide_context(session);
    session.ask_first();
    let has_begun = Memo::new(move |_| session.run.with(Option::is_some));
    view! {
        <article class="stand">
            <div class="steps">
                <wake_lock::ScreenWakeLock />
                <Show when=move || has_begun.get() fallback=move || view! { <begin_finish::Begin /> }>
                    <Step />
                </Show>
            </div>
            <footer::Footer />
        </article>
    }
}

/// What to do now.
#[component]
fn Step() -> impl IntoView {
    let session = session();
    let is_done = Memo::new(move |_| session.with_now(|now| now.event().is_none()) == Some(true));
    let counted = move || session.with_now(counted);
    let index = move || session.with_now(|now| now.index.to_string());
    view! {
        <div class="beside">
            <div class="step" tabindex="-1">
                <div class="step-head">
                    <h1 class="counted" data-step-index=index>{counted}</h1>
                    <speak::SpeakStep />
                </div>
                <speak::Unspoken />
                <begin_finish::ByWhichPlan />
                <Show when=move || !is_done.get() fallback=move || view! { <begin_finish::AllDone /> }>
                    <current_step::CurrentStep />
                </Show>
            </div>
            <Show when=move || !is_done.get()>
                <machine_map::MachineMap />
            </Show>
        </div>
        <progress::Progress />
        <Show when=move || !is_done.get()>
            <checks::Checks />
            <next_steps::NextSteps />
            <mishap::Mishaps />
            <clock_settings::ClockSettings />
            <rollers::Rollers />
        </Show>
        <mishap::Log />
        <checks::CheckLog />
        <Show when=move || !is_done.get()>
            <begin_finish::GiveUp />
        </Show>
    }
}

fn counted(now: &Now) -> String {
    if now.event().is_none() {
        format!("All {} steps done", now.count)
    } else {
        format!("Step {} of {}", now.index + 1, now.count)
    }
}
