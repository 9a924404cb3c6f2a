//! What the book makes of the line on the bench, and planning it so.

use leptos::prelude::*;

use super::knowledge::number;
use super::open_book::open_book;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::book::doubt::Doubt;
use crate::keep::book::estimate::Moved;
use crate::page::view::bench::bench;
use crate::paper::words;
use crate::plan::Plan;
use crate::plan::prediction::Prediction;

/// What planning the line on the bench with what the book teaches makes of it.
#[derive(Clone, Debug, PartialEq)]
struct Lesson {
    /// Whether it changes anything.
    is_new: bool,
    edit: Edit,
    prediction: String,
    /// What is then braided otherwise.
    changes: Vec<String>,
}

/// What the line on the bench weighs as it was planned, and with what the book teaches.
#[component]
pub(super) fn ThisLine() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let lesson = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        let name = open_book
            .workshop
            .with(|workshop| workshop.title().to_owned());
        bench.settled.with(|design| {
            let (taught, edit) = estimate.taught(design, &name)?;
            let plan = Plan::of(&taught);
            let changes = bench
                .settled_plan
                .with(|now| words::work_changes(now, &plan));
            Some(Lesson {
                is_new: taught != *design,
                edit,
                prediction: prediction(&plan),
                changes,
            })
        })
    });
    let moved = move || {
        let moved = bench
            .settled
            .with(|design| open_book.estimate.read().moved_on(design));
        moved
            .iter()
            .map(moved_words)
            .map(|words| view! { <li>{words}</li> })
            .collect_view()
    };
    let has_moved = Memo::new(move |_| {
        bench
            .settled
            .with(|design| !open_book.estimate.read().moved_on(design).is_empty())
    });
    let now = move || bench.settled_plan.with(|plan| prediction(plan));
    let is_blank = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        estimate.swatches == 0 && estimate.lines == 0
    });
    let is_other_yarn = move || {
        open_book.workshop.with(|workshop| {
            bench
                .settled
                .with(|design| design.draft().fibre != workshop.base.draft().fibre)
        })
    };
    view! {
        <section class="lesson card" aria-label="This line">
            <h2>"This line with what your book knows"</h2>
            <p>"As it is planned: "<b data-prediction="now">{now}</b></p>
            <Show when=move || has_moved.get()>
                <p>"Your measurements suggest:"</p>
                <ul>{moved}</ul>
            </Show>
            <Show when=is_other_yarn>
                <p class="caution">"This line has another fibre than this book. What is known here does not hold for it."</p>
            </Show>
            <Show when=move || is_blank.get()>
                <p class="hint">"Nothing is measured yet. What you measure is used for the next line you plan."</p>
            </Show>
            <Show
                when=move || !is_blank.get() && lesson.with(|lesson| lesson.as_ref().is_some_and(|lesson| lesson.is_new))
                fallback=move || view! {
                    <Show when=move || !is_blank.get()>
                        <p class="hint">"This line is planned with everything this book has learnt."</p>
                    </Show>
                }
            >
                <Taught lesson />
            </Show>
        </section>
    }
}

/// What planning it so would change, and doing that.
#[component]
fn Taught(lesson: Memo<Option<Lesson>>) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let take = move |_| {
        if let Some(Lesson { edit, .. }) = lesson.get_untracked() {
            // The workshop is named in the design from now on, so it needs the name the book shows.
            let name = open_book
                .workshop
                .with_untracked(|workshop| workshop.title().to_owned());
            open_book.press(|workshop| workshop.name = name);
            bench.commit_and_compare(edit);
        }
    };
    let changes = move || {
        let changes = lesson.with(|lesson| lesson.as_ref().map(|lesson| lesson.changes.join("; ")));
        match changes.unwrap_or_default() {
            none if none.is_empty() => {
                "The number of thread and gear changes stays the same.".to_owned()
            }
            changes => format!("At the machine: {changes}."),
        }
    };
    let waiting = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        open_book
            .workshop
            .with(|workshop| waiting(workshop, &estimate.doubts))
    });
    view! {
        <p>"With what the book has learnt: "<b data-prediction="taught">{move || lesson.get().map(|lesson| lesson.prediction)}</b></p>
        <p data-work-changes="">{changes}</p>
        <Show
            when=move || waiting.with(Option::is_none)
            fallback=move || view! { <p class="caution" data-waiting="">{move || waiting.get()}</p> }
        >
            <div class="step-buttons"><button data-action="learn" on:click=take>"Use these values"</button></div>
        </Show>
    }
}

/// Why these values cannot be planned with yet: what waits for the maker's word, and where.
fn waiting(workshop: &Workshop, doubts: &[Doubt]) -> Option<String> {
    let mut places: Vec<String> = doubts
        .iter()
        .map(|doubt| workshop.place_words(doubt.source))
        .collect();
    places.dedup();
    (!places.is_empty()).then(|| {
        format!(
            "These values cannot be used yet: a number in {} stands out. Open it below and answer the question.",
            places.join(", ")
        )
    })
}

fn prediction(plan: &Plan) -> String {
    plan.prediction.as_ref().map_or_else(
        || "the line is too short to have a class".to_owned(),
        Prediction::words,
    )
}

fn moved_words(moved: &Moved) -> String {
    format!(
        "{}: planned with {}, now {}",
        moved.parameter.name(),
        number(moved.parameter, moved.planned),
        number(moved.parameter, moved.now)
    )
}
