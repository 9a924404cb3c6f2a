//! The beginning and the end of a line at the machine: begun, done, or given up.

use leptos::prelude::*;

use super::focus::{STEP, focus_part};
use super::session::session;
use crate::base::units::Length;
use crate::base::units::show;
use crate::page::places::Place;
use crate::page::view::places::places;

/// The line is not begun yet.
#[component]
pub(super) fn Begin() -> impl IntoView {
    let session = session();
    let title = move || {
        session
            .bench
            .settled
            .with(|design| design.title().to_owned())
    };
    let begin = move |_| {
        session.begin();
        focus_part(STEP);
    };
    let anew = move |_| {
        session.begin_by_new_plan();
        focus_part(STEP);
    };
    view! {
        <div class="step" tabindex="-1">
            <h1>{move || format!("Braid {}", title())}</h1>
            <p>
                "One step at a time. The line is braided by one plan from beginning to end, whatever you change in the drawing
                later; every step you tick is kept at once, in the bench book."
            </p>
            <Show
                when=move || session.has_changed.get()
                fallback=move || view! {
                    <p>"It is braided by the plan as it is now."</p>
                    <button class="main huge" data-action="run-begin" on:click=begin>"Begin this line"</button>
                }
            >
                <p class="by-plan">
                    "This line stands in the bench book with the plan as it was written down; your drawing or its settings have
                    changed since."
                </p>
                <div class="big-buttons">
                    <button class="huge" data-action="run-begin" on:click=begin>"Begin by the plan in the book"</button>
                    <button class="huge" data-action="run-begin-anew" on:click=anew>"Begin another by the plan as it is now"</button>
                </div>
            </Show>
        </div>
    }
}

/// Shown while a line is braided by a plan that is no longer that of the drawing.
#[component]
pub(super) fn ByWhichPlan() -> impl IntoView {
    let session = session();
    view! {
        <Show when=move || session.has_changed.get()>
            <p class="by-plan">
                "Braided by the plan as it was when this line was begun. Your drawing or its settings have changed since."
            </p>
        </Show>
    }
}

/// All steps are done.
#[component]
pub(super) fn AllDone() -> impl IntoView {
    let (session, places) = (session(), places());
    let made = move || {
        let units = session.bench.units.get();
        session.adjusted.with(|adjusted| {
            let line = &adjusted.as_ref()?.line;
            Some(format!(
                "Braided: {} of line, {} bare. Weigh it and write that into the bench book; then the dressing begins.",
                units.show_position(line.length()),
                show::grams(line.bare_mass(Length::ZERO, line.length()))
            ))
        })
    };
    view! {
        <p class="operation" role="status">"All steps are done"</p>
        <p class="more">{made}</p>
        <div class="big-buttons">
            <button class="huge" data-action="run-to-book" on:click=move |_| places.go(Place::Weigh)>"Weigh it"</button>
            <button class="huge" data-action="run-to-dressing" on:click=move |_| places.go(Place::Dress)>"Dress it"</button>
        </div>
        <Another />
    }
}

/// Begins the next line, by either plan.
#[component]
fn Another() -> impl IntoView {
    let session = session();
    let anew = move |_| {
        session.begin_by_new_plan();
        focus_part(STEP);
    };
    let same = move |_| {
        session.begin_by_same_plan();
        focus_part(STEP);
    };
    view! {
        <div class="big-buttons">
            <button class="huge" data-action="run-again" on:click=anew>"Begin another by the plan as it is now"</button>
            <Show when=move || session.has_changed.get()>
                <button class="huge" data-action="run-same" on:click=same>"Begin another by the plan of this line"</button>
            </Show>
        </div>
    }
}

/// The line is given up midway, after a question.
#[component]
pub(super) fn GiveUp() -> impl IntoView {
    let session = session();
    let asking = RwSignal::new(false);
    let give_up = move |_| {
        session.give_up();
        focus_part(STEP);
    };
    view! {
        <Show
            when=move || asking.get()
            fallback=move || view! {
                <button class="huge" data-action="give-up" on:click=move |_| { asking.set(true); focus_part(".stand .give-up"); }>"Give this line up"</button>
            }
        >
            <div class="give-up" tabindex="-1" role="group" aria-label="Give this line up?">
                <p><b>"Give this line up here?"</b></p>
                <p>"What is done of it, and what went otherwise, stays written down in the bench book. It cannot be braided on from here."</p>
                <div class="big-buttons">
                    <button class="huge" data-action="give-up-yes" on:click=give_up>"Give it up"</button>
                    <button class="huge" data-action="give-up-no" on:click=move |_| { asking.set(false); focus_part(STEP); }>"Go on braiding"</button>
                </div>
            </div>
        </Show>
    }
}
