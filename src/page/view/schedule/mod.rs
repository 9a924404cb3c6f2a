//! The schedule: what to do at the machine, in order of length, and what the maker insists on.

mod pins;

use leptos::prelude::*;
use web_sys::KeyboardEvent;

use super::bench::{Cursor, bench};
use super::icon::{Glyph, Icon};
use super::saving::SaveTable;
use super::terms::TermLine;
use crate::base::units::{Length, show};
use crate::braid::track::Carrier;
use crate::keep::share::table;
use crate::page::browser::focus::focus;
use crate::paper::terms::Term;
use crate::paper::words;
use crate::plan::{Action, Event};
use pins::{PinEditor, PinList};

/// Two rows are the same row as long as they ask for the same action on the same carrier at the same place in the list.
type RowKey = (usize, &'static str, Option<Carrier>);

/// Words the schedule uses.
const TERMS: [Term; 9] = [
    Term::Carrier,
    Term::Circuit,
    Term::Stop,
    Term::Swap,
    Term::BuriedTail,
    Term::TakeOff,
    Term::ChangeGear,
    Term::Lag,
    Term::Pin,
];

/// The schedule.
#[component]
pub(crate) fn Schedule() -> impl IntoView {
    let bench = bench();
    let keys = Memo::new(move |_| {
        bench.plan.with(|plan| {
            plan.events
                .iter()
                .enumerate()
                .map(row_key)
                .collect::<Vec<_>>()
        })
    });
    // Only one row is opened to be pinned at a time, so that the list stays a list.
    let opened = RwSignal::new(None::<usize>);
    let hints = move || {
        let units = bench.units.get();
        bench.settled.with(|design| {
            let lead_in = design.lead_in();
            let lead_in = (lead_in > Length::ZERO).then(|| words::lead_in(lead_in, units));
            let tails = words::tails(design.buried_tail(), units);
            let pair = words::pair(design.draft().train);
            format!("{} {tails} {pair}", lead_in.unwrap_or_default())
        })
    };
    let here = Memo::new(move |_| {
        let at = bench.place();
        bench
            .plan
            .with(|plan| plan.events.iter().rposition(|event| event.at <= at))
    });
    view! {
        <section class="schedule" aria-label="Schedule">
            <ol class="card">
                <For each=move || keys.get() key=|key| *key let:key>
                    <EventRow index=key.0 opened here />
                </For>
            </ol>
            <details class="finer numbering">
                <summary>"How to read this list"</summary>
                <p class="ground">{words::NUMBERING}" Paint the numbers on once."</p>
                <p class="ground">{words::MEASURING}" "{hints}</p>
                <TermLine of=&TERMS />
            </details>
            <p class="caution">
                "Stop the machine and let it come to rest before you reach in. Keep fingers, hair and sleeves away from gears,
                rollers and handle; guards stay on. Blades slip: cut tails away from the hand that holds the line. Follow the
                machine’s own instructions and your local rules."
            </p>
            <PinList />
            <SaveTable action="save-schedule" name=table::schedule_name of=table::schedule />
        </section>
    }
}

fn row_key((index, event): (usize, &Event)) -> RowKey {
    (
        index,
        words::event_key(&event.action),
        event.action.carrier(),
    )
}

#[component]
fn EventRow(
    index: usize,
    opened: RwSignal<Option<usize>>,
    /// The row that the cursor is in.
    here: Memo<Option<usize>>,
) -> impl IntoView {
    let bench = bench();
    let event = Memo::new(move |_| bench.plan.with(|plan| plan.events.get(index).cloned()));
    let of = move |what: fn(&Event) -> String| {
        move || event.with(|event| event.as_ref().map(what).unwrap_or_default())
    };
    let at = move || {
        event.with(|event| {
            event
                .as_ref()
                .map(|event| bench.units.get().show_position(event.at))
        })
    };
    let since = move || {
        let (units, turns) = (bench.units.get(), bench.plan.with(|plan| plan.workload));
        event.with(|event| {
            let event = event.as_ref().filter(|event| event.since > Length::ZERO)?;
            Some(words::since(event, &turns, units))
        })
    };
    // A row stands for one kind of change: see `RowKey`.
    let (key, sign) = event.with_untracked(|event| {
        event.as_ref().map_or(("", Icon::Tick), |event| {
            (words::event_key(&event.action), sign_of(&event.action))
        })
    });
    let is_open = move || opened.get() == Some(index);
    let can_pin = move || {
        event.with(|event| {
            event
                .as_ref()
                .is_some_and(|event| !matches!(event.action, Action::End(_)))
        })
    };
    let is_pinned = move || event.with(|event| event.as_ref().is_some_and(Event::is_pinned));
    let pin_word = move || if is_pinned() { "Pinned" } else { "Pin" };
    // The machine is shown as it is after what is done here.
    let show = move |_| {
        if let Some(at) = event.with_untracked(|event| event.as_ref().map(|event| event.at)) {
            bench.cursor.set(Cursor::Place(at));
        }
    };
    let pin_button = NodeRef::<leptos::html::Button>::new();
    let close = move |event: KeyboardEvent| {
        if event.key() == "Escape" && is_open() {
            opened.set(None);
            if let Some(button) = pin_button.get_untracked() {
                focus(&button);
            }
        }
    };
    let toggle = move |_| opened.update(|now| *now = (*now != Some(index)).then_some(index));
    view! {
        <li
            class:here=move || here.get() == Some(index)
            class:together=move || event.with(|event| event.as_ref().is_some_and(is_with_the_last))
            data-event=of(|event| words::event_key(&event.action).to_owned())
            data-at=of(|event| event.at.metres().to_string())
            data-carrier=move || event.with(|event| event.as_ref().and_then(|event| words::carrier_keys(&event.action)))
            data-ends=of(|event| event.ends.to_string())
            data-gear=of(|event| event.wheels.to_string())
            data-circuits=of(|event| event.circuits.to_string())
            data-pinned=move || is_pinned().to_string()
            on:keydown=close
        >
            <button class="row-of" data-action="show-here" on:click=show>
                <span class="at">{at}</span>
                <span class="sign" data-sign=key><Glyph icon=sign /></span>
                <span class="operation">{of(words::operation)}</span>
                <span class="state">{of(state)}</span>
                <span class="since">{since}</span>
            </button>
            <Show when=can_pin>
                <button
                    node_ref=pin_button
                    class="plain pin"
                    data-action="pin"
                    aria-expanded=move || is_open().to_string()
                    aria-label=move || format!("{}: {}", pin_word(), of(words::operation)())
                    title=pin_word
                    on:click=toggle
                >
                    <Glyph icon=Icon::Pin />
                </button>
            </Show>
            <Show when=is_open>
                <PinEditor event />
            </Show>
        </li>
    }
}

/// The sign of an action.
const fn sign_of(action: &Action) -> Icon {
    match action {
        Action::Start(_) => Icon::Threads,
        Action::Add { .. } => Icon::Plus,
        Action::Drop { .. } => Icon::Minus,
        Action::Swap { .. } => Icon::Swap,
        Action::Gear { .. } => Icon::Gear,
        Action::End(_) => Icon::Tick,
    }
}

/// Whether it is done in the same place as the row above it.
fn is_with_the_last(event: &Event) -> bool {
    event.since == Length::ZERO && event.at > Length::ZERO
}

/// Which carriers are on, or what the braid is like from here on.
fn state(event: &Event) -> String {
    match &event.action {
        Action::Start(set) => words::set(set),
        Action::End(set) => format!("{} threads are on: {}", set.len(), words::set(set)),
        Action::Add { .. } | Action::Drop { .. } | Action::Swap { .. } => {
            format!("{} threads", event.threads())
        }
        Action::Gear { .. } => format!("settles at {}", show::angle(event.angle)),
    }
}
