//! What is learnt: each number with its spread, what it was before, and from what it is known; and what that makes of the
//! line on the bench.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::base::units::show::trimmed;
use crate::base::units::text::Unit;
use crate::design::Design;
use crate::design::parameters::Parameter;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::book::doubt::Doubt;
use crate::keep::book::estimate::{Estimate, Learnt, Moved};
use crate::page::view::bench::bench;
use crate::page::view::terms::TermWord;
use crate::paper::terms::Term;
use crate::paper::words;
use crate::plan::Plan;
use crate::plan::prediction::{NINETY_FIVE, Prediction};

/// What is known, and taking it over.
#[component]
pub(super) fn Knowledge() -> impl IntoView {
    let open_book = open_book();
    let rows = move || {
        let estimate = open_book.estimate.read();
        estimate.learnt.iter().map(row).collect_view()
    };
    let from = move || {
        let estimate = open_book.estimate.read();
        match (estimate.swatches, estimate.lines) {
            (0, 0) => "Nothing measured yet: these are the values you set, with our own guess of how far they may be off.".to_owned(),
            (swatches, lines) => format!(
                "Learnt from {} and {}, starting from the values set when the book was begun.",
                counted(swatches, "swatch", "swatches"),
                counted(lines, "line", "lines")
            ),
        }
    };
    view! {
        <section class="known" aria-label="What is known">
            <h2>"What is known"</h2>
            <p data-learnt-from>{from}</p>
            <div class="wide-table">
                <table class="states">
                    <thead>
                        <tr>
                            <th></th>
                            <th>"now"</th>
                            <th>"±"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
            <details class="finer">
                <summary>"How it is reckoned"</summary>
                <p class="ground">
                    "± holds 95 times in 100: two "<TermWord term=Term::Spread word="spreads" />" either way. All numbers are
                    estimated together by weighted least squares: every measurement pulls as hard as its instrument is sharp, and
                    the values you began with pull too, as if measured once with the spread in brackets. Those spreads are our own
                    choice: machine constant 3 %, crimp 1.5 points, fibre in the section 3 points, yarn as far as its label goes,
                    voids filled 5 points, varnish 30 %, dressed weight 2 %; and each line differs from the last by some 1.5 %.
                    “Measured” is how much of what is known came from your measuring. A number more than 1.345 of its errors from
                    the rest pulls no harder than one that far (Huber 1964). One more than five spreads from what is expected is
                    left out until you have said that it is right."
                </p>
            </details>
            <OnTheBench />
        </section>
    }
}

fn counted(count: u32, one: &str, more: &str) -> String {
    let word = if count == 1 { one } else { more };
    format!("{count} {word}")
}

fn row(learnt: &Learnt) -> impl IntoView + use<> {
    let parameter = learnt.parameter;
    let before = format!(
        "{} (± {})",
        number(parameter, learnt.prior),
        plain(parameter, NINETY_FIVE * learnt.prior_spread)
    );
    let measured = match learnt.told_by_words() {
        words if words.is_empty() => "not measured".to_owned(),
        words => format!("{:.0} % measured: {words}", learnt.from_measuring() * 100.0),
    };
    view! {
        <tr data-parameter=parameter.setting().key() data-value=learnt.value data-spread=learnt.spread>
            <th scope="row">
                {parameter.name()}
                <span class="told">{measured}"; before "{before}</span>
            </th>
            <td>{number(parameter, learnt.value)}</td>
            <td>{plain(parameter, NINETY_FIVE * learnt.spread)}</td>
        </tr>
    }
}

/// A value to one digit more than the step of its setting shows, with its unit.
fn number(parameter: Parameter, value: f64) -> String {
    let plain = plain(parameter, value);
    match parameter.setting().rule().unit {
        Unit::One => plain,
        unit => format!("{plain}\u{202f}{}", unit.symbol()),
    }
}

fn plain(parameter: Parameter, value: f64) -> String {
    let decimals = match parameter {
        Parameter::Constant => 3,
        Parameter::Crimp | Parameter::Yarn | Parameter::Weighed => 2,
        Parameter::FibreFraction | Parameter::OilFill | Parameter::VarnishPickUp => 1,
    };
    trimmed(value, decimals)
}

/// The line on the bench with what the book teaches; `None` where that makes no valid design.
fn taught(design: &Design, estimate: &Estimate, workshop: &str) -> Option<(Design, Edit)> {
    let edit = Edit::Learn {
        parameters: estimate.parameters(),
        learned: Some(Box::new(estimate.learned())),
        workshop: workshop.to_owned(),
    };
    edit.clone().apply(design).ok().map(|design| (design, edit))
}

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
fn OnTheBench() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let lesson = Memo::new(move |_| {
        let estimate = open_book.estimate.read();
        let name = open_book
            .workshop
            .with(|workshop| workshop.title().to_owned());
        bench.settled.with(|design| {
            let (taught, edit) = taught(design, &estimate, &name)?;
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
                "Threads and gears are changed as often as before.".to_owned()
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
    let is_other_yarn = move || {
        open_book.workshop.with(|workshop| {
            bench
                .settled
                .with(|design| design.draft().fibre != workshop.base.draft().fibre)
        })
    };
    view! {
        <div class="lesson">
            <h3>{move || format!("The line on the bench: {}", bench.settled.with(|design| design.title().to_owned()))}</h3>
            <p>"As it is planned: "<b data-prediction="now">{now}</b></p>
            <Show when=move || has_moved.get()>
                <p>"The book says otherwise by now:"</p>
                <ul>{moved}</ul>
            </Show>
            <Show when=is_other_yarn>
                <p class="caution">"The line on the bench is of another fibre than this book: what is known here does not hold for it."</p>
            </Show>
            <Show
                when=move || lesson.with(|lesson| lesson.as_ref().is_some_and(|lesson| lesson.is_new))
                fallback=|| view! { <p class="hint">"The line on the bench is planned with all this book teaches."</p> }
            >
                <p>"With what the book teaches: "<b data-prediction="taught">{move || lesson.get().map(|lesson| lesson.prediction)}</b></p>
                <p data-work-changes="">{changes}</p>
                <Show
                    when=move || waiting.with(Option::is_none)
                    fallback=move || view! { <p class="caution" data-waiting="">{move || waiting.get()}</p> }
                >
                    <button class="main" data-action="learn" on:click=take>"Plan the line with these values"</button>
                </Show>
            </Show>
        </div>
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
            "These values cannot be planned with yet: something stands out in {}. Open it below and answer, then they can.",
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
