//! The step to do now: the way to it, the deed, and the buttons that tick it.

use leptos::prelude::*;

use super::work::work;
use crate::design::Design;
use crate::plan::{Action, Event};
use crate::run::{Now, Run};
use crate::units::Length;
use crate::units::show;
use crate::view::words;

/// The step, the way to it, and the buttons.
#[component]
pub(super) fn ToDo() -> impl IntoView {
    let work = work();
    let units = move || work.bench.units.get();
    let now = work.now;
    let way = move || now.with(|now| now.as_ref().and_then(|now| way_words(now, units())));
    let deed = move || now.with(|now| now.as_ref()?.event.as_ref().map(deed_words));
    let more = move || {
        work.planned.with(|planned| {
            let (design, _) = planned.as_ref()?;
            now.with(|now| more_words(now.as_ref()?.event.as_ref()?, design, units()))
        })
    };
    let mark = move || {
        let rollers = work.rollers.get();
        now.with(|now| {
            now.as_ref()?
                .event
                .as_ref()
                .map(|event| mark_words(event, rollers, units()))
        })
    };
    let at_start = move || now.with(|now| now.as_ref().is_none_or(|now| now.index == 0));
    let is_way = Memo::new(move |_| {
        now.with(|now| now.as_ref().is_some_and(|now| now.remaining > Length::ZERO))
    });
    view! {
        <Show when=move || is_way.get()>
            <p class="way" data-run=move || now.with(|now| now.as_ref().map(|now| now.remaining.metres().to_string()))>{way}</p>
            <Counter />
            <p class="where-at">{mark}</p>
        </Show>
        <p class="stop-first">"Stop the machine and let it come to rest before you reach in."</p>
        <p class="deed" role="status">{deed}</p>
        <p class="more">{more}</p>
        <div class="big-buttons">
            <button class="main huge" data-action="run-done" on:click=move |_| work.change(Run::tick)>"Done"</button>
            <button class="huge" data-action="run-back" disabled=at_start on:click=move |_| work.change(|run, _| run.back())>"Back one step"</button>
        </div>
    }
}

/// Circuits counted by tap.
#[component]
fn Counter() -> impl IntoView {
    let work = work();
    let counted = move || {
        work.run
            .with(|run| run.as_ref().map_or(0, |run| run.circuits))
    };
    let wanted = move || {
        work.now
            .with(|now| now.as_ref().map_or(0.0, |now| now.circuits))
    };
    view! {
        <div class="counter">
            <button class="huge" data-action="circuit" on:click=move |_| work.change(|run, _| run.count(true))>
                {move || format!("{} of {:.1} circuits", counted(), wanted())}
                <small>"tap for each"</small>
            </button>
            <button class="huge" data-action="circuit-less" aria-label="one circuit less" on:click=move |_| work.change(|run, _| run.count(false))>
                "−"
            </button>
        </div>
    }
}

/// How far to run: `Run 1.234 m: 540.2 circuits, 31 crossings, 12 min`.
fn way_words(now: &Now, units: show::Units) -> Option<String> {
    (now.remaining > Length::ZERO).then_some(())?;
    let turns = if now.turns > 0.0 {
        format!(", {:.0} handle turns", now.turns)
    } else {
        String::new()
    };
    Some(format!(
        "Run {}: {:.1} circuits, {:.0} crossings along one rib{turns}, {}",
        units.show_position(now.remaining),
        now.circuits,
        now.crossings,
        show::minutes(now.minutes)
    ))
}

/// The step in large words.
pub(super) fn deed_words(event: &Event) -> String {
    match &event.action {
        Action::Add { carrier, ends } => format!(
            "Add a thread of {ends} ends on {}",
            words::carrier(*carrier)
        ),
        Action::Drop { carrier, .. } => format!("Drop the thread on {}", words::carrier(*carrier)),
        Action::Swap { carrier, from, to } => format!(
            "On {} take the thread of {from} ends off, put that of {to} on",
            words::carrier(*carrier)
        ),
        Action::Gear { from, to } => format!("Take the gear {from} off, fit {to}"),
        Action::Start(set) => format!(
            "Thread {} carriers and fit the gear {}",
            set.len(),
            event.wheels
        ),
        Action::End(_) => "Stop: the line is long enough. Cut it behind this place.".to_owned(),
    }
}

fn more_words(event: &Event, design: &Design, units: show::Units) -> Option<String> {
    match &event.action {
        Action::Start(set) => Some(format!(
            "{}. {} Mark the tip there.",
            words::set(set),
            words::lead_in(design.lead_in(), units)
        )),
        Action::Drop { .. } => Some(tail_words(design.buried_tail(), units)),
        _ => None,
    }
}

/// What becomes of a dropped thread's end.
fn tail_words(tail: Length, units: show::Units) -> String {
    if tail > Length::ZERO {
        let long = units.show_short(tail);
        format!("Cut it {long} long and lay its tail into the core.")
    } else {
        "Cut it off flush.".to_owned()
    }
}

/// Where the step is, at the point where the threads meet and at the maker's own mark.
fn mark_words(event: &Event, rollers: Length, units: show::Units) -> String {
    let at = units.show_position(event.at);
    if rollers <= Length::ZERO {
        return format!("at {at} from the tip, where the threads meet");
    }
    let mark = event.at - rollers;
    if mark > Length::ZERO {
        format!(
            "when {} have passed your mark ({at} where the threads meet)",
            units.show_position(mark)
        )
    } else {
        format!(
            "{} before the tip comes to your mark ({at} where the threads meet)",
            units.show_position(mark.abs())
        )
    }
}
