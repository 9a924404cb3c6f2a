//! Under a finger: a loupe beside it with what it hides, and a mark where it points when the line cannot follow.

use leptos::prelude::*;

use super::curve::{Profile, Shapes};
use super::drawn_handles::DrawnHandles;
use crate::page::view::bench::bench;
use crate::paper::chart::drag::Drag;
use crate::paper::chart::grip::{ChartPoint, spot};
use crate::paper::chart::loupe::{self, RADIUS};
use crate::paper::chart::scale::Scale;

/// Id of the loupe's round edge.
const GLASS: &str = "loupe-glass";

/// The loupe, while a hand covers what it drags.
#[component]
pub(super) fn Loupe(
    scale: Signal<Scale>,
    shapes: Shapes,
    handles: DrawnHandles,
    now: RwSignal<Option<Drag>>,
) -> impl IntoView {
    let handle = Memo::new(move |_| {
        let index = now.with(|drag| drag.filter(Drag::is_covered).map(|drag| drag.index()))?;
        handles.spot(index).map(|(at, _)| at)
    });
    // What it shows; while it is removed, what it showed last.
    let at = Memo::new(move |before: Option<&ChartPoint>| {
        handle.get().or(before.copied()).unwrap_or_default()
    });
    let transform = move || {
        let (x, y) = scale.with(|scale| loupe::place(at.get(), (scale.width, scale.height)));
        format!("translate({x:.1} {y:.1})")
    };
    view! {
        <Show when=move || handle.with(Option::is_some)>
            <g class="loupe" aria-hidden="true" transform=transform>
                <clipPath id=GLASS>
                    <circle r=RADIUS />
                </clipPath>
                <circle class="glass" r=RADIUS />
                <g clip-path=format!("url(#{GLASS})")>
                <svg
                    x=-RADIUS
                    y=-RADIUS
                    width=2.0 * RADIUS
                    height=2.0 * RADIUS
                    viewBox=move || loupe::view_box(at.get())
                >
                    <Profile of=shapes />
                </svg>
                // What it shows has the point in its middle.
                <circle class="spot" r=loupe::SPOT />
                </g>
                <circle class="rim" r=RADIUS />
            </g>
        </Show>
    }
}

/// Where the hand wants a point that is held back.
#[component]
pub(super) fn WishMark(
    scale: Signal<Scale>,
    handles: DrawnHandles,
    now: RwSignal<Option<Drag>>,
) -> impl IntoView {
    let bench = bench();
    let wish = Memo::new(move |_| {
        now.with(Option::is_some).then_some(())?;
        let held = bench.held.get()?;
        let edge = handles.edge(held.index)?;
        Some(scale.with(|scale| spot(&held.wish, edge, scale)))
    });
    let mark = |(x, y): ChartPoint| {
        view! {
            <g class="wish" data-wish="" aria-hidden="true">
                <circle cx=x cy=y r="9" />
                <path d=format!("M{:.1} {:.1}l8 8m0 -8l-8 8", x - 4.0, y - 4.0) />
            </g>
        }
    };
    move || wish.get().map(mark)
}
