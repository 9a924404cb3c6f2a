//! The ring with the carriers that are on, and those that the step is about. Numbers on all of them would be too small to read
//! at arm's length: those that the words of the step name are shown, large, beside their carriers.

use leptos::prelude::*;

use super::session::session;
use crate::page::view::machine::{MachineState, StationSignals, ring_lines};
use crate::paper::chart::track_map::{CarrierMark, MarkSize, TrackMap};
use crate::paper::words;

/// Height of a number, as a share of the side of the map: 24 px and more on the narrowest screen.
const NUMBER: f64 = 0.09;

/// The machine at this step.
#[component]
pub(super) fn MachineMap() -> impl IntoView {
    let session = session();
    let here = Memo::new(move |_| {
        session.planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            session
                .now
                .with(|now| Some(StationSignals::of_run(design, plan, now.as_ref()?)))
        })
    });
    let is_start = Memo::new(move |_| session.is_start());
    move || {
        let here = here.get()?;
        Some(view! { <Ring here is_start=is_start.get() /> })
    }
}

/// The ring in a state of the machine.
#[component]
pub(super) fn Ring(here: MachineState, is_start: bool) -> impl IntoView {
    let map = TrackMap::of(here.ring, &here.mounted);
    let caption = caption(&here, is_start);
    let spoken = format!(
        "Ring of horn gears from above: {}. {caption}.",
        words::carriers(here.engaged())
    );
    let numbers = numbers(&map);
    view! {
        <figure class="track-map" data-map="">
            <figcaption class="title">{caption}</figcaption>
            <div class="ring-map">
                <svg data-picture="run-map" role="img" aria-label=spoken viewBox=format!("0 0 {0} {0}", map.side)>
                    {drawing(&map)}
                    {numbers}
                </svg>
            </div>
            <details class="finer legend">
                <summary>"About the marks"</summary>
                <p>{legend(is_start)}</p>
            </details>
        </figure>
    }
}

/// How many carriers are on, and which one the step is about.
fn caption(here: &MachineState, is_start: bool) -> String {
    let (on, all) = (here.engaged().len(), here.mounted.len());
    let whose: Vec<String> = here.changing().into_iter().map(words::carrier).collect();
    if is_start {
        format!("{on} of {all} carriers to be threaded")
    } else if whose.is_empty() {
        format!("{on} of {all} carriers on")
    } else {
        format!("{on} of {all} carriers on; ringed: {}", whose.join(", "))
    }
}

fn legend(is_start: bool) -> String {
    let filled = if is_start { "to be threaded" } else { "on" };
    format!(
        "Seen from above. Round carriers run clockwise, square ones counter\u{2011}clockwise; the nose points the \
         way they run. Filled: {filled}. Hollow: not on. A carrier of this step has a ring round it, and its number \
         beside it."
    )
}

/// The numbers of the carriers that have a ring round them. Without one a number could be taken for a neighbour's.
fn numbers(map: &TrackMap) -> impl IntoView + use<> {
    let is_named = |mark: &&CarrierMark| mark.mounted.is_next;
    let height = map.side * NUMBER;
    let number = |mark: &CarrierMark| {
        let (x, y) = map.number_at(mark, height);
        let carrier = mark.mounted.carrier;
        view! {
            <text class="number" data-run-number=carrier.to_string() x=format!("{x:.1}") y=format!("{y:.1}") font-size=format!("{height:.1}")>
                {carrier.number + 1}
            </text>
        }
    };
    map.marks.iter().filter(is_named).map(number).collect_view()
}

fn drawing(map: &TrackMap) -> impl IntoView + use<> {
    let marks = map.marks.iter().map(|one| mark(one, map.size));
    view! {
        {ring_lines(map)}
        {marks.collect_view()}
    }
}

fn mark(mark: &CarrierMark, size: MarkSize) -> impl IntoView + use<> {
    let CarrierMark {
        mounted,
        x,
        y,
        heading,
        ..
    } = *mark;
    let state = if mounted.is_engaged() {
        "engaged"
    } else {
        "idle"
    };
    let ring = mounted
        .is_next
        .then(|| view! { <circle class="ring" r=size.reach + 5.0 /> });
    view! {
        <g
            class="mark"
            transform=format!("translate({x:.1} {y:.1})")
            data-run-carrier=mounted.carrier.to_string()
            data-state=state
            data-next=mounted.is_next.to_string()
        >
            {ring}
            <path d=size.outline(mounted.carrier.direction) transform=format!("rotate({heading:.1})") />
        </g>
    }
}
