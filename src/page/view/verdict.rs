//! How far the line is from its class, how sure that is, and what it rests on.

use leptos::prelude::*;

use super::bench::bench;
use super::book::{next_words, open_book};
use super::places::places;
use super::sheet_kind::SheetKind;
use crate::base::units::show;
use crate::design::parameters::DraftLearned;
use crate::page::places::Place;
use crate::paper::figures::{prediction_detail, range_detail, verdict_detail, verdict_title};
use crate::paper::words;
use crate::plan::Plan;

/// The verdict.
#[component]
pub(crate) fn VerdictBlock() -> impl IntoView {
    let (bench, open_book, places) = (bench(), open_book(), places());
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
    // Calculated only while it is seen.
    let next = Memo::new(move |_| {
        let is_seen = bench.sheet.get() == Some(SheetKind::Figures);
        is_seen.then(|| next_words(bench, open_book)).flatten()
    });
    view! {
        <section class="verdict" aria-label="Line class">
            <h3>{move || bench.plan.with(|plan| verdict_title(&plan.verdict))}</h3>
            <p class="detail" data-figure="class-off" data-si=move || off().unwrap_or_default()>{detail}</p>
            <p class="drawn" data-figure="head-drawn-mass" data-si=move || drawn_si().unwrap_or_default()>
                {drawn_words}
            </p>
            <p class="likely"><b data-figure="prediction" data-si=spread>{prediction}</b>" "{known}</p>
            <Show when=move || has_moved.get()>
                <p class="moved">
                    "The bench book has learnt more since this line was planned. "
                    <button data-action="show-moved" on:click=move |_| places.go(Place::Weigh)>"See what changes"</button>
                </p>
            </Show>
            {move || next.get().map(|next| view! {
                <p data-next-for-class="">{next}</p>
                <div class="step-buttons">
                    <button data-action="measure-next" on:click=move |_| places.go(Place::Weigh)>"Measure next"</button>
                </div>
            })}
            <p class="drawn" data-figure="class-range">{range}</p>
        </section>
    }
}

/// What the prediction is based on.
fn known_words(learned: Option<&DraftLearned>) -> String {
    match learned {
        None => "with these settings.".to_owned(),
        Some(learned) => format!(
            "after {} swatches and {} lines.",
            learned.swatches, learned.lines
        ),
    }
}
