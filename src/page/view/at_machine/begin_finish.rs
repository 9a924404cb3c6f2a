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
                "One step at a time. One plan is used from beginning to end, even if you change the drawing later. Every step you tick is saved at once in the bench book."
            </p>
            <Show
                when=move || session.has_changed.get()
                fallback=move || view! {
                    <p>"The plan as it is now is used."</p>
                    <button class="main huge" data-action="run-begin" on:click=begin>"Start this line"</button>
                }
            >
                <p class="by-plan">
                    "This line is in the bench book with the plan it was entered with. Your drawing or its settings have changed since."
                </p>
                <div class="big-buttons">
                    <button class="huge" data-action="run-begin" on:click=begin>"Start with the plan in the book"</button>
                    <button class="huge" data-action="run-begin-anew" on:click=anew>"Start another with the plan as it is now"</button>
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
                "Braided with the plan from when this line was started. Your drawing or its settings have changed since."
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
                "Braided: {} of line, {} bare. Weigh it and enter the weight in the bench book. Then start the dressing.",
                units.show_position(line.length()),
                show::grams(line.bare_mass(Length::ZERO, line.length()))
            ))
        })
    };
    view! {
        <p class="operation" role="status">"All steps are done"</p>
        <p class="more">{made}</p>
        <div class="big-buttons">
            <button class="huge" data-action="run-to-book" on:click=move |_| places.go(Place::Weigh)>"Weigh the line"</button>
            <button class="huge" data-action="run-to-dressing" on:click=move |_| places.go(Place::Dress)>"Dress the line"</button>
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
            <button class="huge" data-action="run-again" on:click=anew>"Start another with the plan as it is now"</button>
            <Show when=move || session.has_changed.get()>
                <button class="huge" data-action="run-same" on:click=same>"Start another with the plan of this line"</button>
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
                <button class="huge" data-action="give-up" on:click=move |_| { asking.set(true); focus_part(".stand .give-up"); }>"Abandon this line"</button>
            }
        >
            <div class="give-up" tabindex="-1" role="group" aria-label="Abandon this line?">
                <p><b>"Abandon this line here?"</b></p>
                <p>"The steps done and the corrections stay in the bench book. You cannot continue braiding this line."</p>
                <div class="big-buttons">
                    <button class="huge" data-action="give-up-yes" on:click=give_up>"Abandon line"</button>
                    <button class="huge" data-action="give-up-no" on:click=move |_| { asking.set(false); focus_part(STEP); }>"Continue braiding"</button>
                </div>
            </div>
        </Show>
    }
}
