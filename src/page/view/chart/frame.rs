//! The grid, and the figures of the axes. All of it changes only with the scale.
//!
//! plotters draws the grid only, eight times oversized since it rounds to whole pixels, and without text: its text measuring
//! needs inline styles, which the content security policy forbids.

use leptos::prelude::*;

use crate::paper::chart::frame::{OVERSIZE, frame};
use crate::paper::chart::scale::{LEFT, Scale, Tick};

/// How far left of the bands figures end, in pixels: a handle at the edge must not cover them.
const CLEAR: f64 = 18.0;

/// The grid.
#[component]
pub(super) fn Grid(scale: Signal<Scale>) -> impl IntoView {
    let shrink = format!("scale({})", 1.0 / f64::from(OVERSIZE));
    view! { <g class="grid" transform=shrink inner_html=move || scale.with(frame) aria-hidden="true"></g> }
}

/// The figures beside it.
#[component]
pub(super) fn Figures(scale: Signal<Scale>) -> impl IntoView {
    view! {
        <g class="figures-of-axes" aria-hidden="true">
            {move || scale.with(length_axis)}
            {move || scale.with(side_axes)}
        </g>
    }
}

fn length_axis(scale: &Scale) -> impl IntoView + use<> {
    let y = scale.foot() + 20.0;
    let figure = |tick: Tick| view! { <text class="of-length" x=tick.at y=y>{tick.label}</text> };
    scale.length_ticks().into_iter().map(figure).collect_view()
}

fn side_axes(scale: &Scale) -> impl IntoView + use<> {
    let figure = |tick: Tick| view! { <text class="of-side" x=LEFT - CLEAR y=tick.at + 5.0>{tick.label}</text> };
    let mut ticks = scale.diameter_ticks();
    if scale.has_angles() {
        ticks.extend(scale.angle_ticks());
    }
    ticks.into_iter().map(figure).collect_view()
}
