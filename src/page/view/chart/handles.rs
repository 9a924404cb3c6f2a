//! The handles of the control points. They sit on either edge of the silhouette where two would cover each other; the silhouette
//! is the same on both. Only those that have room are drawn.

use leptos::ev;
use leptos::prelude::*;
use web_sys::Element;

use super::curve::Shapes;
use super::drag::Dragging;
use super::drawn_handles::{DrawnHandles, Spot};
use super::loupe::{Loupe, WishMark};
use super::pointer::ChartRef;
use super::tag::HandTag;
use crate::page::browser::written::Written;
use crate::page::view::bench::{Bench, Cursor, bench};
use crate::page::view::window_events::on_window;
use crate::paper::chart::grip::{REACH, RING};
use crate::paper::chart::point_arrow::PointArrow;
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
    let on_page = OnPage::of(handles);
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
                <Handle index bench on_page focused />
            </For>
        </g>
        <PointArrows handles />
        <WishMark scale handles now />
        <Loupe scale shapes handles now />
        <HandTag scale handles now />
    }
}

/// Arrows from the handles, while the maker wants them.
#[component]
fn PointArrows(handles: DrawnHandles) -> impl IntoView {
    let bench = bench();
    let path = Memo::new(move |_| {
        bench.arrows.with(|arrows| {
            let of = |(index, arrow): (usize, &PointArrow)| {
                let (spot, is_in_sight) = handles.spot(index)?;
                let edge = handles.edge(index)?;
                is_in_sight.then(|| arrow.path(spot, edge))
            };
            arrows.iter().enumerate().filter_map(of).collect::<String>()
        })
    });
    view! { <path class="point-arrows" data-arrows="" aria-hidden="true" d=path /> }
}

/// The handles on the page. One effect moves them all.
#[derive(Clone, Copy)]
struct OnPage {
    handles: DrawnHandles,
    elements: StoredValue<Vec<(usize, Element, Written)>, LocalStorage>,
}

impl OnPage {
    fn of(handles: DrawnHandles) -> Self {
        let elements: StoredValue<Vec<(usize, Element, Written)>, _> =
            StoredValue::new_local(Vec::new());
        Effect::new(move |_| {
            handles.spots.with(|spots| {
                elements.update_value(|elements| {
                    elements.retain(|(_, element, _)| element.is_connected());
                    for (index, _, written) in elements {
                        put(written, spots.get(*index).copied().flatten());
                    }
                });
            });
        });
        Self { handles, elements }
    }

    fn add(self, index: usize, element: Element) {
        let mut written = Written::of(element.clone());
        put(&mut written, self.handles.spot(index));
        self.elements
            .update_value(|elements| elements.push((index, element, written)));
    }
}

/// Puts a handle in its place. One that is about to be removed stays where it was.
fn put(handle: &mut Written, spot: Option<Spot>) {
    if let Some(((x, y), is_in_sight)) = spot {
        handle.set("transform", &format!("translate({x:.1} {y:.1})"));
        handle.set("display", if is_in_sight { "inline" } else { "none" });
    }
}

#[component]
fn Handle(
    index: usize,
    bench: Bench,
    on_page: OnPage,
    focused: RwSignal<Option<usize>>,
) -> impl IntoView {
    let handle = NodeRef::<leptos::svg::G>::new();
    handle.on_load(move |element| on_page.add(index, element.into()));
    let is_chosen = move || bench.chosen.get() == index;
    let is_held = Memo::new(move |_| {
        bench
            .drag
            .with(|drag| drag.is_some_and(|drag| drag.is_held() && drag.index() == index))
    });
    let is_focused = move || focused.get() == Some(index);
    view! {
        <g
            node_ref=handle
            class="handle"
            class:chosen=is_chosen
            class:dragged=move || is_held.get()
            class:focused=is_focused
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
