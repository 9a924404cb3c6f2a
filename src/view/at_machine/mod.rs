//! At the machine: one step at a time, large, with the screen kept awake. Every tick is kept at once in the line's record.

mod ahead;
mod mishap;
mod progress;
mod rollers;
mod screen;
mod to_do;
mod work;

use leptos::prelude::*;

use super::bench::bench;
use super::overlay::{Overlay, Sheet};
use crate::units::Length;
use crate::units::show;
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
    let bench = bench();
    let work = Work::open(bench);
    provide_context(work);
    let has_begun = Memo::new(move |_| work.run.with(Option::is_some));
    view! {
        <article class="stand">
            <screen::KeptAwake />
            <Show when=move || has_begun.get() fallback=move || view! { <Begin /> }>
                <Step />
            </Show>
            {move || bench.message.get().map(|message| view! { <p class="said" role="alert">{message.text}</p> })}
        </article>
    }
}

#[component]
fn Begin() -> impl IntoView {
    let work = work();
    let title = move || work.bench.settled.with(|design| design.title().to_owned());
    view! {
        <h1>{move || format!("Braid {}", title())}</h1>
        <p>
            "One step at a time. The line is braided by the plan as it is now, whatever you change in the drawing later; every
            step you tick is kept at once, in the bench book."
        </p>
        <button class="main huge" data-action="run-begin" on:click=move |_| work.begin()>"Begin this line"</button>
    }
}

/// What to do now.
#[component]
fn Step() -> impl IntoView {
    let work = work();
    let now = work.now;
    let is_done =
        Memo::new(move |_| now.with(|now| now.as_ref().is_some_and(|now| now.event.is_none())));
    let counted = move || {
        now.with(|now| {
            now.as_ref()
                .map(|now| format!("step {} of {}", (now.index + 1).min(now.count), now.count))
        })
    };
    view! {
        <p class="counted" data-step-index=move || now.with(|now| now.as_ref().map(|now| now.index.to_string()))>{counted}</p>
        <Show when=move || !is_done.get() fallback=move || view! { <AllDone /> }>
            <to_do::ToDo />
        </Show>
        <progress::Progress />
        <Show when=move || !is_done.get()>
            <ahead::Ahead />
            <ahead::MapThere />
            <mishap::Mishaps />
            <rollers::Rollers />
        </Show>
    }
}

#[component]
fn AllDone() -> impl IntoView {
    let work = work();
    let made = move || {
        work.course.with(|course| {
        let course = course.as_ref()?;
        Some(format!(
            "Braided: {} of line, {} bare. Weigh it, and write that into the bench book; then the dressing begins.",
            work.bench.units.get().show_position(course.line.length()),
            show::grams(course.line.bare_mass(Length::ZERO, course.line.length()))
        ))
    })
    };
    view! {
        <p class="deed" role="status">"All steps are done."</p>
        <p class="more">{made}</p>
        <div class="big-buttons">
            <button class="huge" data-action="run-back" on:click=move |_| work.change(|run, _| run.back())>"Back one step"</button>
            <button class="huge" data-action="run-again" on:click=move |_| { work.made.let_go(); work.begin(); }>
                "Begin another of this plan"
            </button>
        </div>
    }
}
