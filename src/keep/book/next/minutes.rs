//! How long a measurement takes, in minutes. All are our own choice, for practised hands at a bench where the tools are ready; each
//! has its reason. They count only in proportion to each other.

use super::measure::{NextMeasure, SwatchPart};
use crate::keep::book::swatch::SwatchField;
use crate::plan::Plan;

/// A swatch is threaded, braided until it is steady, then 30 cm more, and cut off.
const BRAID_SWATCH: f64 = 25.0;
/// A rule is laid along a short braid.
const LAY_RULE: f64 = 1.0;
/// Circuits are counted while the machine runs anyway.
const COUNT_CIRCUITS: f64 = 2.0;
/// Some two hundred crossings are counted under a loupe.
const COUNT_CROSSINGS: f64 = 6.0;
/// A scale is zeroed and read.
const WEIGH: f64 = 2.0;
/// A micrometer is closed at three places of a soft braid.
const READ_DIAMETER: f64 = 2.0;
/// A gauge is laid on at three places.
const READ_ANGLE: f64 = 4.0;
/// Thread is wound off along a rule, ten metres of it.
const WIND_THREAD: f64 = 5.0;
/// A whole line is coiled so that it fits a scale.
const COIL_LINE: f64 = 2.0;
/// The first 30 ft are laid out, marked, and hung clear of the rest.
const LAY_OUT_HEAD: f64 = 8.0;
/// Bobbins are wound and mounted, a line is dressed: the hands' part of a whole line, without the hours it dries.
const MAKE_LINE: f64 = 240.0;

/// Minutes to measure some numbers of a swatch that is there.
pub(super) fn of_fields(fields: &[SwatchField]) -> f64 {
    fields.iter().map(|&field| of_field(field)).sum()
}

fn of_field(field: SwatchField) -> f64 {
    match field {
        SwatchField::Length | SwatchField::CrossingsOver => LAY_RULE,
        SwatchField::Circuits => COUNT_CIRCUITS,
        SwatchField::Crossings => COUNT_CROSSINGS,
        SwatchField::Mass | SwatchField::ThreadMass => WEIGH,
        SwatchField::Diameter => READ_DIAMETER,
        SwatchField::Angle => READ_ANGLE,
        SwatchField::ThreadLength => WIND_THREAD,
        SwatchField::Threads | SwatchField::Ends | SwatchField::Driver | SwatchField::Driven => 0.0,
    }
}

/// Minutes of a measurement, of a line of this plan where one has to be made first; `rest` is what is missing of a swatch.
pub(super) fn of(measure: NextMeasure, plan: &Plan, rest: &[SwatchField]) -> f64 {
    match measure {
        NextMeasure::Bare(_) | NextMeasure::Oiled(..) => COIL_LINE + WEIGH,
        NextMeasure::Finished(_) => COIL_LINE + WEIGH + LAY_OUT_HEAD + WEIGH,
        NextMeasure::Line => {
            plan.workload.minutes + MAKE_LINE + of(NextMeasure::Finished(0), plan, rest)
        }
        NextMeasure::Swatch => BRAID_SWATCH + of_fields(&SwatchPart::WHOLE),
        NextMeasure::SwatchPart(part) => BRAID_SWATCH + of_fields(part.fields()),
        NextMeasure::Rest(_) | NextMeasure::Thread => of_fields(rest),
        NextMeasure::Answer(_) => 0.0,
    }
}
