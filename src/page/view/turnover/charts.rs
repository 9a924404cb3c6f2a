//! What changes along the cast: the speed of the loop, and the mass that still moves.

use leptos::prelude::*;

use super::state::Casts;
use crate::base::choice::Choice as _;
use crate::page::browser::element_size;
use crate::page::view::bench::bench;
use crate::paper::chart::cast_chart::{AxisFigure, CastChart, CastQuantity, HEIGHT, cast_chart};

/// Width until it is measured, in pixels.
const USUAL_WIDTH: f64 = 640.0;

/// Both charts.
#[component]
pub(super) fn Charts(casts: Casts) -> impl IntoView {
    let holder = NodeRef::<leptos::html::Div>::new();
    let width = element_size::width(holder, USUAL_WIDTH);
    view! {
        <section class="card" aria-label="Along the cast">
            <div node_ref=holder>
                {CastQuantity::ALL.iter().map(|&of| view! { <Chart casts of width /> }).collect_view()}
            </div>
            <p class="hint cast-key">
                <span class="own">"this line"</span>
                {move || casts.title.get().map(|title| view! { <span class="other">{title}</span> })}
                <span class="leader">"loop of this line at the leader"</span>
            </p>
        </section>
    }
}

#[component]
fn Chart(casts: Casts, of: CastQuantity, width: RwSignal<f64>) -> impl IntoView {
    let units = bench().units;
    let chart = Memo::new(move |_| {
        casts.of_any(|own, other| cast_chart(of, own, other, units.get(), width.get()))
    });
    move || chart.get().map(|chart| drawing(of, chart))
}

fn drawing(of: CastQuantity, chart: CastChart) -> impl IntoView {
    let CastChart {
        width,
        sides: (left, right),
        edges: (top, bottom),
        own,
        other,
        leader,
        values,
        lengths,
        caption,
        foot,
    } = chart;
    let value = |(y, text): AxisFigure| {
        view! {
            <line class="frame" x1=left x2=right y1=y y2=y />
            <text class="last" x=left - 8.0 y=y + 5.0>{text}</text>
        }
    };
    let length = |(x, text): AxisFigure| {
        view! { <text class="middle" x=x y=bottom + 20.0>{text}</text> }
    };
    let said = format!("{}, along the cast", of.name());
    view! {
        <svg class="cast-chart" role="img" aria-label=said data-cast-chart=of.key() viewBox=format!("0 0 {width:.0} {HEIGHT:.0}") width=width height=HEIGHT>
            <text x="4" y=top - 14.0>{caption}</text>
            <text class="last" x=right y=top - 14.0>{foot}</text>
            {values.into_iter().map(value).collect_view()}
            {lengths.into_iter().map(length).collect_view()}
            <line class="leader" x1=leader x2=leader y1=top y2=bottom />
            <path class="other" d=other />
            <path class="own" d=own />
        </svg>
    }
}
