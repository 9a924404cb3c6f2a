//! How far a line of the book is, and what of it waits to be weighed.

use crate::design::Design;
use crate::keep::book::check::line::LinePlace;
use crate::keep::book::model::line::{dressing_at, end_of_coat};
use crate::keep::book::record::{LineField, LineRecord, LineStage};
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;

/// The last of the book's lines of which something is true.
pub(super) fn newest(
    workshop: &Workshop,
    is_it: impl Fn(&LineRecord) -> bool,
) -> Option<(usize, &LineRecord)> {
    let mut records = workshop.records.iter().enumerate().rev();
    records.find(|(_, record)| is_it(record))
}

/// The line of the book that is being made by this design: braided, not yet finished.
pub(super) fn in_the_making(workshop: &Workshop, design: &Design) -> Option<usize> {
    let is_it = |record: &LineRecord| {
        record.finished.is_empty()
            && record.finished_on().is_none()
            && record
                .design
                .design()
                .is_ok_and(|made| is_alike(made, design))
            && is_braided(record)
    };
    newest(workshop, is_it).map(|found| found.0)
}

/// Whether two designs make the same line: what it is called, and what is noted of it, is no part of it.
fn is_alike(one: &Design, other: &Design) -> bool {
    let plain = |design: &Design| {
        let mut draft = design.draft().clone();
        for text in [&mut draft.name, &mut draft.notes, &mut draft.workshop] {
            text.clear();
        }
        draft
    };
    plain(one) == plain(other)
}

/// Whether a line is braided, not yet oiled, and not weighed.
pub(super) fn waits_bare(record: &LineRecord) -> bool {
    record.bare.is_empty() && !has_later_weight(record) && !is_oiled(record) && is_braided(record)
}

/// The coat of oil that is dry on a line, not yet covered by the next, and not weighed.
pub(super) fn waits_oiled(record: &LineRecord) -> Option<usize> {
    let design = record.design.design().ok()?;
    let diary = record.diary.as_ref()?;
    let recipe = &design.draft().recipe;
    let is_done = |index: usize| diary.tick_of(index).is_some();
    let is_it = |&(coat, oil): &(usize, usize)| {
        let end = end_of_coat(recipe, coat).unwrap_or(recipe.len());
        let dries = |index: &usize| recipe[*index].kind.dries();
        let dry = (oil..end).rev().find(dries).unwrap_or(oil);
        end < recipe.len()
            && (oil..=dry).all(is_done)
            && !(end..recipe.len()).any(is_done)
            && dressing_at(design, LineStage::Coat(coat), &design.parameters()).is_some()
    };
    let oils = (0..recipe.len()).filter(|&index| recipe[index].kind.is_oil());
    let (coat, _) = oils.enumerate().find(is_it)?;
    let weights = record.coats.get(coat);
    let is_weighed =
        weights.is_some_and(|weights| weights.mass_g.or(weights.head_mass_g).is_some());
    (record.finished.is_empty() && !is_weighed).then_some(coat)
}

/// Whether a line is finished and its finished weight not written down.
pub(super) fn waits_finished(record: &LineRecord) -> bool {
    record.finished_on().is_some() && record.finished.is_empty()
}

/// Whether a line can be weighed finished: it waits for that, or nothing is written of it that says it is still being made.
pub(super) fn can_be_finished(record: &LineRecord) -> bool {
    let is_blank = record.line.is_none()
        && record.run.is_none()
        && record.diary.is_none()
        && record.stages().all(|(_, measures)| measures.is_empty());
    waits_finished(record) || is_blank
}

fn has_later_weight(record: &LineRecord) -> bool {
    !record.finished.is_empty() || record.coats.iter().any(|coat| !coat.is_empty())
}

/// Whether all steps at the machine are done. Of a line that was not followed there, or not to its end, the dressing says so.
fn is_braided(record: &LineRecord) -> bool {
    let diary = record.diary.as_ref();
    if diary.is_some_and(|diary| diary.ticks.iter().any(Option::is_some)) {
        return true;
    }
    let Some((run, design)) = record.run.as_ref().zip(record.design.design().ok()) else {
        return diary.is_some();
    };
    let (done, all) = run.steps_of(&run.adjusted(design, &Plan::of(design)));
    done == all
}

/// Whether a step was done that leaves something on the line.
fn is_oiled(record: &LineRecord) -> bool {
    let Some((diary, design)) = record.diary.as_ref().zip(record.design.design().ok()) else {
        return false;
    };
    let mut steps = design.draft().recipe.iter().enumerate();
    steps.any(|(index, step)| {
        (step.kind.is_oil() || step.kind.is_varnish()) && diary.tick_of(index).is_some()
    })
}

/// The weights of a stage that are asked for: of a finished line the whole and, where it is long enough, its first 30 ft.
pub(super) fn weights_of(stage: LineStage, design: &Design) -> Vec<LinePlace> {
    let fields: &[LineField] = match stage {
        LineStage::Finished if has_head(design) => &[LineField::Mass, LineField::HeadMass],
        _ => &[LineField::Mass],
    };
    fields.iter().map(|&field| (stage, field)).collect()
}

/// Whether a line is long enough to have first 30 ft.
pub(super) fn has_head(design: &Design) -> bool {
    let taper = design.taper();
    let head = crate::braid::weight::Head::of(&taper.sections());
    head.missing(taper.length()).is_none()
}
