//! Adding and removing control points, and changing lengths and sizes of whole parts.

use super::ends::keeps_ends_alike;
use super::grid::{in_proportion, metres, quanta, stretches};
use super::options::LineEnds;
use crate::base::units::Length;
use crate::base::units::text::Unit;
use crate::design::refusal::{LEAST_SPACING, MOST_POINTS, Place, Refusal, admit};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{Design, Draft, DraftPoint};

/// Gives the part between two points another length; what lies in it keeps its proportions, what lies after it moves
/// along. Where both ends are to stay alike, the same part of the other end gets the same length.
pub(super) fn lengthen(
    draft: &mut Draft,
    design: &Design,
    (first, last): (usize, usize),
    length_m: f64,
    ends: LineEnds,
) -> Result<(), Refusal> {
    let mut stretches = stretches(&design.draft().points);
    let last = last.min(stretches.len());
    if first >= last {
        return Ok(());
    }
    let (mirrored_first, mirrored_last) = (stretches.len() - last, stretches.len() - first);
    let is_apart = mirrored_last <= first || mirrored_first >= last;
    let is_mirrored = is_apart && keeps_ends_alike(design, ends);
    let range = lengths_of(&stretches, (first, last), if is_mirrored { 2 } else { 1 });
    if !(range.0 - HALF_STEP..range.1 + HALF_STEP).contains(&length_m) {
        return Err(Refusal::OutsideRange {
            place: Place::Point(last),
            what: length_name(design, (first, last)),
            value: length_m,
            range,
            unit: POSITION.unit,
        });
    }
    let grown = in_proportion(&stretches[first..last], quanta(length_m));
    if is_mirrored {
        let mirrored = grown.iter().rev().copied();
        stretches.splice(mirrored_first..mirrored_last, mirrored);
    }
    stretches.splice(first..last, grown);
    let mut at = 0;
    for (point, length) in draft.points.iter_mut().skip(1).zip(stretches) {
        at += length;
        point.at_m = metres(at);
    }
    Ok(())
}

/// The least and the greatest length that a part may get, metres; so many parts get it at once. Each stretch in it keeps its least
/// length, and the line its greatest.
fn lengths_of(stretches: &[i64], (first, last): (usize, usize), parts: i64) -> (f64, f64) {
    let part = &stretches[first..last];
    let length: i64 = part.iter().sum();
    let shortest = part.iter().copied().min().unwrap_or(1).max(1);
    let least = quanta(LEAST_SPACING);
    let low = if part.len() == 1 {
        least
    } else {
        // Rounding may take a step away from a stretch.
        ((least + 1) * length + shortest - 1) / shortest
    };
    let others = stretches.iter().sum::<i64>() - parts * length;
    let high = (quanta(POSITION.high) - others) / parts;
    (metres(low), metres(high.max(low)))
}

/// What the length between two points is called.
fn length_name(design: &Design, (first, last): (usize, usize)) -> String {
    let taper = design.taper();
    let at = |index: usize| taper.points()[index].at;
    let between = format!("from point {} to point {}", first + 1, last + 1);
    let mut sections = taper.sections().into_iter();
    let section = sections.find(|it| (it.from, it.to) == (at(first), at(last)));
    match section {
        Some(section) => format!("the length of the {} ({between})", section.part.name()),
        None if (first, last + 1) == (0, taper.points().len()) => {
            "the length of the whole line".to_owned()
        }
        None => format!("the length {between}"),
    }
}

/// Multiplies every diameter by a factor.
pub(super) fn scale_sizes(draft: &mut Draft, factor: f64) -> Result<(), Refusal> {
    let sizes = draft.points.iter().map(|point| point.diameter_mm);
    let (thinnest, thickest) = sizes.fold((f64::MAX, 0.0_f64), |(low, high), size| {
        (low.min(size), high.max(size))
    });
    let fits = |size: f64| DIAMETER.admit(size * factor).is_ok();
    if !fits(thinnest) || !fits(thickest) {
        return Err(Refusal::OutsideRange {
            place: Place::Taper,
            what: "the scale of all diameters".to_owned(),
            value: factor * 100.0,
            range: (
                (DIAMETER.low / thinnest * 1e3).ceil() / 10.0,
                (DIAMETER.high / thickest * 1e3).floor() / 10.0,
            ),
            unit: Unit::Percent,
        });
    }
    for point in &mut draft.points {
        point.diameter_mm *= factor;
    }
    Ok(())
}

/// Adds a point where the drawing passes a place, so that the drawing keeps its shape to a step of the grid. Where both
/// ends are to stay alike, another one at the same distance from the rear.
pub(super) fn add(
    draft: &mut Draft,
    design: &Design,
    at_m: f64,
    ends: LineEnds,
) -> Result<(), Refusal> {
    let at_m = admit(POSITION, at_m, Place::Taper)?;
    if !keeps_ends_alike(design, ends) {
        return insert(draft, design, at_m);
    }
    let length = design
        .draft()
        .points
        .last()
        .map_or(0, |end| quanta(end.at_m));
    let mirrored = length - quanta(at_m);
    // No room for two: one, in the middle.
    if (mirrored - quanta(at_m)).abs() < quanta(LEAST_SPACING) {
        return insert(draft, design, metres(length / 2));
    }
    insert(draft, design, at_m)?;
    insert(draft, design, metres(mirrored))
}

fn insert(draft: &mut Draft, design: &Design, at_m: f64) -> Result<(), Refusal> {
    if draft.points.len() >= MOST_POINTS {
        return Err(Refusal::PointCount(draft.points.len() + 1));
    }
    let index = draft.points.partition_point(|point| point.at_m <= at_m);
    let before = index.clamp(1, draft.points.len() - 1) - 1;
    let (a, b) = (draft.points[before], draft.points[before + 1]);
    if at_m - a.at_m < LEAST_SPACING - HALF_STEP || b.at_m - at_m < LEAST_SPACING - HALF_STEP {
        return Err(Refusal::NoRoomAt { at: at_m });
    }
    let diameter = design.taper().diameter_at(Length::from_metres(at_m));
    let point = DraftPoint {
        at_m,
        diameter_mm: diameter.millimetres(),
    };
    draft.points.insert(before + 1, point);
    Ok(())
}

/// Half a step of the grid, in metres: distances on the grid are compared half-way between its steps.
const HALF_STEP: f64 = 0.000_05;

/// Takes a point out, and where both ends are to stay alike its counterpart at the other end. The first stays, since the line
/// begins at its tip; two points are the least a taper has.
pub(super) fn remove(
    draft: &mut Draft,
    design: &Design,
    index: usize,
    ends: LineEnds,
) -> Result<(), Refusal> {
    let last = draft.points.len() - 1;
    if last < 2 {
        return Err(Refusal::PointCount(last));
    }
    if index == 0 {
        return Err(Refusal::TipNotAtZero {
            at: draft.points[1].at_m,
        });
    }
    if index > last {
        return Ok(());
    }
    draft.points.remove(index);
    let mirrored = last - index;
    // The end of the line may go, its beginning not; and of three points only the middle one can go alone.
    if mirrored != index && mirrored != 0 && keeps_ends_alike(design, ends) {
        draft.points.remove(if mirrored > index {
            mirrored - 1
        } else {
            mirrored
        });
    }
    Ok(())
}
