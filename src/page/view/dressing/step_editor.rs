//! Changing the values of a step.

use leptos::prelude::*;

use crate::base::units::Pressure;
use crate::base::units::text::{Unit, read};
use crate::braid::recipe::{DraftStep, Heat, StepKind, StepValue};
use crate::edit::Edit;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::entries::{Entries, EntryGroup};
use crate::page::view::field::{ChoiceField, NumberField, TextField};

/// The values of a step; one of oil can be done once more.
#[component]
pub(super) fn StepEditor(index: usize, kind: StepKind) -> impl IntoView {
    let bench = bench();
    let values = kind
        .takes()
        .iter()
        .map(move |&value| view! { <StepField index value /> });
    view! {
        <EntryGroup entries=Entries::new()>
        <div class="fields">
            {values.collect_view()}
            {kind.takes().contains(&StepValue::Millibar).then(|| view! { <Gauge index /> })}
            {kind.is_warm().then(|| view! { <HeatChoice index /> })}
        </div>
        {kind.is_oil().then(|| view! {
            <div class="step-buttons">
                <button data-action="add-coat" on:click=move |_| { bench.commit_or_say(Edit::AddCoat(next_work(bench, index))); }>
                    "Oil once more"
                </button>
            </div>
        })}
        </EntryGroup>
    }
}

/// Where a further coat goes: after the drying and testing that follow this one.
fn next_work(bench: Bench, index: usize) -> usize {
    bench.settled.with_untracked(|design| {
        let behind = design.draft().recipe.iter().skip(index + 1);
        let belongs = |step: &&DraftStep| {
            step.kind.dries() || matches!(step.kind, StepKind::Drip | StepKind::Test)
        };
        index + 1 + behind.take_while(belongs).count()
    })
}

/// The step as it is now; where the list has just become shorter, some step.
fn step_now(bench: Bench, index: usize) -> DraftStep {
    bench.settled.with(|design| {
        let steps = &design.draft().recipe;
        let usual = DraftStep::usual(StepKind::Inspect);
        steps.get(index).copied().unwrap_or(usual)
    })
}

fn commit_with(
    bench: Bench,
    index: usize,
    change: impl FnOnce(&mut DraftStep),
) -> Result<(), String> {
    let mut step = untrack(|| step_now(bench, index));
    change(&mut step);
    bench.commit(Edit::Step(index, step))
}

#[component]
fn StepField(index: usize, value: StepValue) -> impl IntoView {
    let bench = bench();
    let rule = value.rule();
    view! {
        <NumberField
            label=rule.name
            action=action(value)
            ground=value.ground()
            value=Signal::derive(move || step_now(bench, index).get(value))
            unit=Signal::stored(rule.unit)
            decimals=2
            commit=move |number| commit_with(bench, index, |step| step.set(value, number))
        />
    }
}

const fn action(value: StepValue) -> &'static str {
    match value {
        StepValue::Hours => "step-hours",
        StepValue::Celsius => "step-celsius",
        StepValue::Millibar => "step-mbar",
        StepValue::VarnishShare => "step-varnish",
        StepValue::SolventShare => "step-solvent",
    }
}

/// What a gauge shows, turned into what is left in the jar.
#[component]
fn Gauge(index: usize) -> impl IntoView {
    let bench = bench();
    let air = move || bench.settled.with(crate::design::Design::air);
    let shown = move || {
        let left = Pressure::from_millibars(step_now(bench, index).mbar);
        (left - air()).millibars()
    };
    let take = move |text: String| {
        let gauge = read(&text, Unit::Millibar).map_err(|unread| unread.to_string())?;
        bench.commit(Edit::Gauge { index, mbar: gauge })
    };
    view! {
        <TextField
            label="or the gauge reading"
            action="step-gauge"
            numeric=true
            unit=Signal::stored(Unit::Millibar.symbol().to_owned())
            ground="A gauge shows the difference to the air around it. So the pressure left depends on that air: set it among the dressing values of your workshop. mbar unless you write bar, kPa, inHg, mmHg or psi."
            value=Signal::derive(move || crate::base::units::show::trimmed(shown(), 1))
            commit=take
        />
    }
}

#[component]
fn HeatChoice(index: usize) -> impl IntoView {
    let bench = bench();
    view! {
        <ChoiceField
            label="warmed in"
            action="step-heat"
            ground="A cupboard that cannot become too hot may be left unattended; an oven may not."
            value=Signal::derive(move || step_now(bench, index).heat)
            commit=move |heat: Heat| commit_with(bench, index, |step| step.heat = heat)
        />
    }
}
