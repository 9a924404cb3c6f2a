//! The plans found as a small chart: how likely each makes the class, against how often the braider stops. A tap on a plan shows it
//! in the list, which says the same in words.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use crate::edit::finder::ThreadPlan;
use crate::page::browser::focus::reveal;
use crate::paper::chart::plan_choice::{Candidate, PlanChoice, RADIUS, SIZE, plan_choice};

/// The chart, where there is something to choose.
#[component]
pub(super) fn PlanChart(
    /// The plans recommended, best first.
    of: Memo<Vec<ThreadPlan>>,
) -> impl IntoView {
    let chart = move || {
        let candidate = |plan: &ThreadPlan| {
            Some(Candidate {
                chance: plan.chance?,
                changes: plan.changes(),
            })
        };
        let candidates = of.with(|plans| plans.iter().map(candidate).collect::<Option<Vec<_>>>());
        candidates.and_then(|candidates| plan_choice(&candidates))
    };
    move || chart().map(|chart| view! { <Chart chart /> })
}

#[component]
fn Chart(chart: PlanChoice) -> impl IntoView {
    let (width, height) = SIZE;
    let (left, foot) = chart.origin;
    let chances = chart.chances.map(|(chance, y)| {
        view! { <text class="last" x=left - 8.0 y=y + 5.0>{format!("{:.0} %", 100.0 * chance)}</text> }
    });
    let changes = chart.changes.map(|(count, x)| {
        view! { <text class="middle" x=x y=foot + 20.0>{format!("{count:.0}")}</text> }
    });
    let dots = chart.dots.into_iter().enumerate().map(dot);
    view! {
        <svg class="weighed-chart plan-chart" aria-hidden="true" viewBox=format!("0 0 {width} {height}")>
            <line class="frame" x1=left x2=left y1="0" y2=foot />
            <line class="frame" x1=left x2=width y1=foot y2=foot />
            {chances.into_iter().collect_view()}
            {changes.into_iter().collect_view()}
            <text x=left + 6.0 y="14">"chance of the class"</text>
            <text class="middle" x=f64::midpoint(left, width) y=foot + 36.0>"changes of thread and gear"</text>
            {dots.collect_view()}
        </svg>
    }
}

/// A plan: its number in the list.
fn dot((index, (x, y)): (usize, (f64, f64))) -> impl IntoView {
    view! {
        <g class="plan-dot" on:click=move |_| show(index)>
            <circle cx=x cy=y r=RADIUS />
            <text class="middle" x=x y=y + 5.0>{index + 1}</text>
        </g>
    }
}

/// Shows a plan of the list, and has its button at hand.
fn show(index: usize) {
    let button = format!(".found li:nth-child({}) button", index + 1);
    let found = document().query_selector(&button).ok().flatten();
    if let Some(button) = found.and_then(|button| button.dyn_into::<HtmlElement>().ok()) {
        reveal(&button);
    }
}
