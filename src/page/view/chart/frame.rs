//! Grid, figures and captions of the chart. All of it changes only with the scale.
//!
//! plotters draws the grid only, eight times oversized since it rounds to whole pixels, and without text: its text measuring
//! needs inline styles, which the content security policy forbids.

use leptos::prelude::*;

use crate::paper::chart::frame::{OVERSIZE, frame};
use crate::paper::chart::scale::{LEFT, Scale, Tick};

/// A chart narrower than this, in pixels, gets short captions.
const NARROW: f64 = 560.0;

/// Everything on the chart that is not the line itself.
#[component]
pub(super) fn Frame(scale: Signal<Scale>) -> impl IntoView {
    let shrink = format!("scale({})", 1.0 / f64::from(OVERSIZE));
    view! {
        <g class="grid" transform=shrink inner_html=move || scale.with(frame) aria-hidden="true"></g>
        <g class="figures-of-axes" aria-hidden="true">
            {move || scale.with(length_axis)}
            {move || scale.with(side_axes)}
        </g>
        {move || scale.with(|scale| scale.has_angles().then(|| tolerance(scale)))}
        {move || scale.with(captions)}
    }
}

fn length_axis(scale: &Scale) -> impl IntoView + use<> {
    let bottom = scale.foot();
    let unit = scale.units.position().symbol();
    let figure = |tick: Tick| view! { <text class="of-length" x=tick.at y=bottom + 18.0>{tick.label}</text> };
    view! {
        {scale.length_ticks().into_iter().map(figure).collect_view()}
        {scale.has_threads().then(|| view! {
            <text class="caption of-length" x=LEFT + scale.band_width() / 2.0 y=bottom + 36.0>
                {format!("distance from the tip, {unit}")}
            </text>
        })}
    }
}

fn side_axes(scale: &Scale) -> impl IntoView + use<> {
    let figure = |tick: Tick| view! { <text class="of-side" x=LEFT - 8.0 y=tick.at + 4.5>{tick.label}</text> };
    let mut ticks = vec![scale.diameter_ticks()];
    if scale.has_threads() {
        ticks.push(scale.thread_ticks());
    }
    if scale.has_angles() {
        ticks.push(scale.angle_ticks());
    }
    ticks.into_iter().flatten().map(figure).collect_view()
}

/// The band of angles within tolerance, and the target in it.
fn tolerance(scale: &Scale) -> impl IntoView + use<> {
    let top = scale.y_of_angle(scale.target + scale.tolerance);
    let bottom = scale.y_of_angle(scale.target - scale.tolerance);
    let target = scale.y_of_angle(scale.target);
    let right = LEFT + scale.band_width();
    view! {
        <rect class="tolerance" x=LEFT y=top width=scale.band_width() height=bottom - top />
        <line class="target" x1=LEFT x2=right y1=target y2=target />
    }
}

fn captions(scale: &Scale) -> AnyView {
    let unit = scale.units.diameter().symbol();
    let times = round(scale.magnification());
    let profile = if scale.width < NARROW {
        format!("diameter, {unit}; thickness × {times}")
    } else {
        format!("finished diameter, {unit}; thickness drawn {times} times larger than length")
    };
    let angles = if scale.width < NARROW {
        "braid angle; dashed: one gear"
    } else {
        "braid angle, with your tolerance and its gear changes; dashed: with one gear throughout"
    };
    let threads = match (scale.by_yarn, scale.width < NARROW) {
        (false, _) => "threads engaged",
        (true, true) => "threads, heavier ones as more",
        (true, false) => "threads engaged; a heavier one counts as the standard threads it weighs",
    };
    if !scale.has_threads() {
        let y = scale.profile().bottom() - 6.0;
        return view! { <text class="caption" x=LEFT + 6.0 y=y>{format!("thickness × {times}")}</text> }.into_any();
    }
    let caption =
        |x: f64, y: f64, text: String| view! { <text class="caption" x=x y=y>{text}</text> };
    view! {
        {caption(LEFT, scale.profile().bottom() + 14.0, profile)}
        {caption(LEFT, scale.staircase().top - 6.0, threads.to_owned())}
        {scale.has_angles().then(|| caption(LEFT, scale.angles().top - 6.0, angles.to_owned()))}
    }
    .into_any()
}

/// To two figures: nobody needs more of a magnification.
fn round(value: f64) -> f64 {
    let unit = 10_f64.powf(value.log10().floor() - 1.0);
    (value / unit).round() * unit
}
