//! Dressing the line: where it stands, the maker's steps, what each takes and leaves, and what to beware of.

mod course;
mod days;
mod focus;
mod printed_plan;
mod states;
mod step;
mod step_days;
mod step_editor;
mod step_order;

use leptos::prelude::*;

use super::bench::bench;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use super::terms::TermLine;
use crate::base::choice::Choice as _;
use crate::braid::recipe::{Caution, ReadyRecipe, RecipeChoice};
use crate::edit::Edit;
use crate::paper::terms::Term;

pub(crate) use days::Days;
use days::RowKey;
pub(crate) use printed_plan::DressingSheet;

/// Words this section uses.
const TERMS: [Term; 5] = [
    Term::Dressing,
    Term::Voids,
    Term::Coat,
    Term::Absolute,
    Term::Solids,
];

/// The dressing plan.
#[component]
pub(crate) fn Dressing() -> impl IntoView {
    let bench = bench();
    let is_edited = RwSignal::new(false);
    let keys = Memo::new(move |_| {
        bench.settled.with(|design| {
            let kinds = design.draft().recipe.iter().map(|step| step.kind);
            kinds.enumerate().collect::<Vec<RowKey>>()
        })
    });
    let edit_words = move || {
        if is_edited.get() {
            "Stop editing"
        } else {
            "Edit the steps"
        }
    };
    view! {
        <section class="dressing" aria-label="Dressing">
            <course::CourseCard />
            <ol class="dress-steps card">
                <For each=move || keys.get() key=|key| *key let:key>
                    <step::StepRow index=key.0 kind=key.1 is_edited />
                </For>
            </ol>
            <div class="step-buttons below">
                <button data-action="edit-steps" aria-pressed=move || is_edited.get().to_string() on:click=move |_| is_edited.update(|it| *it = !*it)>
                    {edit_words}
                </button>
                <Show when=move || is_edited.get()>
                    <step_order::AddStep />
                </Show>
                <ReadyChoice />
                <SheetButton kind=SheetKind::Dressing>"Print the plan"</SheetButton>
            </div>
            <states::FinishStates />
            <p class="caution">{Caution::DEFERRING}</p>
            <p class="hint">"Amounts are for this line and your jar. Days and degrees are a rule of thumb, no source."</p>
            <TermLine of=&TERMS />
        </section>
    }
}

/// Recipes to begin from; choosing one replaces the steps.
#[component]
fn ReadyChoice() -> impl IntoView {
    let bench = bench();
    let now = Memo::new(move |_| {
        bench
            .settled
            .with(|design| ReadyRecipe::of(&design.draft().recipe))
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
            <span>"Steps for"</span>
            <select
                data-action="recipe"
                prop:value=move || now.get().map_or("", |ready| ready.key())
                on:change:target=move |event| take(event.target().value())
            >
                <option value="" disabled=true>{RecipeChoice::Own.name()}</option>
                {ReadyRecipe::ALL.iter().map(option).collect_view()}
            </select>
        </label>
    }
}
