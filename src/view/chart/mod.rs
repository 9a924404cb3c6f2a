//! The chart: profile, staircase and angle over one axis of length, with handles to drag.

mod curve;
mod drag;
mod frame;
mod handles;
mod readout;

use leptos::prelude::*;

use super::bench::{Cursor, Ghost, bench};
use crate::browser::size;
use crate::chart::scale::Scale;
use crate::design::Design;
use crate::plan::Plan;

/// Size of the chart before the browser has told its own: a tablet held upright.
const FIRST_SIZE: (f64, f64) = (780.0, 520.0);
/// Size on the printed card, in the units of its SVG.
const PRINTED_SIZE: (f64, f64) = (1040.0, 370.0);

/// The chart's SVG element.
pub(super) type Drawing = NodeRef<leptos::svg::Svg>;

/// The chart on the bench.
#[component]
pub(crate) fn Chart() -> impl IntoView {
    let bench = bench();
    let measured = RwSignal::new(FIRST_SIZE);
    let (holder, drawing) = (NodeRef::<leptos::html::Div>::new(), Drawing::new());
    Effect::new(move |_| {
        if let Some(holder) = holder.get() {
            size::watch(&holder, move |width, height| measured.set((width, height)));
        }
    });
    // The scale follows the settled design: while a finger drags, the paper stays where it is.
    let scale = Memo::new(move |before: Option<&Scale>| {
        let (units, size) = (bench.units.get(), measured.get());
        let scale = bench.settled.with(|design| {
            let plan = bench.settled_plan.read();
            Scale::of(design, &plan, units, size)
        });
        let scale = bench.ghost.with(|ghost| with_room(scale, ghost.as_ref()));
        before.map_or(scale, |before| scale.keeping_paper_of(before))
    });
    let (scale, design, plan): (Signal<Scale>, Signal<Design>, Signal<Plan>) =
        (scale.into(), bench.design.into(), bench.plan.into());
    view! {
        <readout::Readout />
        <div class="chart" node_ref=holder>
            <svg
                node_ref=drawing
                viewBox=move || view_box(&scale)
                role="group"
                aria-label="Profile of the line, threads and braid angle along its length"
                on:pointermove=move |event| scale.with_untracked(|scale| readout::follow(&event, drawing, bench, scale))
                on:click=move |event| scale.with_untracked(|scale| readout::tap(&event, drawing, bench, scale))
                on:pointerleave=move |_| bench.cursor.set(Cursor::Point)
            >
                <frame::Frame scale />
                <curve::Curves design plan scale ghost=bench.ghost />
                <readout::Crosshair scale />
                <handles::Handles drawing scale />
            </svg>
        </div>
    }
}

/// The chart on paper: the same drawing, of the settled design, without handles.
#[component]
pub(crate) fn PrintedChart() -> impl IntoView {
    let bench = bench();
    let scale = Memo::new(move |_| {
        let units = bench.units.get();
        bench.settled.with(|design| {
            bench
                .settled_plan
                .with(|plan| Scale::of(design, plan, units, PRINTED_SIZE))
        })
    });
    let (scale, design, plan): (Signal<Scale>, Signal<Design>, Signal<Plan>) = (
        scale.into(),
        bench.settled.into(),
        bench.settled_plan.into(),
    );
    view! {
        <svg class="printed" viewBox=move || view_box(&scale) role="img" aria-label="Profile, threads and angle">
            <frame::Frame scale />
            <curve::Curves design plan scale />
        </svg>
    }
}

/// The scale, with room for the line laid behind, however long and thick that is.
fn with_room(scale: Scale, ghost: Option<&Ghost>) -> Scale {
    ghost.map_or(scale, |Ghost { design, plan, .. }| {
        let thickest = design.taper().thickest().max(plan.belly.dressed.diameter);
        let loads = plan.line.stretches().iter();
        let threads = loads.map(|stretch| stretch.piece.load.yarn);
        scale.with_room_for(plan.length, thickest, threads.fold(0.0, f64::max))
    })
}

fn view_box(scale: &Signal<Scale>) -> String {
    scale.with(|scale| format!("0 0 {} {}", scale.width, scale.height))
}
