//! The step to do now, as a list in the order of the work.

use leptos::prelude::*;

use super::counter::Counter;
use super::positions::PositionFormat;
use super::session::session;
use super::step_words::{fit_words, operation_words, tail_words};
use crate::base::units::Length;
use crate::base::units::show;
use crate::design::Design;
use crate::paper::words;
use crate::plan::run::Now;
use crate::plan::{Action, Event};

/// Said before anybody reaches into the machine.
const AT_REST: &str = "Stop the machine and let it come to rest before you reach in.";

/// The step, and the length to run before it.
#[component]
pub(super) fn CurrentStep() -> impl IntoView {
    let session = session();
    let is_start = Memo::new(move |_| session.is_start());
    view! {
        <Show when=move || is_start.get() fallback=move || view! { <ChangeStep /> }>
            <StartStep />
        </Show>
    }
}

/// A change to make after a length to run.
#[component]
fn ChangeStep() -> impl IntoView {
    let session = session();
    let operations = move || {
        let units = session.bench.units.get();
        let step = session.with_now(|now| now.step.clone())?;
        session.with_planned(|design, _| {
            let row = |event: &Event| operation(event, design, units);
            step.iter().map(row).collect_view()
        })
    };
    view! {
        <ol class="do">
            <RunToStep />
            <li>
                <p class="stop-first">{AT_REST}" Then:"</p>
                <div role="status">{operations}</div>
            </li>
        </ol>
    }
}

/// One thing to do at the stop, and what becomes of a thread taken off there.
fn operation(event: &Event, design: &Design, units: show::Units) -> impl IntoView + use<> {
    let more = tail_words(event, design, units);
    view! {
        <p class="operation">{operation_words(event)}</p>
        {more.map(|more| view! { <p class="more">{more}</p> })}
    }
}

/// The length to run: large, and by crossings, turns and time; below it by circuits, with a counter.
#[component]
fn RunToStep() -> impl IntoView {
    let session = session();
    let is_run =
        Memo::new(move |_| session.with_now(|now| now.remaining > Length::ZERO) == Some(true));
    let long = move || {
        let units = session.bench.units.get();
        session.with_now(|now| format!("Run {}", units.show_position(now.remaining)))
    };
    let metres = move || session.with_now(|now| now.remaining.metres().to_string());
    let measures = move || session.with_now(run_measures);
    let wanted = Signal::derive(move || session.with_now(|now| now.circuits).unwrap_or(0.0));
    let mark = move || session.with_event(|event| mark_words(event, session.positions()));
    view! {
        <li>
            <Show when=move || is_run.get() fallback=|| view! { <p>"Nothing to run: do this where the machine is now."</p> }>
                <p class="way" data-run=metres>{long}</p>
                <p class="where-at">{mark}</p>
                <p>{measures}</p>
                <Counter wanted />
            </Show>
        </li>
    }
}

/// The machine is threaded and the lead-in braided.
#[component]
fn StartStep() -> impl IntoView {
    let session = session();
    let operation = move || session.with_event(operation_words);
    let carriers = move || {
        let words = |event: &Event| match &event.action {
            Action::Start(set) => Some(words::set(set)),
            _ => None,
        };
        session.with_event(words).flatten()
    };
    let gear = move || session.with_event(fit_words);
    let lead_in = Memo::new(move |_| {
        session.planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            let long = design.lead_in();
            (long > Length::ZERO).then_some((long, plan.workload.lead_in))
        })
    });
    let braid = move || {
        let units = session.bench.units.get();
        lead_in.get().map(|(long, circuits)| {
            format!(
                "Braid {} of lead-in: {circuits:.0}\u{a0}circuits",
                units.show_position(long)
            )
        })
    };
    let wanted = Signal::derive(move || lead_in.get().map_or(0.0, |(_, circuits)| circuits));
    let stop = move || if lead_in.get().is_some() { AT_REST } else { "" };
    view! {
        <ol class="do">
            <li><p class="stop-first">{AT_REST}</p></li>
            <li><p class="operation" role="status">{operation}</p><p class="more">{carriers}</p></li>
            <li><p class="operation">{gear}</p></li>
            <Show when=move || lead_in.get().is_some()>
                <li><p class="operation">{braid}</p><Counter wanted /></li>
            </Show>
            <li>
                <p class="stop-first">{stop}</p>
                <p class="operation">"Mark the tip"</p>
                <p class="more">"It is where the threads meet now. Lengths count from there."</p>
            </li>
        </ol>
    }
}

/// The length to run in other measures than circuits: `7 min, 1194 crossings along one rib`.
fn run_measures(now: &Now) -> String {
    let mut measures = vec![show::minutes(now.minutes)];
    if now.turns > 0.0 {
        measures.push(format!("{:.0} handle turns", now.turns));
    }
    measures.push(format!("{:.0} crossings along one rib", now.crossings));
    measures.join(", ")
}

/// Where the step is, at the point where the threads meet and at the maker's own mark.
fn mark_words(event: &Event, positions: PositionFormat) -> String {
    let at = positions.units.show_position(event.at);
    if !positions.has_mark() {
        return format!("up to {at} from the tip");
    }
    let mark = event.at - positions.rollers;
    let there = positions.units.show_position(mark.abs());
    if mark > Length::ZERO {
        format!("until {there} have passed your mark ({at} where the threads meet)")
    } else {
        format!("until the tip is {there} short of your mark ({at} where the threads meet)")
    }
}
