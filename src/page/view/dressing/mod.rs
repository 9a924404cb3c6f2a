//! Dressing the line: the maker's steps, what each takes and leaves, and what to beware of.

mod days;
mod focus;
mod printed_plan;
mod start;
mod states;
mod step;
mod step_days;
mod step_editor;
mod timeline;

use leptos::prelude::*;

use super::bench::bench;
use super::sheet_kind::SheetKind;
use super::terms::TermLine;
use crate::base::choice::Choice as _;
use crate::braid::recipe::{Caution, ReadyRecipe, StepKind};
use crate::edit::Edit;
use crate::paper::terms::Term;

pub(crate) use days::Days;
pub(crate) use printed_plan::DressingSheet;

/// Words this section uses.
const TERMS: [Term; 5] = [
    Term::Dressing,
    Term::Voids,
    Term::Coat,
    Term::Absolute,
    Term::Solids,
];

/// Two rows are the same row as long as the same is done at the same place in the list.
type RowKey = (usize, StepKind);

/// The dressing plan.
#[component]
pub(crate) fn Dressing() -> impl IntoView {
    let bench = bench();
    let keys = Memo::new(move |_| {
        bench.settled.with(|design| {
            let kinds = design.draft().recipe.iter().map(|step| step.kind);
            kinds.enumerate().collect::<Vec<RowKey>>()
        })
    });
    view! {
        <section class="dressing" id="dressing" aria-label="Dressing">
            <h2>"Dressing"</h2>
            <p class="hint">
                "From the braid to the finished line, for this line and your jar. Everything in blue is yours to change; days
                and degrees are common practice, no source."
            </p>
            <TermLine of=&TERMS />
            <ReadyChoice />
            <states::FinishStates />
            <start::Start />
            <ol class="steps">
                <For each=move || keys.get() key=|key| *key let:key>
                    <step::StepRow index=key.0 kind=key.1 />
                </For>
            </ol>
            <step_editor::AddStep />
            <button class="paper" data-action="dressing-sheet" on:click=move |_| bench.sheet.set(Some(SheetKind::Dressing))>
                "Dressing plan on paper"
            </button>
            <p class="caution">{Caution::DEFERRING}</p>
        </section>
    }
}

/// Recipes to begin from; choosing one replaces the steps.
#[component]
fn ReadyChoice() -> impl IntoView {
    let bench = bench();
    let now = Memo::new(move |_| {
        bench.settled.with(|design| {
            let is_it = |ready: &&ReadyRecipe| ready.steps() == design.draft().recipe;
            ReadyRecipe::ALL.iter().find(is_it).copied()
        })
    });
    let take = move |key: String| {
        if let Some(ready) = ReadyRecipe::from_key(&key) {
            // A ready recipe is valid with every air there is.
            let _ = bench.commit(Edit::Recipe(ready));
        }
    };
    let option = |ready: &ReadyRecipe| view! { <option value=ready.key()>{ready.name()}</option> };
    view! {
        <label class="choice">
            <span>"steps for a"</span>
            <select
                data-action="recipe"
                prop:value=move || now.get().map_or("", |ready| ready.key())
                on:change:target=move |event| take(event.target().value())
            >
                <option value="" disabled=true>"recipe of my own"</option>
                {ReadyRecipe::ALL.iter().map(option).collect_view()}
            </select>
        </label>
    }
}
