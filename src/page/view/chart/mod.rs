//! The chart: profile, staircase and angle over one axis of length, with handles to drag.
//!
//! Its scale follows the settled design, and keeps its paper as long as the line still fits it, so that nothing jumps under the
//! finger. A low chart gives up bands from below: the angle first, then the staircase.

mod curve;
mod drag;
mod frame;
mod guides;
mod handles;
mod loupe;
mod pointer;
mod readout;
mod sliders;
mod zoom;

use std::sync::Arc;

use leptos::prelude::*;

use super::bench::{Cursor, Ghost, bench};
use super::deferred::Deferred;
use crate::page::browser::element_size;
use crate::paper::chart::scale::{LEFT, Scale};
use crate::plan::Plan;
use pointer::ChartRef;
use zoom::Zoom;

/// Size of the chart until it is measured, for what needs one before it is drawn: a tablet held upright.
const FIRST_SIZE: (f64, f64) = (780.0, 520.0);

/// Id of what clips the curves to the bands.
const IN_SIGHT: &str = "in-sight";
/// Pixels beyond the bands that curves may still be seen in, so that the line's ends are not cut.
const EDGE: f64 = 3.0;

/// The chart on the bench. It is drawn once the room for it is known, and before the browser shows anything: drawn for another
/// size first, nearly all of it would be made twice.
#[component]
pub(crate) fn Chart() -> impl IntoView {
    let bench = bench();
    let measured = RwSignal::new(None);
    let (holder, chart) = (NodeRef::<leptos::html::Div>::new(), ChartRef::new());
    holder.on_load(move |holder| {
        measured.set(Some(element_size::of(&holder)));
        element_size::watch(&holder, move |size| measured.set(Some(size)));
    });
    let size = Memo::new(move |_| measured.get().unwrap_or(FIRST_SIZE));
    let is_measured = Memo::new(move |_| measured.with(Option::is_some));
    // The scale follows the settled design: while a finger drags, the paper stays where it is.
    let paper = Memo::new(move |before: Option<&Scale>| {
        let (units, size) = (bench.units.get(), size.get());
        let scale = bench.settled.with(|design| {
            let plan = bench.settled_plan.read();
            Scale::of(design, &plan, units, size)
        });
        let scale = bench.ghost.with(|ghost| with_room(scale, ghost.as_ref()));
        before.map_or(scale, |before| scale.keeping_paper_of(before))
    });
    let scale = Memo::new(move |_| {
        let line = bench.settled_plan.with(|plan| plan.length);
        let (paper, sight) = (paper.get(), bench.sight.get());
        sight.map_or(paper, |sight| paper.with_visible(sight.within(line)))
    });
    let (scale, plan): (Signal<Scale>, Signal<Arc<Plan>>) = (scale.into(), bench.plan.into());
    let shapes = curve::Shapes::of(bench, scale);
    let zoom = Zoom {
        chart,
        bench,
        scale,
        pinch: StoredValue::new(None),
    };
    let focused = RwSignal::new(None);
    view! {
        <div class="tools">
            <UndoButtons />
            <zoom::ZoomButtons scale />
        </div>
        <readout::Readout />
        <div class="chart" node_ref=holder>
            <Deferred><sliders::PointSliders focused /></Deferred>
            {move || is_measured.get().then(|| view! { <ChartDrawing zoom shapes focused plan /> })}
            <readout::HeldMessage scale />
        </div>
    }
}

/// What is drawn on the chart.
#[component]
fn ChartDrawing(
    zoom: Zoom,
    shapes: curve::Shapes,
    focused: RwSignal<Option<usize>>,
    plan: Signal<Arc<Plan>>,
) -> impl IntoView {
    let Zoom {
        chart,
        bench,
        scale,
        ..
    } = zoom;
    view! {
        <svg
            node_ref=chart
            viewBox=move || view_box(&scale)
            role="group"
            aria-label="Profile of the line, threads and braid angle along its length"
            on:pointermove=move |event| scale.with_untracked(|scale| readout::follow(&event, chart, bench, scale))
            on:click=move |event| scale.with_untracked(|scale| readout::tap(&event, chart, bench, scale))
            on:pointerleave=move |_| bench.cursor.set(Cursor::Point)
            on:wheel=move |event| zoom.wheel(&event)
            on:touchstart=move |event| zoom.touched(&event)
            on:touchmove=move |event| zoom.pinched(&event)
            on:touchend=move |_| zoom.released()
            on:touchcancel=move |_| zoom.released()
        >
            <clipPath id=IN_SIGHT>
                {move || scale.with(|scale| view! {
                    <rect x=LEFT - EDGE y="0" width=scale.band_width() + 2.0 * EDGE height=scale.height />
                })}
            </clipPath>
            <frame::Frame scale />
            <g clip-path=format!("url(#{IN_SIGHT})")>
                <guides::Guides scale />
                <curve::Curves of=shapes />
            </g>
            <curve::Captions plan scale />
            <readout::Crosshair scale />
            <handles::Handles chart scale shapes focused />
        </svg>
    }
}

/// Undo and redo, always in view.
#[component]
fn UndoButtons() -> impl IntoView {
    let bench = bench();
    view! {
        <div class="change" role="group" aria-label="What was done">
            <button data-action="undo" disabled=move || !bench.can_undo() on:click=move |_| bench.undo()>
                "Undo"
            </button>
            <button data-action="redo" disabled=move || !bench.can_redo() on:click=move |_| bench.redo()>
                "Redo"
            </button>
        </div>
    }
}

/// The scale, with room for the line to compare with, however long and thick that is.
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
