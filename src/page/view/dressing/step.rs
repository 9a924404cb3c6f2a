//! One dressing step: what it is, what it takes, what the line is after it.

use leptos::prelude::*;

use super::step_days::{StepDays, StepTick};
use super::step_editor::StepEditor;
use crate::base::choice::Choice as _;
use crate::base::units::show::{self, Units};
use crate::braid::recipe::{Caution, StepKind};
use crate::page::view::bench::bench;
use crate::paper::words;
use crate::plan::{CoatReport, Mixture, StepReport};

/// A step; a tap opens all there is to it.
#[component]
pub(super) fn StepRow(index: usize, kind: StepKind) -> impl IntoView {
    let bench = bench();
    let report = Memo::new(move |_| {
        bench
            .settled_plan
            .with(|plan| plan.dressing.get(index).cloned())
    });
    let of = move |what: fn(&StepReport, Units) -> String| {
        move || report.with(|report| report.as_ref().map(|it| what(it, bench.units.get())))
    };
    let warnings = move || {
        let report = report.get();
        let warnings = report.into_iter().flat_map(|report| report.warnings);
        let said = warnings.map(|warning| view! { <li>{words::step_warning(&warning)}</li> });
        said.collect_view()
    };
    let is_warned =
        move || report.with(|report| report.as_ref().is_some_and(|it| !it.warnings.is_empty()));
    let amounts = move || {
        let coat = report.with(|report| report.as_ref().and_then(|it| it.coat));
        coat.map(|coat| view! { <Amounts coat /> })
    };
    view! {
        <li class="step" data-step=kind.key() data-mass=move || report.with(|it| it.as_ref().map(|it| it.mass.kilograms().to_string()))>
            <details>
                <summary>
                    <span class="number">{index + 1}</span>
                    <span class="operation">{kind.name()}</span>
                    <span class="values">{of(values)}</span>
                    <span class="after">{of(short_after)}</span>
                    <StepDays index />
                    {dangers(kind)}
                </summary>
                <div class="more">
                    <StepTick index />
                    <p>{kind.sentence()}</p>
                    <p><b>"Ready: "</b>{kind.ready()}</p>
                    {amounts}
                    <p class="after-words">{of(after)}</p>
                    <Cautions of=kind.cautions() />
                    <StepEditor index kind />
                </div>
            </details>
            <Show when=is_warned>
                <ul class="warnings">{warnings}</ul>
            </Show>
        </li>
    }
}

/// What can hurt, in a word or two, so that it is seen before the step is opened.
fn dangers(kind: StepKind) -> Option<impl IntoView> {
    let words: Vec<&str> = kind
        .cautions()
        .iter()
        .map(|&it| words::danger(it))
        .collect();
    (!words.is_empty())
        .then(|| view! { <span class="danger">"Take care: "{words.join(", ")}</span> })
}

#[component]
fn Cautions(of: &'static [Caution]) -> impl IntoView {
    of.iter()
        .map(|caution| {
            view! {
                <p class="caution">
                    {caution.words()}
                    <cite>{caution.source()}</cite>
                </p>
            }
        })
        .collect_view()
}

fn values(report: &StepReport, _: Units) -> String {
    words::step_values(&report.step)
}

/// The line after it, where it has changed.
fn short_after(report: &StepReport, _: Units) -> String {
    let changes = report.coat.is_some() || report.step.kind.dries() || report.grease.grams() > 0.0;
    if changes {
        show::grams(report.mass)
    } else {
        String::new()
    }
}

fn after(report: &StepReport, units: Units) -> String {
    let grease = if report.grease.grams() > 0.0 {
        format!(
            "{} of grease stays on the line. ",
            show::grams(report.grease)
        )
    } else {
        String::new()
    };
    let head = report
        .head
        .map(|head| format!(", the first 30 ft {}", show::mass(head)));
    let wet = if report.is_wet { ", still wet" } else { "" };
    let filled = if report.filled > 0.0 {
        format!(
            " Voids filled: {}; evenly spread, the filling stands {} below the outermost thread.",
            show::percent(report.filled),
            words::depth(report.below, units),
        )
    } else {
        String::new()
    };
    format!(
        "{grease}The whole line then weighs {}{}{wet}; {} thick in the belly, {:.2} g/cm³.{filled}",
        show::grams(report.mass),
        head.unwrap_or_default(),
        units.show_diameter(report.diameter),
        report.bulk_density.grams_per_cubic_centimetre(),
    )
}

/// What is poured into the jar, what the line takes up, and what remains of it.
#[component]
fn Amounts(coat: CoatReport) -> impl IntoView {
    let left = coat.left();
    let rows = [
        ("pour", coat.poured),
        ("the line takes", coat.taken),
        ("left over", left),
    ];
    let is_shown = move |mixture: &Mixture| mixture.mass().grams() > 5e-3;
    let rows = rows
        .into_iter()
        .filter(move |(_, mixture)| is_shown(mixture));
    let row = |(name, mixture): (&'static str, Mixture)| {
        let parts = words::parts(&mixture).join(" and ");
        view! { <div><dt>{name}</dt><dd>{parts}</dd></div> }
    };
    let bound = coat.bound.map(|bound| {
        let (fill, bound) = (show::percent(coat.fill), show::percent(bound));
        format!("{fill} of the voids still empty; this vacuum lets in {bound} at most")
    });
    let fate = fate(&coat);
    view! {
        <dl class="amounts">
            {rows.map(row).collect_view()}
            <div><dt>"stays once dry"</dt><dd>{fate}</dd></div>
            <div><dt>"fills"</dt><dd>{bound.unwrap_or_else(|| format!("{} of the voids still empty", show::percent(coat.fill)))}</dd></div>
        </dl>
    }
}

/// What stays of a coat, and what it loses and gains as it dries; amounts of zero are left out.
fn fate(coat: &CoatReport) -> String {
    let drying = [
        (coat.evaporates, "evaporates"),
        (coat.gained, "is taken from the air"),
    ];
    let drying = drying.into_iter().filter(|(mass, _)| mass.grams() > 5e-3);
    let drying: Vec<String> = drying
        .map(|(mass, word)| format!("{} {word}", show::grams(mass)))
        .collect();
    let stays = show::grams(coat.stays);
    if drying.is_empty() {
        stays
    } else {
        format!("{stays}; {}", drying.join(", "))
    }
}
