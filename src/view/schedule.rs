//! The schedule: what to do at the machine, in order of length.

use leptos::prelude::*;

use super::bench::bench;
use super::words;
use crate::plan::{Action, Event};
use crate::track::Carrier;
use crate::units::show;

/// Two rows are the same row as long as they say the same thing to the same carrier at the same place in the list.
type RowKey = (usize, &'static str, Option<Carrier>);

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
    view! {
        <section class="schedule" id="schedule" aria-label="Schedule">
            <h2>"At the machine"</h2>
            <details class="numbering">
                <summary>"How the carriers are numbered"</summary>
                <p class="ground">{words::NUMBERING}" Paint the numbers on once."</p>
            </details>
            <p class="hint">{words::MEASURING}</p>
            <p class="caution">
                "Stop the machine and let it come to rest before you reach in to add, drop or change anything. Keep
                fingers, hair and sleeves away from horn gears, rollers and handle; guards stay on. Follow the machine’s
                own instructions and your local rules."
            </p>
            <ol>
                <For each=move || keys.get() key=|key| *key let:key>
                    <Row index=key.0 />
                </For>
            </ol>
        </section>
    }
}

fn row_key((index, event): (usize, &Event)) -> RowKey {
    let carrier = match event.action {
        Action::Add(carrier) | Action::Drop(carrier) => Some(carrier),
        Action::Start(_) | Action::Gear { .. } | Action::End(_) => None,
    };
    (index, words::event_key(&event.action), carrier)
}

#[component]
fn Row(index: usize) -> impl IntoView {
    let bench = bench();
    let event = Memo::new(move |_| bench.plan.with(|plan| plan.events.get(index).cloned()));
    let of = move |what: fn(&Event) -> String| {
        move || event.with(|event| event.as_ref().map(what).unwrap_or_default())
    };
    let ends = move || {
        bench
            .settled
            .with(|design| design.thread().ends.to_string())
    };
    let at = move || {
        event.with(|event| {
            event
                .as_ref()
                .map(|event| bench.units.get().show_position(event.at))
        })
    };
    let since = move || {
        event.with(|event| {
            let since = event
                .as_ref()
                .filter(|event| event.since > crate::units::Length::ZERO)?
                .since;
            Some(format!(
                "{} after the last",
                bench.units.get().show_position(since)
            ))
        })
    };
    view! {
        <li
            data-event=of(|event| words::event_key(&event.action).to_owned())
            data-at=of(|event| event.at.metres().to_string())
            data-carrier=move || event.with(|event| event.as_ref().and_then(|event| words::carrier_keys(&event.action)))
            data-ends=ends
            data-gear=of(|event| event.gear.to_string())
        >
            <span class="at">{at}</span>
            <span class="deed">{of(words::deed)}</span>
            <span class="state">{of(state)}</span>
            <span class="since">{since}</span>
        </li>
    }
}

/// Which carriers are on, or what the braid is like from here on.
fn state(event: &Event) -> String {
    match &event.action {
        Action::Start(set) => words::carriers(set),
        Action::End(set) => format!("{} threads are on: {}", set.len(), words::carriers(set)),
        Action::Add(_) | Action::Drop(_) => format!("{} threads", event.threads),
        Action::Gear { .. } => show::angle(event.angle),
    }
}
