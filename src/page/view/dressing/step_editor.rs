//! Changing the steps: their values, their order, their number.

use leptos::prelude::*;

use super::focus::{follow, go_on};
use crate::base::choice::Choice as _;
use crate::base::units::Pressure;
use crate::base::units::text::{Unit, read};
use crate::braid::recipe::{DraftStep, Heat, StepKind, StepValue};
use crate::edit::Edit;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::entries::{Entries, EntryGroup};
use crate::page::view::field::{ChoiceField, NumberField, TextField};

/// The values of a step, and what can be done with it as a whole.
#[component]
pub(super) fn StepEditor(index: usize, kind: StepKind) -> impl IntoView {
    let bench = bench();
    let count = Memo::new(move |_| bench.settled.with(|design| design.draft().recipe.len()));
    let is_last = move || index + 1 >= count.get();
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
        <div class="step-buttons">
            <button
                data-action="step-earlier"
                disabled=index == 0
                on:click=move |_| {
                    bench.commit_or_say(Edit::SwapSteps(index.saturating_sub(1)));
                    follow(index.saturating_sub(1), "step-earlier");
                }
            >
                "Earlier"
            </button>
            <button
                data-action="step-later"
                disabled=is_last
                on:click=move |_| {
                    bench.commit_or_say(Edit::SwapSteps(index));
                    follow(index + 1, "step-later");
                }
            >
                "Later"
            </button>
            {kind.is_oil().then(|| view! {
                <button data-action="add-coat" on:click=move |_| { bench.commit_or_say(Edit::AddCoat(next_work(bench, index))); }>
                    "Oil once more"
                </button>
            })}
            <AddAfter index />
            <button
                data-action="step-remove"
                on:click=move |_| {
                    bench.commit_or_say(Edit::RemoveStep(index));
                    go_on(index);
                }
            >
                "Take out"
            </button>
        </div>
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
            label="or what the gauge shows"
            action="step-gauge"
            numeric=true
            unit=Signal::stored(Unit::Millibar.symbol().to_owned())
            ground="A gauge shows the difference to the air around it, so what is left hangs on that air: set it under “What you work with”, Dressing. mbar unless you write bar, kPa, inHg, mmHg or psi."
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
            ground="A cupboard that cannot become hotter than it should may be left alone; an oven may not."
            value=Signal::derive(move || step_now(bench, index).heat)
            commit=move |heat: Heat| commit_with(bench, index, |step| step.heat = heat)
        />
    }
}

/// Adds a step after this one.
#[component]
fn AddAfter(index: usize) -> impl IntoView {
    view! { <KindChoice label="add behind this" action="add-behind" at=index + 1 /> }
}

/// Adds a step at the end.
#[component]
pub(super) fn AddStep() -> impl IntoView {
    view! { <KindChoice label="add a step at the end" action="add-step" at=usize::MAX /> }
}

/// Kinds of step to choose from; the one chosen is put before the step of the index `at`.
#[component]
fn KindChoice(label: &'static str, action: &'static str, at: usize) -> impl IntoView {
    let bench = bench();
    let add = move |key: String| {
        let Some(kind) = StepKind::from_key(&key) else {
            return;
        };
        bench.commit_or_say(Edit::AddStep(at, kind));
    };
    let option = |kind: &StepKind| view! { <option value=kind.key()>{kind.name()}</option> };
    view! {
        <label class="choice">
            <span>{label}</span>
            <select
                data-action=action
                on:change:target=move |event| {
                    let select = event.target();
                    add(select.value());
                    select.set_value("");
                }
            >
                <option value="" selected=true>"choose"</option>
                {StepKind::ALL.iter().map(option).collect_view()}
            </select>
        </label>
    }
}
