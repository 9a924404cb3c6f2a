//! The step to do now, as a list in the order of the work.

use leptos::prelude::*;

use super::clock_panel::ClockPanel;
use super::counter::Counter;
use super::positions::PositionFormat;
use super::session::session;
use super::setup::SetupList;
use super::step_words::{AT_REST, operation_words, tail_words};
use crate::base::units::Length;
use crate::base::units::show;
use crate::design::Design;
use crate::page::view::book::open_book;
use crate::plan::Event;
use crate::plan::run::Now;

/// The step, and the length to run before it.
#[component]
pub(super) fn CurrentStep() -> impl IntoView {
    let session = session();
    let is_start = Memo::new(move |_| session.is_start());
    view! {
        <Show when=move || is_start.get() fallback=move || view! { <ChangeStep /> }>
            <SetupList />
        </Show>
    }
}

/// A change to make after a length to run.
#[component]
fn ChangeStep() -> impl IntoView {
    let (session, open_book) = (session(), open_book());
    let operations = move || {
        let units = session.bench.units.get();
        let step = session.with_now(|now| now.step.clone())?;
        let later_mark = open_book
            .workshop
            .with(|workshop| workshop.machine_notes.later_mark.clone());
        session.with_planned(|design, _| {
            let row = |event: &Event| operation(event, design, &later_mark, units);
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
fn operation(
    event: &Event,
    design: &Design,
    later_mark: &str,
    units: show::Units,
) -> impl IntoView + use<> {
    let more = tail_words(event, design, later_mark, units);
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
                <p class="where-at">{mark}", "{measures}</p>
                <ClockPanel />
                <Counter wanted has_length=true />
            </Show>
        </li>
    }
}

/// The length to run in other measures than circuits: `1194 crossings along one rib`.
fn run_measures(now: &Now) -> String {
    let mut measures = Vec::new();
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
