//! The class of the line with its weight and band, in view in every place and during every drag. A tap opens all figures.

use leptos::prelude::*;

use super::bench::bench;
use super::icon::{Glyph, Icon};
use super::ruler::ClassRuler;
use super::sheet_kind::SheetKind;
use crate::base::units::show;
use crate::paper::figures::{
    class_chance, is_class_likely, verdict_brief, verdict_detail, verdict_short, verdict_title,
};
use crate::paper::words;

/// The button.
#[component]
pub(crate) fn ClassButton() -> impl IntoView {
    let bench = bench();
    let number = move || {
        let number = bench.plan.with(|plan| plan.verdict.number());
        number.map_or_else(String::new, |number| number.to_string())
    };
    let title = move || bench.plan.with(|plan| verdict_title(&plan.verdict));
    let short = move || bench.plan.with(|plan| verdict_short(&plan.verdict));
    let weight = move || bench.plan.with(|plan| plan.head_mass.map(show::grains));
    let brief = move || bench.plan.with(|plan| verdict_brief(plan));
    let chance = move || {
        let chance = bench.plan.with(|plan| class_chance(plan));
        chance.map(|chance| chance.to_string()).unwrap_or_default()
    };
    let is_within = Memo::new(move |_| bench.plan.with(|plan| plan.verdict.number().is_some()));
    let is_likely = Memo::new(move |_| bench.plan.with(|plan| is_class_likely(plan)));
    let warnings = Memo::new(move |_| {
        bench
            .plan
            .with(|plan| words::warnings(&plan.notices).count())
    });
    let said = move || warning_words(warnings.get());
    view! {
        <button
            class="class-button"
            class:likely=is_likely
            class:off=move || !is_within.get()
            data-action=SheetKind::Figures.key()
            aria-haspopup="dialog"
            on:click=move |_| bench.sheet.set(Some(SheetKind::Figures))
        >
            <span class="of-class" aria-hidden="true">"Class"</span>
            <span class="number" data-figure="class" data-si=number>
                <span class="spoken">{title}</span>
                <span aria-hidden="true">{short}</span>
            </span>
            <span class="weight">
                {weight}
                <span class="brief" data-figure="class-chance" data-si=chance>{brief}</span>
            </span>
            <ClassRuler />
            <span class="warnings" class:none=move || warnings.get() == 0 data-warnings=warnings>
                <Glyph icon=Icon::Warning />
                <span aria-hidden="true">{warnings}</span>
                <span class="spoken">{said}</span>
            </span>
        </button>
        <Spoken />
    }
}

fn warning_words(count: usize) -> String {
    match count {
        0 => String::new(),
        1 => "1 warning".to_owned(),
        count => format!("{count} warnings"),
    }
}

/// Spoken once a change is finished, so that a drag is not a stream of words. What the change was, and what it makes of the line,
/// is one message: it is read out once.
#[component]
fn Spoken() -> impl IntoView {
    let bench = bench();
    let spoken = move || {
        let plan = bench.settled_plan.read();
        let first = words::warnings(&plan.notices).next();
        format!(
            "{} {}. {} {}",
            bench.spoken.get(),
            verdict_title(&plan.verdict),
            verdict_detail(&plan, bench.units.get()),
            first.map(words::heading).unwrap_or_default()
        )
    };
    view! { <p class="spoken" role="status">{spoken}</p> }
}
