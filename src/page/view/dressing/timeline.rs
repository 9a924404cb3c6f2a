//! The steps on a strip of days.

use leptos::prelude::*;

use super::days::days;
use crate::base::choice::Choice as _;
use crate::page::browser::clock;
use crate::page::view::bench::bench;
use crate::paper::chart::timeline::{Bar, DateLabel, timeline};
use crate::plan::days::dates::StepStatus;

/// Height of a step on the strip, and of the marks below, in pixels.
const ROW: f64 = 14.0;
const MARKS: f64 = 24.0;

/// The strip.
#[component]
pub(super) fn Timeline() -> impl IntoView {
    let (bench, days) = (bench(), days());
    let strip = move || {
        let dated = days.all();
        let strip = timeline(&dated, clock::today())?;
        let names: Vec<&str> = bench.settled.with(|design| {
            let steps = design.draft().recipe.iter();
            steps.map(|step| step.kind.name()).collect()
        });
        let height = ROW * strip.bars.len() as f64;
        let bars = strip.bars.iter().zip(&dated).zip(names).enumerate();
        let bars = bars.map(|(row, ((bar, dated), name))| {
            let is_done = matches!(dated.status, StepStatus::Done { .. });
            step(row, bar, is_done, name)
        });
        let bars = bars.collect_view();
        let marks = strip
            .labels
            .iter()
            .map(|it| mark(it, height))
            .collect_view();
        let today = strip.today.map(|at| {
            let x = percent(at);
            view! { <line class="today" x1=x.clone() x2=x y1="0" y2=height /> }
        });
        Some(view! {
            <svg class="strip" height=height + MARKS role="img" aria-label="The steps on a strip of days; filled where done">
                {marks}
                {bars}
                {today}
            </svg>
        })
    };
    view! { {strip} }
}

fn percent(share: f64) -> String {
    format!("{:.3}%", share * 100.0)
}

fn step(row: usize, bar: &Bar, is_done: bool, name: &'static str) -> impl IntoView + use<> {
    let y = ROW * row as f64 + 2.0;
    view! {
        <rect class:done=is_done x=percent(bar.from) width=percent(bar.to - bar.from) y=y height=ROW - 4.0>
            <title>{name}</title>
        </rect>
    }
}

fn mark(mark: &DateLabel, height: f64) -> impl IntoView + use<> {
    let x = percent(mark.at);
    let is_late = mark.at > 0.85;
    view! {
        <line class="mark" x1=x.clone() x2=x.clone() y1="0" y2=height + 6.0 />
        // Near the right edge it is written before its mark.
        <text class:late=is_late x=x y=height + MARKS - 4.0>{mark.text.clone()}</text>
    }
}
