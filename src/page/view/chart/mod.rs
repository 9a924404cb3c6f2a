//! The chart: profile, cells of threads and gears, and angle over one axis of length, with handles to drag.
//!
//! Its scale follows the settled design, and keeps its paper as long as the line still fits it, so that nothing jumps under the
//! finger; nor do breaks move there. What is drawn is one value, [`crate::paper::chart::picture::Picture`], of which a move writes
//! what changed. A low chart gives up strips from below.

mod curve;
mod drag;
mod drawn_handles;
mod frame;
mod guides;
mod handles;
mod loupe;
mod paint;
mod pointer;
mod readout;
mod ribbon;
mod sliders;
mod tag;
mod tools;
mod zoom;

use leptos::prelude::*;

use super::bench::{Bench, Cursor, Ghost, bench};
use super::deferred::Deferred;
use crate::page::browser::element_size;
use crate::paper::chart::breaks::in_sight;
use crate::paper::chart::scale::Scale;
use crate::paper::chart::scale::folds::Folds;
use crate::paper::chart::visible_range::VisibleRange;
use pointer::ChartRef;
use zoom::Zoom;

/// Size of the chart until it is measured, for what needs one before it is drawn: a tablet held upright.
const FIRST_SIZE: (f64, f64) = (780.0, 520.0);

/// Id of what clips the curves to the bands, and cuts them at breaks.
const IN_SIGHT: &str = "in-sight";

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
    let scale = scale(bench, size);
    Effect::new(move |_| note_folds(bench, scale.with(|scale| scale.folds)));
    let shapes = curve::Shapes::of(bench, scale);
    let zoom = Zoom {
        chart,
        bench,
        scale,
        pinch: StoredValue::new(None),
    };
    let focused = RwSignal::new(None);
    let handles = drawn_handles::DrawnHandles::of(bench, scale);
    view! {
        <tools::Tools scale />
        <readout::Readout />
        <div class="chart" node_ref=holder>
            <Deferred><sliders::PointSliders handles focused /></Deferred>
            {move || is_measured.get().then(|| view! { <ChartDrawing zoom shapes handles focused /> })}
            <readout::HeldMessage scale />
            <drawn_handles::Thinned handles scale />
        </div>
    }
}

/// The scale of the chart. It follows the settled design: while a finger drags, the paper stays where it is.
fn scale(bench: Bench, size: Memo<(f64, f64)>) -> Signal<Scale> {
    let paper = Memo::new(move |before: Option<&Scale>| {
        let (units, size, manner) = (bench.units.get(), size.get(), bench.chart.manner.get());
        let scale = bench.settled.with(|design| {
            let plan = bench.settled_plan.read();
            bench.ghost.with(|ghost| {
                let other = ghost
                    .as_ref()
                    .map(|Ghost { design, plan, .. }| (design, plan));
                Scale::on_chart((design, &plan), other, manner, units, size)
            })
        });
        before.map_or(scale, |before| scale.keeping_paper_of(before))
    });
    let scale = Memo::new(move |_| {
        let line = bench.settled_plan.with(|plan| plan.length);
        let (paper, sight) = (paper.get(), bench.sight.get());
        sight.map_or(paper, |sight| {
            paper.with_visible(sight.within(paper.paper_of(line)))
        })
    });
    scale.into()
}

/// Notes what is folded now. A part in sight is a part of the paper: with other folds the same place is elsewhere on it.
fn note_folds(bench: Bench, folds: Folds) {
    let before = bench.chart.folds.get_untracked();
    if before == folds {
        return;
    }
    bench.chart.folds.set(folds);
    if let Some(sight) = bench.sight.get_untracked() {
        let from = folds.paper_of(before.at_of(sight.from));
        bench.sight.set(Some(VisibleRange { from, ..sight }));
    }
}

/// What is drawn on the chart.
#[component]
fn ChartDrawing(
    zoom: Zoom,
    shapes: curve::Shapes,
    handles: drawn_handles::DrawnHandles,
    focused: RwSignal<Option<usize>>,
) -> impl IntoView {
    let Zoom {
        chart,
        bench,
        scale,
        ..
    } = zoom;
    shapes.write_each();
    let clip = move || format!("url(#{IN_SIGHT})");
    let per_metre = move || scale.with(Scale::pixels_per_metre).to_string();
    view! {
        <svg
            node_ref=chart
            viewBox=move || view_box(&scale)
            role="group"
            aria-label="Profile of the line, threads, gears and braid angle along its length"
            data-per-metre=per_metre
            on:pointermove=move |event| scale.with_untracked(|scale| readout::follow(&event, chart, bench, scale))
            on:click=move |event| scale.with_untracked(|scale| readout::tap(&event, chart, bench, scale))
            on:pointerleave=move |_| bench.cursor.set(Cursor::Point)
            on:wheel=move |event| zoom.wheel(&event)
            on:touchstart=move |event| zoom.touched(&event)
            on:touchmove=move |event| zoom.pinched(&event)
            on:touchend=move |_| zoom.released()
            on:touchcancel=move |_| zoom.released()
        >
            <paint::Paint scale />
            <clipPath id=IN_SIGHT><path d=move || scale.with(in_sight) /></clipPath>
            <g clip-path=clip><frame::Grid scale /></g>
            <frame::Figures scale />
            <g clip-path=clip>
                <guides::Guides scale />
                <curve::Curves of=shapes />
                <ribbon::Ribbon of=shapes />
            </g>
            <curve::Breaks scale />
            <curve::Notes of=shapes />
            <readout::Crosshair scale />
            <handles::Handles chart scale shapes handles focused />
        </svg>
    }
}

fn view_box(scale: &Signal<Scale>) -> String {
    scale.with(|scale| format!("0 0 {} {}", scale.width, scale.height))
}
