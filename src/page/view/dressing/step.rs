//! One dressing step: what it is, what it takes, what the line is after it.

use leptos::prelude::*;

use super::days::days;
use super::step_days::{DoneOn, StepDays, StepStanding, StepTick};
use super::step_editor::StepEditor;
use super::step_order::StepOrder;
use crate::base::choice::Choice as _;
use crate::base::units::show::{self, Units};
use crate::braid::recipe::{Caution, StepKind};
use crate::page::view::bench::bench;
use crate::paper::words;
use crate::paper::words::ledger::{Change, Hundredths, ShownLedger, hundredths, shown, sign};
use crate::plan::days::dates::StepStatus;
use crate::plan::{CoatReport, StepReport};

/// A step; a tap opens all there is to it.
#[component]
pub(super) fn StepRow(
    index: usize,
    kind: StepKind,
    /// Whether the list of steps is being edited.
    is_edited: RwSignal<bool>,
) -> impl IntoView {
    let (bench, days) = (bench(), days());
    let row = (index, kind);
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
        let report = report.get()?;
        let coat = report.coat?;
        let ledger = ShownLedger::of(&report);
        Some(view! { <Amounts coat ledger /> })
    };
    let ledger = move || {
        let ledger = report.with(|report| report.as_ref().map(ShownLedger::of));
        let changed = ledger.filter(|ledger| !ledger.changes.is_empty());
        changed.map(|ledger| view! { <LedgerRows ledger /> })
    };
    let status = move || days.of(index).map(|dated| dated.status);
    let is_done = move || matches!(status(), Some(StepStatus::Done { .. }));
    let is_next = move || matches!(status(), Some(StepStatus::Next | StepStatus::Overdue(_)));
    view! {
        <li
            class="dress-step"
            class:done=is_done
            class:now=is_next
            data-step=kind.key()
            data-mass=move || report.with(|it| it.as_ref().map(|it| it.ledger.after.kilograms().to_string()))
        >
            <StepTick index kind />
            <details open=move || days.unfolded.with(|open| open.contains(&row)) on:toggle=move |event| days.follow(row, &event)>
                <summary>
                    <span class="number" aria-hidden="true">{move || if is_done() { "✓".to_owned() } else { (index + 1).to_string() }}</span>
                    <span class="operation">{kind.name()}</span>
                    <span class="after">{of(short_after)}</span>
                    <span class="step-facts">
                        <StepDays index />
                        <span class="step-values">{of(values)}</span>
                        <StepStanding index />
                        {dangers(kind)}
                    </span>
                </summary>
                <div class="more">
                    <DoneOn index />
                    <p>{kind.sentence()}</p>
                    <p><b>"Ready: "</b>{kind.ready()}</p>
                    {amounts}
                    {ledger}
                    <p class="after-words">{of(after)}</p>
                    <Cautions of=kind.cautions() />
                    <StepEditor index kind />
                </div>
            </details>
            <Show when=move || is_edited.get()>
                <StepOrder index />
            </Show>
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

/// What the line weighs after it, where that has changed.
fn short_after(report: &StepReport, _: Units) -> String {
    let ledger = ShownLedger::of(report);
    if ledger.changes.is_empty() {
        String::new()
    } else {
        format!("weighs {}", shown(ledger.after))
    }
}

fn after(report: &StepReport, units: Units) -> String {
    let head = report
        .head
        .map(|head| format!(", the first 30 ft {}", show::mass(head)));
    let wet = if report.is_wet { ", still wet" } else { "" };
    let filled = if report.filled > 0.0 {
        format!(
            " Voids filled: {}; if evenly spread, the filling ends {} below the outermost thread.",
            show::percent(report.filled),
            words::depth(report.below, units),
        )
    } else {
        String::new()
    };
    format!(
        "The whole line then weighs {}{}{wet}; {} thick in the belly, {:.2} g/cm³.{filled}",
        show::grams(report.ledger.after),
        head.unwrap_or_default(),
        units.show_diameter(report.diameter),
        report.bulk_density.grams_per_cubic_centimetre(),
    )
}

/// What is poured into the jar, what the line takes up, and what remains of it.
#[component]
fn Amounts(coat: CoatReport, ledger: ShownLedger) -> impl IntoView {
    let names = ["pour", "the line takes up", "left over"];
    let rows = names.into_iter().zip(words::coat_parts(&coat, &ledger));
    let rows = rows.filter(|(_, parts)| !parts.is_empty());
    let row = |(name, parts): (&'static str, Vec<String>)| {
        view! { <div><dt>{name}</dt><dd>{parts.join(" and ")}</dd></div> }
    };
    let fill = show::percent(coat.fill);
    let fills = coat.bound.map_or_else(
        || format!("{fill} of the voids still empty"),
        |bound| {
            let bound = show::percent(bound);
            format!("{fill} of the voids still empty; this vacuum lets in {bound} at most")
        },
    );
    view! {
        <dl class="amounts">
            {rows.map(row).collect_view()}
            <div><dt>"fills"</dt><dd>{fills}</dd></div>
            <div><dt>"once dry"</dt><dd>{shown(hundredths(coat.dry))}", the whole line"</dd></div>
        </dl>
    }
}

/// The mass of the line before the step, what it changes, and the mass after it: the figures add up as they stand.
#[component]
fn LedgerRows(ledger: ShownLedger) -> impl IntoView {
    let row = |(change, mass): (Change, Hundredths)| {
        let words = format!("{} {}", sign(mass), shown(mass));
        view! { <div data-change=mass><dt>{change.name()}</dt><dd>{words}</dd></div> }
    };
    let after = if ledger.is_wet {
        "after this step, wet"
    } else {
        "after this step"
    };
    view! {
        <dl class="amounts ledger">
            <div data-before=ledger.before><dt>"before this step"</dt><dd>{shown(ledger.before)}</dd></div>
            {ledger.changes.into_iter().map(row).collect_view()}
            <div class="sum" data-after=ledger.after><dt>{after}</dt><dd>{shown(ledger.after)}</dd></div>
        </dl>
    }
}
