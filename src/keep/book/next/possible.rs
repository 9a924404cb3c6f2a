//! What can be measured now: in this state of the book, for this line.

use super::measure::{NextMeasure, SwatchPart};
use super::minutes;
use super::waiting::{
    can_be_finished, in_the_making, newest, waits_bare, waits_finished, waits_oiled, weights_of,
};
use crate::design::Design;
use crate::keep::book::check;
use crate::keep::book::check::line::{LinePlace, is_same_yarn};
use crate::keep::book::record::{LineRecord, LineStage};
use crate::keep::book::swatch::{Swatch, SwatchField};
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;

/// A measurement that can be taken now.
pub(super) struct Possible {
    pub(super) measure: NextMeasure,
    /// How long it takes.
    pub(super) minutes: f64,
    pub(super) adds: Adds,
}

/// The numbers it adds to the book.
pub(super) enum Adds {
    /// Some of a swatch, which is as known so far.
    OfSwatch(Box<Swatch>, Vec<SwatchField>),
    /// Some of a line: of this place in the book, or the next one of the design.
    OfLine(Option<usize>, Vec<LinePlace>),
}

/// Everything that can be measured now, for a line of this design and plan.
pub(super) fn possible(workshop: &Workshop, (design, plan): (&Design, &Plan)) -> Vec<Possible> {
    let lines = of_lines(workshop);
    let is_making = in_the_making(workshop, design).is_some();
    let next = (!is_making).then(|| {
        (
            NextMeasure::Line,
            None,
            weights_of(LineStage::Finished, design),
        )
    });
    let lines = lines
        .into_iter()
        .chain(next)
        .map(|(measure, line, fields)| Possible {
            measure,
            minutes: minutes::of(measure, plan, &[]),
            adds: Adds::OfLine(line, fields),
        });
    let swatches = of_swatches(workshop, design, plan);
    let swatches = swatches
        .into_iter()
        .map(|(measure, swatch, fields)| Possible {
            measure,
            minutes: minutes::of(measure, plan, &fields),
            adds: Adds::OfSwatch(Box::new(swatch), fields),
        });
    lines.chain(swatches).collect()
}

type OfLine = (NextMeasure, Option<usize>, Vec<LinePlace>);
type OfSwatch = (NextMeasure, Swatch, Vec<SwatchField>);

/// What waits of lines in the book, of each kind that of the newest.
fn of_lines(workshop: &Workshop) -> Vec<OfLine> {
    let is_ours = |record: &LineRecord| {
        let design = record.design.design();
        design.is_ok_and(|design| is_same_yarn(design, &workshop.base))
    };
    let of = |measure, index: usize, stage| {
        let design = workshop.records.get(index)?.design.design().ok()?;
        Some((measure, Some(index), weights_of(stage, design)))
    };
    let bare = newest(workshop, |record| is_ours(record) && waits_bare(record));
    let bare = bare.and_then(|(index, _)| of(NextMeasure::Bare(index), index, LineStage::Bare));
    let oiled = newest(workshop, |record| {
        is_ours(record) && waits_oiled(record).is_some()
    });
    let oiled = oiled.and_then(|(index, record)| {
        let coat = waits_oiled(record)?;
        of(
            NextMeasure::Oiled(index, coat),
            index,
            LineStage::Coat(coat),
        )
    });
    let finished =
        newest(workshop, |record| is_ours(record) && waits_finished(record)).or_else(|| {
            newest(workshop, |record| {
                is_ours(record) && can_be_finished(record)
            })
        });
    let finished = finished
        .and_then(|(index, _)| of(NextMeasure::Finished(index), index, LineStage::Finished));
    [bare, oiled, finished].into_iter().flatten().collect()
}

fn of_swatches(workshop: &Workshop, design: &Design, plan: &Plan) -> Vec<OfSwatch> {
    let belly = || Swatch::of_belly(design, plan);
    let parts = SwatchPart::ALL.map(|part| {
        let fields = part.fields().to_vec();
        (NextMeasure::SwatchPart(part), belly(), fields)
    });
    let thread = vec![SwatchField::ThreadLength, SwatchField::ThreadMass];
    let whole = SwatchPart::WHOLE.to_vec();
    [
        (NextMeasure::Thread, belly(), thread),
        (NextMeasure::Swatch, belly(), whole),
    ]
    .into_iter()
    .chain(parts)
    .chain(rest(workshop))
    .collect()
}

/// What is missing of the newest swatch, where that is braided.
fn rest(workshop: &Workshop) -> Option<OfSwatch> {
    let index = workshop.swatches.len().checked_sub(1)?;
    let swatch = check::swatch::sound(&workshop.swatches[index], &workshop.limits());
    let has = |field: SwatchField| swatch.get(field).is_some();
    if !SwatchField::SETUP.into_iter().all(has) || !is_measured(&swatch) {
        return None;
    }
    // The machine has stopped: what was not counted there is counted under a loupe.
    let lay = [SwatchField::CrossingsOver, SwatchField::Crossings];
    let lay = lay.into_iter().filter(|_| !has(SwatchField::Circuits));
    let rest = SwatchPart::WHOLE.into_iter();
    let rest = rest.filter(|&field| field != SwatchField::Circuits);
    let missing: Vec<SwatchField> = rest.chain(lay).filter(|&field| !has(field)).collect();
    let is_useful = missing.iter().any(|&field| field != SwatchField::Length);
    is_useful.then_some((NextMeasure::Rest(index), swatch, missing))
}

/// The first number that is missing of the newest swatch, where that is braided.
pub fn first_of_rest(workshop: &Workshop) -> Option<SwatchField> {
    let (_, _, missing) = rest(workshop)?;
    let mut missing = missing.into_iter();
    missing.next()
}

/// Whether something of a swatch's braid is measured.
fn is_measured(swatch: &Swatch) -> bool {
    use SwatchField::{Angle, Circuits, Crossings, Diameter, Mass};
    let numbers = [Circuits, Crossings, Mass, Diameter, Angle];
    numbers.into_iter().any(|field| swatch.get(field).is_some())
}

/// The newest swatch of the book where nothing of its braid is measured yet: the next one need not be written down.
pub fn begun_swatch(workshop: &Workshop) -> Option<usize> {
    let swatch = workshop.swatches.last()?;
    let has_setup = SwatchField::SETUP
        .into_iter()
        .all(|field| swatch.get(field).is_some());
    (has_setup && !is_measured(swatch)).then(|| workshop.swatches.len() - 1)
}

/// The newest swatch of the book, where its ends are known and none of its thread is weighed: its thread can be.
pub fn swatch_for_thread(workshop: &Workshop) -> Option<usize> {
    let swatch = workshop.swatches.last()?;
    let is_open = swatch.ends.is_some() && swatch.thread_mass_g.is_none();
    is_open.then(|| workshop.swatches.len() - 1)
}
