//! The class the line makes, large, with a ruler of the bands around it.

use leptos::prelude::*;

use super::bench::bench;
use super::book::desk;
use super::overlay::Sheet;
use super::{scroll_to, words};
use crate::chart::ruler::{Ruler, ruler};
use crate::figures::{prediction_detail, range_detail, verdict_detail, verdict_title};
use crate::parameters::DraftLearned;
use crate::plan::Plan;
use crate::units::show;

/// The verdict.
#[component]
pub(crate) fn VerdictBlock() -> impl IntoView {
    let (bench, desk) = (bench(), desk());
    let number = move || {
        bench
            .plan
            .with(|plan| plan.verdict.number())
            .map_or_else(String::new, |n| n.to_string())
    };
    let detail = move || {
        bench
            .plan
            .with(|plan| verdict_detail(plan, bench.units.get()))
    };
    let off = move || {
        bench
            .plan
            .with(|plan| plan.off_target().map(|off| off.kilograms().to_string()))
    };
    let drawn = move || bench.plan.with(|plan| plan.head_drawn);
    let drawn_si = move || drawn().map(|mass| mass.kilograms().to_string());
    let drawn_words = move || {
        let reason = bench
            .plan
            .with(|plan| words::why_not_as_drawn(&plan.notices));
        let words = |mass| {
            format!(
                "Exactly as drawn it would be {}; {reason}.",
                show::grains(mass)
            )
        };
        drawn().map(words)
    };
    // Said once a change is finished, so that a drag is not a stream of words.
    let spoken = move || {
        let plan = bench.settled_plan.read();
        format!(
            "{}. {} {}",
            verdict_title(&plan.verdict),
            verdict_detail(&plan, bench.units.get()),
            grave(&plan).unwrap_or_default()
        )
    };
    let range = move || bench.plan.with(range_detail);
    let prediction = move || bench.plan.with(prediction_detail);
    let spread = move || {
        let spread = |plan: &Plan| Some(plan.prediction.as_ref()?.spread.kilograms().to_string());
        bench.plan.with(spread).unwrap_or_default()
    };
    let known = move || {
        bench
            .settled
            .with(|design| known_words(design.draft().learned.as_ref()))
    };
    // The book is asked only where the line is at home in it: learning takes its time.
    let has_moved = Memo::new(move |_| {
        bench.settled.with(|design| {
            let home = &design.draft().workshop;
            let is_open = !home.is_empty() && desk.workshop.with(|book| book.name == *home);
            is_open && !desk.estimate.read().moved_on(design).is_empty()
        })
    });
    let warning = move || bench.plan.with(grave);
    view! {
        <section class="verdict" aria-label="Line class">
            <div class="title-line">
                <p class="class" data-figure="class" data-si=number>
                    {move || bench.plan.with(|plan| verdict_title(&plan.verdict))}
                </p>
                <p class="warning">
                    {move || warning().map(|heading| view! {
                        <button data-action="show-notices" on:click=move |_| scroll_to("notices")>{heading}</button>
                    })}
                </p>
            </div>
            <p class="detail" data-figure="class-off" data-si=move || off().unwrap_or_default()>{detail}</p>
            <ClassRuler />
            <p class="spoken" role="status">{spoken}</p>
            <p class="drawn" data-figure="head-drawn-mass" data-si=move || drawn_si().unwrap_or_default()>
                {drawn_words}
            </p>
            <p class="likely"><b data-figure="prediction" data-si=spread>{prediction}</b>" "{known}</p>
            <Show when=move || has_moved.get()>
                <p class="moved">
                    "The bench book has moved on since this line was planned. "
                    <button data-action="show-moved" on:click=move |_| bench.sheet.set(Some(Sheet::Book))>"See what it says now"</button>
                </p>
            </Show>
            <p class="drawn" data-figure="class-range">{range}</p>
        </section>
    }
}

/// What the chance rests on.
fn known_words(learned: Option<&DraftLearned>) -> String {
    match learned {
        None => "by the settings alone; measure a swatch, and the book narrows it.".to_owned(),
        Some(learned) => format!(
            "by what {} swatches and {} lines taught.",
            learned.swatches, learned.lines
        ),
    }
}

/// The heading of the first notice that stands in the way of braiding.
fn grave(plan: &Plan) -> Option<&'static str> {
    let notice = plan.notices.iter().find(|notice| words::is_grave(notice));
    notice.map(words::heading)
}

/// Bands of the classes near the head's weight, and a pointer at it.
#[component]
fn ClassRuler() -> impl IntoView {
    let bench = bench();
    let shown = Memo::new(move |_| bench.plan.with(|plan| plan.head_mass.map(ruler)));
    view! { {move || shown.get().map(|ruler| view! { <Bands ruler /> })} }
}

#[component]
fn Bands(ruler: Ruler) -> impl IntoView {
    let percent = |share: f64| format!("{:.2}%", share * 100.0);
    let bands = ruler.bands.iter().map(|band| {
        let middle = percent(0.5 * (band.from + band.to));
        view! {
            <rect x=percent(band.from) width=percent(band.to - band.from) y="14" height="18" class:here=band.holds />
            <text x=middle y="50">{band.class.number.to_string()}</text>
        }
    });
    let bands = bands.collect_view();
    let pointer = percent(ruler.pointer);
    view! {
        <svg class="ruler" height="56" role="img" aria-label="Bands of the nearest classes, with the weight of the head">
            {bands}
            <line x1=pointer.clone() x2=pointer.clone() y1="4" y2="36" />
            <circle cx=pointer cy="6" r="5" />
        </svg>
    }
}
