//! How even the line is along its length, and what is odd about it.

use leptos::prelude::*;

use super::state::PhotoState;
use crate::page::browser::element_size;
use crate::page::view::bench::bench;
use crate::paper::chart::evenness::{EvennessChart, HEIGHT, Strip, evenness_chart};
use crate::paper::words::photo as words;

/// Width until it is measured, in pixels.
const USUAL_WIDTH: f64 = 640.0;

/// Angle and diameter piece by piece.
#[component]
pub(super) fn Evenness(state: PhotoState) -> impl IntoView {
    let units = bench().units;
    let holder = NodeRef::<leptos::html::Div>::new();
    let width = element_size::width(holder, USUAL_WIDTH);
    // A diameter that is only believed says nothing of the pieces that a share does not say.
    let diameter = move || state.measured_diameter();
    let chart = Memo::new(move |_| {
        let diameter = diameter();
        state.with_reading(|reading| evenness_chart(reading, diameter, units.get(), width.get()))?
    });
    let said = Memo::new(move |_| state.with_reading(words::evenness).unwrap_or_default());
    let doubts = move || {
        let doubt = |words: String| view! { <li data-photo-doubt="">"!"<span>{words}</span></li> };
        let doubts = state.with_reading(words::doubts).unwrap_or_default();
        doubts.into_iter().map(doubt).collect_view()
    };
    view! {
        <section class="card" aria-label="How even the line is">
            <h3>"How even the line is"</h3>
            <div node_ref=holder>{move || chart.get().map(|chart| drawing(chart, said.get()))}</div>
            <p>{said}</p>
            <ul class="photo-doubts">{doubts}</ul>
        </section>
    }
}

fn drawing(chart: EvennessChart, said: String) -> impl IntoView {
    let EvennessChart {
        width,
        sides,
        angles,
        diameters,
        unit,
        numbers,
        number_foot,
    } = chart;
    let number = |(x, number): (f64, usize)| {
        view! { <text class="middle" x=x y=number_foot>{number}</text> }
    };
    view! {
        <svg class="photo-chart" role="img" aria-label=said viewBox=format!("0 0 {width:.0} {HEIGHT:.0}") width=width height=HEIGHT>
            {strip(angles, sides, "angle, °".to_owned())}
            {strip(diameters, sides, format!("diameter, {unit}"))}
            {numbers.into_iter().map(number).collect_view()}
        </svg>
    }
}

fn strip(of: Strip, (left, right): (f64, f64), caption: String) -> impl IntoView {
    let figure = |(y, label): (f64, String)| {
        view! {
            <line class="frame" x1=left x2=right y1=y y2=y />
            <text class="last" x=left - 10.0 y=y + 5.0>{label}</text>
        }
    };
    view! {
        <text x="4" y=of.caption>{caption}</text>
        {of.figures.into_iter().map(figure).collect_view()}
        <line class="mean" x1=left x2=right y1=of.mean y2=of.mean />
        <path class="bars" d=of.bars />
        <path class="dots" d=of.dots />
        <path class="odd" d=of.crosses />
    }
}
