//! Lines of the book as planned and as weighed.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::keep::book::Workshop;
use crate::keep::book::accuracy::Accuracy;
use crate::keep::book::weighed::{PlannedWeight, WeighedLine, planned_weights, weighed_lines};
use crate::paper::chart::planned_weighed::{
    Dot, PlannedWeighed, SIZE, Step, WeighedPoint, planned_weighed,
};

/// The chart, once a line has been weighed.
#[component]
pub(super) fn WeighedChart() -> impl IntoView {
    let open_book = open_book();
    let planned = Memo::new(move |before: Option<&Vec<Option<PlannedWeight>>>| {
        let before = before.map(Vec::as_slice).unwrap_or_default();
        open_book
            .workshop
            .with(|workshop| planned_weights(workshop, before))
    });
    let lines = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        open_book.workshop.with(|workshop| {
            planned.with(|planned| weighed_lines(workshop, &estimate.doubts, planned))
        })
    });
    let shown = move || {
        let lines = lines.read();
        open_book
            .workshop
            .with(|workshop| weighed(workshop, &lines, "Your"))
    };
    view! {
        <Show when=move || lines.with(|lines| !lines.is_empty())>
            <section class="card" aria-label="Planned and weighed">
                <h2>"Planned and weighed"</h2>
                {shown}
            </section>
        </Show>
    }
}

/// The chart of some lines of a book, and in words how good their plans have been; `whose` lines they are begins a sentence.
pub(super) fn weighed(
    workshop: &Workshop,
    lines: &[WeighedLine],
    whose: &str,
) -> impl IntoView + use<> {
    let (picture, accuracy) = (planned_weighed(&points(lines))?, Accuracy::of(lines)?);
    Some(view! {
        <Picture picture words=accuracy.bias_words(whose) names=names(workshop, lines) />
        <AccuracyWords accuracy bias=accuracy.bias_words(whose) />
    })
}

fn points(lines: &[WeighedLine]) -> Vec<WeighedPoint> {
    let point = |line: &WeighedLine| WeighedPoint {
        planned: line.planned,
        weighed: line.weighed,
        margin: line.margin,
    };
    lines.iter().map(point).collect()
}

/// What each point stands for.
fn names(workshop: &Workshop, lines: &[WeighedLine]) -> Vec<String> {
    let name = |line: &WeighedLine| {
        let record = workshop.records.get(line.index);
        format!(
            "{}, {}: planned {:.0} gr, weighed {:.0} gr",
            record.map_or("", |record| record.name.as_str()),
            workshop.when(line.index),
            line.planned.grains(),
            line.weighed.grains()
        )
    };
    lines.iter().map(name).collect()
}

/// Bias, spread, and how often the range of a plan held.
#[component]
fn AccuracyWords(accuracy: Accuracy, bias: String) -> impl IntoView {
    let Accuracy { off, .. } = accuracy;
    let spread = accuracy.spread_words().map(|words| {
        view! { <p class="hint" data-figure="weighed-spread" data-si=off.deviation>{words}</p> }
    });
    let held = accuracy.held_words().map(|words| {
        view! { <p class="hint" data-figure="within-range" data-si=accuracy.held_share()>{words}</p> }
    });
    view! {
        <p data-figure="bias" data-si=off.mean>{bias}</p>
        {spread}
        {held}
        <details class="finer">
            <summary>"How these limits are calculated"</summary>
            <p class="ground">
                "Each line is compared with the plan it was made by, as a share of it. Older plans count as much as those that use what the book has learnt. The numbers in brackets are limits that hold in 95 of 100 cases. For the mean they follow from Student’s t, for the spread from chi-squared. For the share of lines within their range they follow from Wilson 1927."
            </p>
        </details>
    }
}

#[component]
fn Picture(picture: PlannedWeighed, words: String, names: Vec<String>) -> impl IntoView {
    let (width, height) = SIZE;
    let [from, to] = picture.diagonal;
    let ((left, foot), (right, top)) = (from, to);
    let margins = picture.dots.iter().map(margin).collect_view();
    let dots = picture.dots.into_iter().zip(names).map(dot);
    view! {
        <svg class="weighed-chart" role="img" aria-label=words viewBox=format!("0 0 {width} {height}")>
            <line class="frame" x1=left x2=left y1=top y2=foot />
            <line class="frame" x1=left x2=right y1=foot y2=foot />
            <line class="diagonal" x1=left x2=right y1=foot y2=top />
            {picture.steps.iter().map(|at| step(at, left, foot)).collect_view()}
            <text x=left + 4.0 y=top + 4.0>"weighed, gr"</text>
            <text class="last" x=right y=foot - 6.0>"planned, gr"</text>
            {margins}
            {dots.collect_view()}
        </svg>
        <p class="hint">"A bar shows where 95 of 100 such lines were expected."</p>
    }
}

fn step(at: &Step, left: f64, foot: f64) -> impl IntoView + use<> {
    let grains = format!("{:.0}", at.grains);
    view! {
        <line class="frame" x1=at.x x2=at.x y1=foot y2=foot + 5.0 />
        <text class="middle" x=at.x y=foot + 22.0>{grains.clone()}</text>
        <line class="frame" x1=left - 5.0 x2=left y1=at.y y2=at.y />
        <text class="last" x=left - 9.0 y=at.y + 5.0>{grains}</text>
    }
}

/// What 95 of 100 such lines weigh.
fn margin(dot: &Dot) -> impl IntoView + use<> {
    view! { <line class="margin" x1=dot.x x2=dot.x y1=dot.margin.0 y2=dot.margin.1 /> }
}

fn dot((dot, name): (Dot, String)) -> impl IntoView {
    view! {
        <circle data-weighed="" cx=dot.x cy=dot.y r="6"><title>{name}</title></circle>
    }
}
