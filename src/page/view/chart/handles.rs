//! The handles of the control points. They sit on either edge of the silhouette where two would cover each other; the silhouette
//! is the same on both. Only those that have room are drawn.

use leptos::ev;
use leptos::prelude::*;

use super::curve::Shapes;
use super::drag::Dragging;
use super::drawn_handles::DrawnHandles;
use super::loupe::{Loupe, WishMark};
use super::pointer::ChartRef;
use super::tag::HandTag;
use crate::base::units::Length;
use crate::page::view::bench::{Cursor, bench};
use crate::page::view::window_events::on_window;
use crate::paper::chart::grip::{ChartPoint, Edge, REACH, RING, spot};
use crate::paper::chart::scale::Scale;

/// Radius of the dot seen, in pixels; the target round it is larger.
const DOT: f64 = 9.0;

/// Radius of the ring round the point that has the keyboard, in pixels.
const FOCUS_RING: f64 = 16.0;

/// All handles.
#[component]
pub(super) fn Handles(
    chart: ChartRef,
    scale: Signal<Scale>,
    shapes: Shapes,
    handles: DrawnHandles,
    focused: RwSignal<Option<usize>>,
) -> impl IntoView {
    let bench = bench();
    let now = bench.drag;
    let dragging = Dragging {
        chart,
        bench,
        scale,
        handles,
        coming: StoredValue::new(None),
        rest: StoredValue::new(None),
    };
    on_window(ev::keydown, move |event| {
        if event.key() == "Escape" {
            dragging.abort();
        }
    });
    // On the window, not on the handles: a drag continues wherever the pointer is, also where a browser did not let the
    // handle capture it.
    on_window(ev::pointerdown, move |event| dragging.down_anywhere(&event));
    on_window(ev::pointermove, move |event| dragging.moved(&event));
    on_window(ev::pointerup, move |event| dragging.up(&event));
    on_window(ev::pointercancel, move |event| dragging.lost(&event));
    view! {
        <g
            class="handles"
            on:pointerdown=move |event| {
                bench.cursor.set(Cursor::Point);
                dragging.down(&event);
            }
            on:touchmove=move |event| dragging.touched(&event)
            on:lostpointercapture=move |event| dragging.lost(&event)
        >
            <For each=move || handles.points.get() key=|index| *index let:index>
                <Handle index dragging focused />
            </For>
        </g>
        <WishMark scale handles now />
        <Loupe scale shapes handles now />
        <HandTag scale handles now />
    }
}

#[component]
fn Handle(index: usize, dragging: Dragging, focused: RwSignal<Option<usize>>) -> impl IntoView {
    let Dragging {
        bench,
        scale,
        handles,
        ..
    } = dragging;
    let edge = Memo::new(move |before: Option<&Edge>| {
        let edge = handles.edge(index).or(before.copied());
        edge.unwrap_or(Edge::Upper)
    });
    // Where it sits, and whether that is in sight.
    let place = Memo::new(move |before: Option<&(ChartPoint, bool)>| {
        let placed = bench.drawn(|design| {
            let point = design.draft().points.get(index)?;
            let at = Length::from_metres(point.at_m);
            scale.with(|scale| Some((spot(point, edge.get(), scale), scale.shows(at))))
        });
        // One that is about to be removed stays where it was.
        placed.unwrap_or_else(|| (before.copied().unwrap_or_default().0, false))
    });
    let transform = move || {
        let ((x, y), _) = place.get();
        format!("translate({x:.1} {y:.1})")
    };
    let is_chosen = move || bench.chosen.get() == index;
    let is_held = Memo::new(move |_| {
        bench
            .drag
            .with(|drag| drag.is_some_and(|drag| drag.is_held() && drag.index() == index))
    });
    let is_focused = move || focused.get() == Some(index);
    let is_hidden = Memo::new(move |_| !place.get().1);
    view! {
        <g
            class="handle"
            transform=transform
            class:chosen=is_chosen
            class:dragged=move || is_held.get()
            class:focused=is_focused
            class:hidden=move || is_hidden.get() && !is_held.get()
            data-held-point=move || is_held.get().then_some(index)
        >
            <circle class="focus-ring" r=FOCUS_RING />
            <circle class="dot" r=DOT />
            // On the ring a finger always drags; around it the browser may scroll the page instead.
            <g data-point=index>
                <circle class="target" r=REACH />
                <circle class="target ring" r=RING />
            </g>
        </g>
    }
}
