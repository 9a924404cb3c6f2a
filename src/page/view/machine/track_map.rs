//! The ring from above, with the carriers that are on and the one that is next.

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::station::{MachineState, NextChange, StationSignals};
use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::braid::track::Direction;
use crate::page::view::bench::bench;
use crate::paper::chart::track_map::{CarrierMark, MarkSize, TrackMap};
use crate::paper::words;

/// A map wider than this, in pixels, has a row of its own.
const CROWDED: f64 = 340.0;
/// A map wider than this is moved sideways in its box on a phone, so that its numbers stay large enough to read.
const VAST: f64 = 420.0;

/// The map with its title, what comes next, and the words that explain it.
#[component]
pub(super) fn Map(station: StationSignals) -> impl IntoView {
    let units = bench().units;
    let StationSignals { at, here, next_at } = station;
    let map = Memo::new(move |_| here.with(|here| TrackMap::of(here.ring, &here.mounted)));
    let title = move || here.with(|here| title(here, at.get(), units.get()));
    let next = move || here.with(|here| next(here.next, next_at.get(), units.get()));
    let spoken = move || {
        let who = here.with(|here| words::carriers(here.engaged()));
        format!(
            "Ring of horn gears from above, {}: {who}. {}.",
            title(),
            next()
        )
    };
    let side = move || map.with(|map| map.side);
    let (crowded, vast) = (move || side() > CROWDED, move || side() > VAST);
    view! {
        <figure class="track-map" class:crowded=crowded class:vast=vast>
            <figcaption class="title">{title}</figcaption>
            <p class="next">{next}</p>
            <div class="map">
                <svg
                    data-picture="track-map"
                    role="img"
                    aria-label=spoken
                    viewBox=move || format!("0 0 {0} {0}", side())
                    width=side
                >
                    {move || map.with(drawing)}
                    {move || here.with(|here| count(here, map.with(|map| map.side / 2.0)))}
                </svg>
            </div>
            <p class="next">{move || here.with(ends)}</p>
            <details class="finer"><summary>"About the marks"</summary><p class="ground">{LEGEND}</p></details>
        </figure>
    }
}

/// About the marks.
const LEGEND: &str = "Seen from above, half-way between two meetings. Round carriers run clockwise, square ones \
    counter\u{2011}clockwise; the nose points the way they run. Filled: engaged. Hollow: idle. Ringed: next.";

fn title(here: &MachineState, at: Length, units: Units) -> String {
    let (on, all) = (here.engaged().len(), here.mounted.len());
    format!(
        "At {}: {on} of {all} carriers engaged",
        units.show_position(at)
    )
}

fn next(next: Option<NextChange>, at: Option<Length>, units: Units) -> String {
    let (Some(next), Some(at)) = (next, at) else {
        return "Next: no more thread changes".to_owned();
    };
    let (operation, carrier) = (next.action, words::carrier(next.carrier));
    format!("Next: {operation} {carrier} at {}", units.show_position(at))
}

/// How many ends the threads have, all alike or by their number.
fn ends(here: &MachineState) -> String {
    let mut counts = BTreeMap::new();
    for ends in here.mounted.iter().filter_map(|one| one.ends) {
        *counts.entry(ends).or_insert(0_u32) += 1;
    }
    if let (1, Some((ends, _))) = (counts.len(), counts.first_key_value()) {
        return format!("Every thread has {ends} ends.");
    }
    let each = counts.iter().map(|(ends, threads)| match threads {
        1 => format!("1 thread of {ends} ends"),
        threads => format!("{threads} threads of {ends} ends"),
    });
    format!(
        "{}; the heavier underlined.",
        each.collect::<Vec<_>>().join(", ")
    )
}

/// In the middle of the ring: how many are on.
fn count(here: &MachineState, middle: f64) -> impl IntoView + use<> {
    let (on, all) = (here.engaged().len(), here.mounted.len());
    view! {
        <text class="count" x=middle y=middle + 4.0>{on}</text>
        <text class="count-of" x=middle y=middle + 22.0>{format!("of {all} on")}</text>
    }
}

/// Horn gears with their slots, and the tracks: all but the carriers.
pub(crate) fn ring_lines(map: &TrackMap) -> impl IntoView + use<> {
    let gears = map.gears.iter().map(|gear| {
        view! { <circle class="gear" cx=gear.x cy=gear.y r=gear.radius /> }
    });
    view! {
        {gears.collect_view()}
        <path class="slots" d=map.slots.clone() />
        <path class="way" d=map.clockwise.clone() />
        <path class="way back" d=map.counter_clockwise.clone() />
    }
}

fn drawing(map: &TrackMap) -> impl IntoView + use<> {
    let least = map.marks.iter().filter_map(|mark| mark.mounted.ends).min();
    // Numbers that are all the same say nothing.
    let most = map.marks.iter().filter_map(|mark| mark.mounted.ends).max();
    let marks = map
        .marks
        .iter()
        .map(|one| mark(one, map.size, least, least != most));
    view! {
        {ring_lines(map)}
        {marks.collect_view()}
    }
}

/// One carrier. `least` are the fewest ends on any engaged one; they are written beside it where not all are alike.
fn mark(
    mark: &CarrierMark,
    size: MarkSize,
    least: Option<u32>,
    differ: bool,
) -> impl IntoView + use<> {
    let (carrier, ends) = (mark.mounted.carrier, mark.mounted.ends);
    let is_next = mark.mounted.is_next;
    let state = if ends.is_some() { "engaged" } else { "idle" };
    let heavier = ends > least;
    let place = format!("translate({:.1} {:.1})", mark.x, mark.y);
    let beside = mark
        .ends_at()
        .zip(ends.filter(|_| differ))
        .map(|((x, y), ends)| view! { <text class="ends" x=x - mark.x y=y - mark.y>{ends}</text> });
    view! {
        <g
            class="mark"
            class:heavier=heavier
            transform=place
            data-map-carrier=carrier.to_string()
            data-state=state
            data-ends=ends.map(|ends| ends.to_string())
            data-next=is_next.to_string()
        >
            {is_next.then(|| view! { <circle class="ring" r=size.radius + 4.0 /> })}
            <path d=size.outline(carrier.direction) transform=format!("rotate({:.1})", mark.heading) />
            <text class:square=carrier.direction == Direction::CounterClockwise font-size=size.number>
                {carrier.number + 1}
            </text>
            {beside}
        </g>
    }
}
