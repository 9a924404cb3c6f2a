//! The beginning and the end of a line at the machine: begun, done, or given up.

use leptos::ev::MouseEvent;
use leptos::prelude::*;

use super::focus::{STEP, focus_part};
use super::left_over::LeftOver;
use super::machine_map::Ring;
use super::session::{Session, session};
use super::speak::{SpeakStep, Unspoken};
use super::step_words::{fit_words, operation_words};
use crate::base::units::Length;
use crate::base::units::show;
use crate::design::Design;
use crate::page::places::Place;
use crate::page::view::machine::{MachineState, StationSignals};
use crate::page::view::places::places;
use crate::plan::Plan;
use crate::plan::run::{Now, Run};

/// A press that does this and then leads to the step at hand.
fn then_to_step(act: fn(Session)) -> impl Fn(MouseEvent) + Copy {
    let session = session();
    move |_| {
        act(session);
        focus_part(STEP);
    }
}

/// The line is not begun yet: what it takes, the first step, and the machine as it is to be threaded.
#[component]
pub(super) fn Begin() -> impl IntoView {
    let session = session();
    let title = move || {
        session
            .bench
            .settled
            .with(|design| design.title().to_owned())
    };
    let first = Memo::new(move |_| {
        let bench = session.bench;
        bench
            .settled
            .with(|design| bench.settled_plan.with(|plan| FirstStep::of(design, plan)))
    });
    view! {
        <div class="beside">
            <div class="step" tabindex="-1">
                <div class="step-head">
                    <h1>{move || format!("Braid {}", title())}</h1>
                    <SpeakStep />
                </div>
                <Unspoken />
                <Show when=move || session.has_changed.get() fallback=move || view! { <BeginByDrawing first /> }>
                    <BeginByEither />
                </Show>
                <super::setup::SetupList />
            </div>
            {move || view! { <Ring here=first.get().machine is_start=true /> }}
        </div>
    }
}

/// What a maker wants to know before a line is begun.
#[derive(Clone, PartialEq)]
struct FirstStep {
    steps: usize,
    minutes: f64,
    operation: String,
    gear: String,
    machine: MachineState,
}

impl FirstStep {
    fn of(design: &Design, plan: &Plan) -> Self {
        let run = Run::default();
        let now = Now::of(&run, &run.adjusted(design, plan), plan);
        Self {
            steps: now.count,
            minutes: plan.workload.minutes,
            operation: now.event().map(operation_words).unwrap_or_default(),
            gear: now.event().map(fit_words).unwrap_or_default(),
            machine: StationSignals::of_run(design, plan, &now),
        }
    }
}

/// The line is begun with the plan of the drawing.
#[component]
fn BeginByDrawing(first: Memo<FirstStep>) -> impl IntoView {
    let work = move || {
        first.with(|first| {
            format!(
                "{} steps. The machine runs for {}, plus your stops.",
                first.steps,
                show::minutes(first.minutes)
            )
        })
    };
    let to_do = move || first.with(|first| format!("First: {}. {}.", first.operation, first.gear));
    view! {
        <p>{work}</p>
        <p>{to_do}</p>
        <button class="main huge" data-action="run-begin" on:click=then_to_step(Session::begin)>"Start this line"</button>
        <p class="hint">
            "Each step you tick is saved at once in the bench book. The line keeps this plan, even if you change the drawing later."
        </p>
    }
}

/// The drawing has changed since the line was entered in the book: by which plan is it begun?
#[component]
fn BeginByEither() -> impl IntoView {
    view! {
        <p class="by-plan">
            "This line is in the bench book with the plan it was entered with. Your drawing or its settings have changed since."
        </p>
        <div class="big-buttons">
            <button class="huge" data-action="run-begin" on:click=then_to_step(Session::begin)>"Start with the plan in the book"</button>
            <button class="huge" data-action="run-begin-drawn" on:click=then_to_step(Session::begin_by_new_plan)>"Start with the plan as drawn now"</button>
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
        <LeftOver />
    }
}

/// Begins the next line, by either plan.
#[component]
fn Another() -> impl IntoView {
    let session = session();
    view! {
        <div class="big-buttons">
            <button class="huge" data-action="run-again" on:click=then_to_step(Session::begin_by_new_plan)>"Start another with the plan as drawn now"</button>
            <Show when=move || session.has_changed.get()>
                <button class="huge" data-action="run-same" on:click=then_to_step(Session::begin_by_same_plan)>"Start another with the plan of this line"</button>
            </Show>
        </div>
    }
}

/// The line is given up midway, after a question.
#[component]
pub(super) fn GiveUp() -> impl IntoView {
    let asking = RwSignal::new(false);
    view! {
        <Show
            when=move || asking.get()
            fallback=move || view! {
                <button class="give-up-button" data-action="give-up" on:click=move |_| { asking.set(true); focus_part(".stand .give-up"); }>"Abandon this line"</button>
            }
        >
            <div class="give-up" tabindex="-1" role="group" aria-label="Abandon this line?">
                <p><b>"Abandon this line here?"</b></p>
                <p>"The steps done and the corrections stay in the bench book. You cannot continue braiding this line."</p>
                <div class="big-buttons">
                    <button class="huge" data-action="give-up-yes" on:click=then_to_step(Session::give_up)>"Abandon line"</button>
                    <button class="huge" data-action="give-up-no" on:click=move |_| { asking.set(false); focus_part(STEP); }>"Continue braiding"</button>
                </div>
            </div>
        </Show>
    }
}
