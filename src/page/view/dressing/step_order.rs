//! The list of steps itself: their order, their number.

use leptos::prelude::*;

use super::focus::{follow, go_on};
use crate::base::choice::Choice as _;
use crate::braid::recipe::StepKind;
use crate::edit::Edit;
use crate::page::view::bench::bench;

/// What can be done with a step as a whole.
#[component]
pub(super) fn StepOrder(index: usize) -> impl IntoView {
    let bench = bench();
    let count = Memo::new(move |_| bench.settled.with(|design| design.draft().recipe.len()));
    let is_last = move || index + 1 >= count.get();
    view! {
        <div class="step-buttons order">
            <button
                data-action="step-earlier"
                disabled=index == 0
                on:click=move |_| {
                    bench.commit_or_say(Edit::SwapSteps(index.saturating_sub(1)));
                    follow(index.saturating_sub(1), "step-earlier");
                }
            >
                "Move earlier"
            </button>
            <button
                data-action="step-later"
                disabled=is_last
                on:click=move |_| {
                    bench.commit_or_say(Edit::SwapSteps(index));
                    follow(index + 1, "step-later");
                }
            >
                "Move later"
            </button>
            <button
                data-action="step-remove"
                on:click=move |_| {
                    bench.commit_or_say(Edit::RemoveStep(index));
                    go_on(index);
                }
            >
                "Remove step"
            </button>
            <KindChoice label="Add a step after this" action="add-behind" at=index + 1 />
        </div>
    }
}

/// Adds a step at the end.
#[component]
pub(super) fn AddStep() -> impl IntoView {
    view! { <KindChoice label="Add a step at the end" action="add-step" at=usize::MAX /> }
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
