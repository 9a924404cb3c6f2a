//! The class the line makes, large, with a ruler of the bands around it.

use leptos::prelude::*;

use super::bench::bench;
use super::book::open_book;
use super::deferred::TaskQueue;
use super::overlay_kind::OverlayKind;
use super::rows::Rows;
use crate::base::units::show;
use crate::design::parameters::DraftLearned;
use crate::paper::chart::ruler::{Ruler, RulerBand, ruler};
use crate::paper::figures::{prediction_detail, range_detail, verdict_detail, verdict_title};
use crate::paper::words;
use crate::plan::Plan;

/// The verdict.
#[component]
pub(crate) fn VerdictBlock() -> impl IntoView {
    let (bench, open_book, tasks) = (bench(), open_book(), expect_context::<TaskQueue>());
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
    // Spoken once a change is finished, so that a drag is not a stream of words.
    let spoken = move || {
        let plan = bench.settled_plan.read();
        format!(
            "{}. {} {}",
            verdict_title(&plan.verdict),
            verdict_detail(&plan, bench.units.get()),
            grave(&plan).unwrap_or_default()
        )
    };
    let range = move || bench.plan.with(|plan| range_detail(plan));
    let prediction = move || bench.plan.with(|plan| prediction_detail(plan));
    let spread = move || {
        let spread = |plan: &Plan| Some(plan.prediction.as_ref()?.spread.kilograms().to_string());
        bench.plan.with(|plan| spread(plan)).unwrap_or_default()
    };
    let known = move || {
        bench
            .settled
            .with(|design| known_words(design.draft().learned.as_ref()))
    };
    // The book is consulted only where the line names its workshop: learning takes time.
    let has_moved = Memo::new(move |_| {
        bench.settled.with(|design| {
            let home = &design.draft().workshop;
            let is_open = !home.is_empty() && open_book.workshop.with(|book| book.name == *home);
            is_open && !open_book.estimate.read().moved_on(design).is_empty()
        })
    });
    let warning = Memo::new(move |_| bench.plan.with(|plan| grave(plan)));
    view! {
        <section class="verdict" aria-label="Line class">
            <div class="title-line">
                <p class="class" data-figure="class" data-si=number>
                    {move || bench.plan.with(|plan| verdict_title(&plan.verdict))}
                </p>
                <p class="warning">
                    {move || warning.get().map(|heading| view! {
                        <button data-action="show-notices" on:click=move |_| tasks.scroll_to("notices")>{heading}</button>
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
                    <button data-action="show-moved" on:click=move |_| bench.overlay.set(Some(OverlayKind::Book))>"See what it says now"</button>
                </p>
            </Show>
            <p class="drawn" data-figure="class-range">{range}</p>
        </section>
    }
}

/// What the prediction is based on.
fn known_words(learned: Option<&DraftLearned>) -> String {
    match learned {
        None => "by the settings alone; measure a swatch, and the book narrows it.".to_owned(),
        Some(learned) => format!(
            "by what {} swatches and {} lines taught.",
            learned.swatches, learned.lines
        ),
    }
}

/// The heading of the first notice that prevents braiding.
fn grave(plan: &Plan) -> Option<&'static str> {
    let notice = plan.notices.iter().find(|notice| words::is_grave(notice));
    notice.map(words::heading)
}

/// Bands of the classes near the head's weight, and a pointer at it.
#[component]
fn ClassRuler() -> impl IntoView {
    let bench = bench();
    let shown = Memo::new(move |_| bench.plan.with(|plan| plan.head_mass.map(ruler)));
    let is_there = Memo::new(move |_| shown.with(Option::is_some));
    let bands = Signal::derive(move || {
        let bands = |ruler: &Ruler| ruler.bands.clone();
        shown
            .with(|ruler| ruler.as_ref().map(bands))
            .unwrap_or_default()
    });
    let pointer = move || {
        let place = shown.with(|ruler| ruler.as_ref().map(|ruler| ruler.pointer));
        place.map(percent)
    };
    view! {
        <Show when=move || is_there.get()>
            <svg class="ruler" height="56" role="img" aria-label="Bands of the nearest classes, with the weight of the head">
                <Rows of=bands row=band />
                <line x1=pointer x2=pointer y1="4" y2="36" />
                <circle cx=pointer cy="6" r="5" />
            </svg>
        </Show>
    }
}

/// A band with the number of its class.
fn band(band: Memo<RulerBand>) -> AnyView {
    let from = move || percent(band.read().from);
    let width = move || percent(band.read().to - band.read().from);
    let middle = move || percent(f64::midpoint(band.read().from, band.read().to));
    view! {
        <rect x=from width=width y="14" height="18" class:here=move || band.read().holds />
        <text x=middle y="50">{move || band.read().class.number.to_string()}</text>
    }
    .into_any()
}

fn percent(share: f64) -> String {
    format!("{:.2}%", share * 100.0)
}
