//! Small pictures of setting up. They are sketches: nothing in them is to scale but the ring.

use leptos::prelude::*;

use crate::braid::takeoff::Wheels;
use crate::page::view::machine::ring_lines;
use crate::paper::chart::ring::{MountedCarrier, Ring};
use crate::paper::chart::track_map::TrackMap;
use crate::plan::Set;
use crate::plan::run::{Setup, SetupRow};

/// Threads that run up through the guide into the former, and the braid above.
const GUIDE: &str = "M8 92L42 52M30 92L46 52M66 92L50 52M88 92L54 52M34 50a14 6 0 1 0 28 0a14 6 0 1 0-28 0M38 42V24h20v18M45 24V4M51 24V4";
/// A spring with its notches.
const TENSION: &str =
    "M40 4v10l16 6L24 30l32 10L24 50l32 10l-16 6v10a7 7 0 1 0 .01 0M74 20h14M74 36h14M74 52h14";
/// A bobbin whose thread runs through the guide, with its mark.
const THREAD: &str = "M12 60h30M12 92h30M16 60v32M38 60v32M16 70h22M16 80h22M27 60L46 28M34 26a14 6 0 1 0 28 0a14 6 0 1 0-28 0M48 24V4M50 66h22v18H50Z";
/// A weight lashed to the bar above it.
const WEIGHT: &str = "M10 10h76M44 10v36M52 10v36M38 20h20M38 27h20M38 34h20M36 46h24l8 40H28ZM82 74V36M75 45l7-9l7 9";
/// A piece of braid and its length.
const LEAD_IN: &str = "M28 6c0 14 20 14 20 28s-20 14-20 28s20 14 20 28M48 6c0 14-20 14-20 28s20 14 20 28s-20 14-20 28M68 6h14M75 6v84M68 90h14";
/// Both hands push a piece of braid together.
const PUSH: &str = "M30 38c6 0 6 20 12 20s6-20 12-20s6 20 12 20M30 58c6 0 6-20 12-20s6 20 12 20s6-20 12-20M2 48h22M16 40l8 8l-8 8M94 48H72M80 40l-8 8l8 8";
/// A protractor held to a thread of the braid.
const MEASURE: &str =
    "M4 76h88M10 76a38 38 0 0 1 76 0M48 38v9M21 49l7 7M75 49l-7 7M48 76L82 30M48 76L14 30";

/// The picture of a row.
pub(super) fn picture(row: SetupRow, setup: &Setup) -> AnyView {
    match row {
        SetupRow::FirstBobbins => ring(setup, &setup.first),
        SetupRow::LaterBobbins => {
            let later = setup.later.iter();
            let set: Set = later.map(|bobbin| (bobbin.carrier, bobbin.ends)).collect();
            ring(setup, &set)
        }
        SetupRow::Gear => gear(setup.wheels),
        SetupRow::Guide => sketch(GUIDE),
        SetupRow::Tension => sketch(TENSION),
        SetupRow::Thread => sketch(THREAD),
        SetupRow::IdleWeights => sketch(WEIGHT),
        SetupRow::LeadIn => sketch(LEAD_IN),
        SetupRow::Push => sketch(PUSH),
        SetupRow::Measure => sketch(MEASURE),
    }
}

fn sketch(lines: &'static str) -> AnyView {
    view! { <svg class="sketch" viewBox="0 0 96 96" aria-hidden="true"><path d=lines /></svg> }
        .into_any()
}

/// A gear with its number of teeth; of a pair both.
fn gear(wheels: Wheels) -> AnyView {
    view! {
        <svg class="sketch" viewBox="0 0 96 96" aria-hidden="true">
            <circle cx="48" cy="48" r="37" />
            <circle class="teeth" cx="48" cy="48" r="42" />
            <text x="48" y="48">{wheels.to_string()}</text>
        </svg>
    }
    .into_any()
}

/// The ring from above, with these carriers filled.
fn ring(setup: &Setup, set: &Set) -> AnyView {
    let mounted = MountedCarrier::all(&setup.track, set, &[]);
    let map = TrackMap::of(Ring::of(&setup.track), &mounted);
    let marks = map.marks.iter().map(|mark| {
        let state = if mark.mounted.is_engaged() {
            "engaged"
        } else {
            "idle"
        };
        let place = format!(
            "translate({:.1} {:.1}) rotate({:.1})",
            mark.x, mark.y, mark.heading
        );
        let outline = map.size.outline(mark.mounted.carrier.direction);
        view! { <g class="mark" data-state=state transform=place><path d=outline /></g> }
    });
    view! {
        <svg class="track-map" viewBox=format!("0 0 {0} {0}", map.side) aria-hidden="true">
            {ring_lines(&map)}
            {marks.collect_view()}
        </svg>
    }
    .into_any()
}
