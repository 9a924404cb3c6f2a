//! What a new maker is asked first: a few questions whose answers make the plan that of the maker's own workshop. Which they are, in
//! which order and why, is said in [`crate::edit::first_answers`].

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::field_error::FieldError;
use super::settings::{ChosenField, ConstantFinder, Number};
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use super::workshop_button::WorkshopButton;
use crate::base::choice::Choice as _;
use crate::edit::first_answers::{Asked, Question};
use crate::paper::figures::{prediction_detail, verdict_detail};

/// The sheet.
#[component]
pub(crate) fn QuestionsSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Questions><Questions /></Sheet> }
}

#[component]
fn Questions() -> impl IntoView {
    let ask = |&question: &Question| view! { <Ask question /> };
    view! {
        <p>"Answer what you know. What you do not know stays as in the example: find it out before you braid."</p>
        <section class="settings questions" aria-label="Questions">{Question::ALL.iter().map(ask).collect_view()}</section>
        <Effects />
    }
}

/// One question, where it has anything to ask.
#[component]
fn Ask(question: Question) -> impl IntoView {
    let bench = bench();
    let asks = Memo::new(move |_| bench.settled.with(|design| question.asks(design)));
    let is_known = Memo::new(move |_| bench.settled.with(|design| question.is_known(design)));
    // Each time it is left open its fields are built again: what was typed there and refused goes with them.
    let left_open = RwSignal::new(0_u32);
    let wrong = FieldError::none();
    let leave_open = move |_| {
        left_open.update(|times| *times += 1);
        wrong.set(leave(bench, question).err());
    };
    let is_left_open = move || left_open.get() > 0 && !is_known.get();
    view! {
        <Show when=move || !asks.read().is_empty()>
            <fieldset data-question=question.key() data-known=move || is_known.get().to_string()>
                <legend>{question.name()}</legend>
                <For
                    each=move || { let times = left_open.get(); asks.get().into_iter().map(move |asked| (times, asked)) }
                    key=|(times, asked)| (*times, asked.key())
                    let:row
                >
                    {field(row.1)}
                </For>
                {help(question)}
                <p class="hint">{move || standing(bench, question, is_known.get())}</p>
                <div class="step-buttons" data-answers="">
                    <button
                        data-action="do-not-know"
                        aria-label=format!("I do not know: {}", question.name())
                        aria-pressed=move || is_left_open().to_string()
                        on:click=leave_open
                    >
                        "I do not know"
                    </button>
                </div>
                {wrong.shown()}
            </fieldset>
        </Show>
    }
}

/// Gives the settings of a question their defaults, each as a finished change.
fn leave(bench: Bench, question: Question) -> Result<(), String> {
    let edits = bench
        .settled
        .with_untracked(|design| question.left_open(design));
    edits.into_iter().try_for_each(|edit| bench.commit(edit))
}

fn field(asked: Asked) -> AnyView {
    match asked {
        Asked::Number(setting) => view! { <Number setting /> }.into_any(),
        Asked::Chosen(of) => view! { <ChosenField of /> }.into_any(),
    }
}

/// The way to an answer that no field here takes.
fn help(question: Question) -> AnyView {
    match question {
        Question::Machine => {
            view! { <WorkshopButton label="Describe another machine" first="horn_gears" /> }
                .into_any()
        }
        Question::Constant => view! { <ConstantFinder /> }.into_any(),
        _ => ().into_any(),
    }
}

/// Whether it is answered, and what the plan does without an answer.
fn standing(bench: Bench, question: Question, is_known: bool) -> String {
    let default = question.default_words();
    if is_known {
        format!("Your own value. The example has {default}.")
    } else {
        let range = bench.settled.with(|design| question.range_words(design));
        format!("As in the example: {default}. The plan rests on it. {range}")
    }
}

/// What the answers did since the sheet was opened.
#[component]
fn Effects() -> impl IntoView {
    let bench = bench();
    let now = Memo::new(move |_| {
        let plan = bench.settled_plan.read();
        prediction_detail(&plan).unwrap_or_else(|| verdict_detail(&plan, bench.units.get()))
    });
    let before = now.get_untracked();
    view! {
        <section class="card" aria-label="What your answers do">
            <h3>"Weight of the first 30 ft"</h3>
            <dl class="facts">
                <div><dt>"Before"</dt><dd data-effect="before">{before}</dd></div>
                <div><dt>"Now"</dt><dd data-effect="now"><span role="status">{now}</span></dd></div>
            </dl>
            <p class="hint">"Undo in Draw reverses one answer at a time."</p>
        </section>
    }
}
