//! A line at one stage: planned against measured.

use leptos::prelude::*;

use super::doubts::residual_words;
use super::measured_field::{MeasureField, MeasuredNumber};
use super::open_book::open_book;
use crate::base::units::show;
use crate::base::units::{Density, Length};
use crate::design::Design;
use crate::keep::book::check::Why;
use crate::keep::book::record::{LineField, LineRecord, LineStage};
use crate::keep::book::{Source, dressing_at};
use crate::page::view::bench::bench;
use crate::page::view::measured::open_measured;
use crate::page::view::planned::Planned;
use crate::plan::Plan;

/// Whether a complaint is about the line as a whole, and said once.
pub(super) const fn is_of_all(why: &Why) -> bool {
    matches!(why, Why::OtherYarn | Why::NoDesign { .. })
}

/// The stages of a line of this design: bare, after each coat of oil, finished.
pub(super) fn stages_of(design: &Design) -> Vec<LineStage> {
    let coats = design
        .draft()
        .recipe
        .iter()
        .filter(|step| step.kind.is_oil())
        .count();
    let coats = (0..coats).map(LineStage::Coat);
    core::iter::once(LineStage::Bare)
        .chain(coats)
        .chain([LineStage::Finished])
        .collect()
}

pub(super) const fn stage_key(stage: LineStage) -> usize {
    match stage {
        LineStage::Bare => 0,
        LineStage::Coat(coat) => coat + 1,
        LineStage::Finished => usize::MAX,
    }
}

/// The numbers of a stage.
#[component]
pub(super) fn StageEntry(
    index: usize,
    record: Memo<Option<LineRecord>>,
    planned: Planned,
    stage: LineStage,
) -> impl IntoView {
    let fields = Memo::new(move |_| {
        let measures = record.with(|record| {
            record
                .as_ref()
                .and_then(|record| record.measures(stage).cloned())
        });
        measures.unwrap_or_default().fields().collect::<Vec<_>>()
    });
    let (bench, open_book) = (bench(), open_book());
    let diameters = move || {
        fields.with(|fields| {
            fields
                .iter()
                .filter(|field| matches!(field, LineField::At(_)))
                .count()
        })
    };
    let add = move |_| {
        let at = diameters();
        let added = open_book.change_record(index, |record| {
            if let Some(measures) = record.measures_mut(stage) {
                measures.set(LineField::At(at), None);
            }
        });
        if let Err(said) = added {
            bench.say(said);
        }
    };
    let title = stage.name();
    view! {
        <fieldset class="stage" data-stage=stage_key(stage)>
            <legend>{title}</legend>
            <div class="fields">
                <For each=move || fields.get() key=|field| format!("{field:?}") let:field>
                    <LineNumber index record planned stage field />
                </For>
            </div>
            <div class="step-buttons">
                <button data-action="add-diameter" on:click=add>"Add a diameter"</button>
                {(stage == LineStage::Finished).then(|| view! { <MeasureAlong record /> })}
            </div>
        </fieldset>
    }
}

/// Begins a measured line under the name of the record: on its sheet it is compared with the plan.
#[component]
fn MeasureAlong(record: Memo<Option<LineRecord>>) -> impl IntoView {
    let measured = open_measured();
    let begin = move |_| {
        let name =
            record.with_untracked(|record| record.as_ref().map(|record| record.name.clone()));
        measured.open_named(&name.unwrap_or_default());
    };
    view! { <button data-action="measure-along" on:click=begin>"Measure along its length"</button> }
}

#[component]
fn LineNumber(
    index: usize,
    record: Memo<Option<LineRecord>>,
    planned: Planned,
    stage: LineStage,
    field: LineField,
) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let value = move || record.with(|record| record.as_ref()?.measures(stage)?.get(field));
    let complaint = move || {
        let record = record.get()?;
        let complaints = open_book
            .workshop
            .with(|workshop| workshop.complaints_of_line(&record));
        let mine = complaints.iter().filter(|complaint| {
            complaint.fields.contains(&(stage, field)) && !is_of_all(&complaint.why)
        });
        let words: Vec<String> = mine.map(|complaint| complaint.why.to_string()).collect();
        (!words.is_empty()).then(|| words.join(" "))
    };
    let expected = move || {
        let residual = {
            let estimate = open_book.estimate.read();
            let mut residuals = estimate.residuals.iter();
            residuals
                .find(|residual| residual.source == Source::Line(index, stage, field))
                .copied()
        };
        let units = bench.units.get();
        let plan = planned.with(|planned| {
            let (design, plan) = planned.as_ref()?;
            planned_words(design, plan, stage, field, record.get().as_ref(), units)
        });
        let words: Vec<String> = [plan, residual.as_ref().map(residual_words)]
            .into_iter()
            .flatten()
            .collect();
        (!words.is_empty()).then(|| words.join("; "))
    };
    let take = move |value| {
        open_book.change_record(index, |record| {
            if let Some(measures) = record.measures_mut(stage) {
                measures.set(field, value);
            }
        })
    };
    let label = match field {
        LineField::At(at) => format!("diameter {} at", at + 1),
        LineField::Diameter(at) => format!("diameter {}", at + 1),
        other => other.name().to_owned(),
    };
    let of = MeasuredNumber {
        label,
        unit: field.unit(),
        action: action(field),
        value: Signal::derive(value),
        take: Callback::new(take),
        by_photo: Signal::stored(None),
        complaint: Signal::derive(complaint),
        expected: Signal::derive(expected),
        doubt: Signal::derive(move || open_book.doubt(Source::Line(index, stage, field))),
    };
    view! { <MeasureField of /> }
}

const fn action(field: LineField) -> &'static str {
    match field {
        LineField::Length => "line-length",
        LineField::Mass => "line-mass",
        LineField::HeadMass => "line-head",
        LineField::RearHeadMass => "line-rear-head",
        LineField::At(_) => "line-at",
        LineField::Diameter(_) => "line-diameter",
    }
}

/// What the plan says of a number: `planned 15.57 g`.
fn planned_words(
    design: &Design,
    plan: &Plan,
    stage: LineStage,
    field: LineField,
    record: Option<&LineRecord>,
    units: show::Units,
) -> Option<String> {
    let dressing = dressing_at(design, stage)?;
    let mass = |from, to| show::grams(plan.line.mass_with(&dressing, Density::ZERO, from, to));
    Some(match field {
        LineField::Length => format!("planned {}", units.show_position(plan.length)),
        LineField::Mass => format!("planned {}", mass(Length::ZERO, plan.length)),
        LineField::HeadMass => {
            plan.head_mass?;
            format!("planned {}", mass(plan.head.from, plan.head.to))
        }
        LineField::RearHeadMass => {
            let rear = plan.rear_head.filter(|_| stage == LineStage::Finished)?;
            format!("planned {}", show::grams(rear.mass))
        }
        LineField::At(_) => return None,
        LineField::Diameter(index) => {
            let at = record?.measures(stage)?.get(LineField::At(index))?;
            let braid = plan.station(Length::from_metres(at)).braid;
            format!(
                "planned {}",
                units.show_diameter_short(dressing.diameter(braid.diameter))
            )
        }
    })
}
