//! Moving control points. Lengthwise a drawing is its stretches, the lengths between neighbouring points: every way to
//! move a point makes some of them longer and others shorter, each by a whole number of times the same step, and all that
//! holds a point back is a stretch that would get too short.
//!
//! Lengths are whole counts of the grid of [`POSITION`] here, so that sums are exact.

use super::held::HeldBy;
use super::manner::{Along, Ends, Level, Manner};
use crate::base::units::Length;
use crate::design::refusal::admit;
use crate::design::refusal::{LEAST_SPACING, MOST_POINTS, Place, Refusal};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{Design, Draft, DraftPoint};

/// Ends this much alike, in steps of the grid, count as alike: 1 mm.
const ALIKE_WITHIN: i64 = 10;

/// Whether both ends of a drawing are alike: what lies so far from the tip lies so far from the rear too.
pub fn ends_are_alike(design: &Design) -> bool {
    let taper = design.taper();
    let (points, stretches) = (taper.points(), stretches(&design.draft().points));
    let of_one_size = |a: Length, b: Length| (a - b).abs() <= crate::braid::taper::LEVEL_WITHIN;
    let pairs = || points.iter().zip(points.iter().rev());
    let is_alike = |(a, b): (&i64, &i64)| (a - b).abs() <= ALIKE_WITHIN;
    stretches.iter().zip(stretches.iter().rev()).all(is_alike)
        && pairs().all(|(a, b)| of_one_size(a.diameter, b.diameter))
}

/// The same, if that is to be heeded.
fn heeds_both_ends(design: &Design, ends: Ends) -> bool {
    ends == Ends::Alike && ends_are_alike(design)
}

/// A point moved: the draft's points, and what held them back.
pub(super) struct Moved {
    pub(super) points: Vec<DraftPoint>,
    pub(super) held: Option<HeldBy>,
}

/// Moves a point towards a wish, as far as its neighbours and the ranges allow. A wish that is no number counts as the
/// lowest.
pub(super) fn towards(design: &Design, index: usize, wish: DraftPoint, manner: Manner) -> Moved {
    let mut points = design.draft().points.clone();
    let Some(now) = points.get(index).copied() else {
        return Moved { points, held: None };
    };
    let (size, held_in_size) = size_within_range(wish.diameter_mm);
    resize(&mut points, design, index, size, manner);
    // Farther than the longest line, so that it is known to be held back.
    let at_m = clamped(wish.at_m, 0.0, 2.0 * POSITION.high);
    let shift = quanta(at_m) - quanta(now.at_m);
    let course = Course::of(design, index, manner);
    let (step, held_lengthwise) = course.step_within(shift);
    course.go(&mut points, step);
    Moved {
        points,
        held: held_lengthwise.or(held_in_size),
    }
}

/// Moves a point exactly there. Whether the outcome is a design is for [`Design::parse`] to say.
pub(super) fn exactly(
    draft: &mut Draft,
    design: &Design,
    index: usize,
    point: DraftPoint,
    manner: Manner,
) -> Result<(), Refusal> {
    let Some(now) = design.draft().points.get(index).copied() else {
        return Ok(());
    };
    let place = Place::Point(index);
    admit(DIAMETER, point.diameter_mm, place)?;
    let at_m = admit(POSITION, point.at_m, place)?;
    resize(&mut draft.points, design, index, point.diameter_mm, manner);
    let shift = quanta(at_m) - quanta(now.at_m);
    if index == 0 && shift != 0 {
        return Err(Refusal::TipNotAtZero { at: at_m });
    }
    let course = Course::of(design, index, manner);
    if course.follows == 0 && shift != 0 {
        return Err(Refusal::MiddleStays(index));
    }
    if shift != 0 {
        course.go(&mut draft.points, shift / course.follows);
        // A shift of both halves that is no whole step for either: the point itself is put where it was asked for.
        draft.points[index].at_m = at_m;
    }
    Ok(())
}

/// Total where `f64::clamp` stays undefined: a wish that is no number gives the lower bound.
fn clamped(wish: f64, low: f64, high: f64) -> f64 {
    if wish.is_nan() {
        low
    } else {
        wish.clamp(low, high)
    }
}

fn size_within_range(wish: f64) -> (f64, Option<HeldBy>) {
    let size = clamped(wish, DIAMETER.low, DIAMETER.high);
    let held = if wish > size {
        Some(HeldBy::Thickest)
    } else {
        (wish < size || wish.is_nan()).then_some(HeldBy::Thinnest)
    };
    (size, held)
}

/// Gives a point its size, and with it the level stretch it ends and the other end of the line, as the manner says.
fn resize(points: &mut [DraftPoint], design: &Design, index: usize, size: f64, manner: Manner) {
    let last = points.len() - 1;
    let taper = design.taper();
    let run = |index: usize| match manner.level {
        Level::Stays => taper.level_run(index),
        Level::Bends => (index, index),
    };
    let mut put = |(first, last): (usize, usize)| {
        for point in &mut points[first..=last] {
            point.diameter_mm = size;
        }
    };
    put(run(index));
    if heeds_both_ends(design, manner.ends) {
        put(run(last - index));
    }
}

/// How every stretch changes with each step of a move, and how many steps the moved point itself makes with it.
struct Course {
    stretches: Vec<i64>,
    shares: Vec<i64>,
    follows: i64,
    held: HeldBy,
}

impl Course {
    fn of(design: &Design, index: usize, manner: Manner) -> Self {
        let stretches = stretches(&design.draft().points);
        let mut shares = vec![0; stretches.len()];
        if let Some(before) = index.checked_sub(1) {
            shares[before] += 1;
            let loses = match manner.along {
                Along::Alone => Some(index),
                Along::Stretch => Some(index + 1),
                Along::AllBehind => None,
            };
            if let Some(share) = loses.and_then(|loses| shares.get_mut(loses)) {
                *share -= 1;
            }
        }
        if heeds_both_ends(design, manner.ends) {
            let other_end: Vec<i64> = shares.iter().rev().copied().collect();
            shares.iter_mut().zip(other_end).for_each(|(a, b)| *a += b);
        }
        Self {
            follows: shares[..index].iter().sum(),
            held: if index == 0 {
                HeldBy::Tip
            } else {
                HeldBy::Middle
            },
            stretches,
            shares,
        }
    }

    /// The step nearest to a shift of the point that leaves every stretch its least length and the line within the
    /// longest there is, and what held it back.
    fn step_within(&self, shift: i64) -> (i64, Option<HeldBy>) {
        if self.follows == 0 {
            return (0, (shift != 0).then_some(self.held));
        }
        let wish = shift / self.follows;
        let (mut step, mut held) = (wish, None);
        let mut hold = |limit: i64, upper: bool, by: HeldBy| {
            if (upper && step > limit) || (!upper && step < limit) {
                (step, held) = (limit, Some(by));
            }
        };
        let least = quanta(LEAST_SPACING);
        for (index, (length, share)) in self.stretches.iter().zip(&self.shares).enumerate() {
            let room = (length - least).max(0);
            match share {
                0 => {}
                1.. => hold(-(room / share), false, HeldBy::Stretch(index)),
                _ => hold(room / -share, true, HeldBy::Stretch(index)),
            }
        }
        let growth: i64 = self.shares.iter().sum();
        if growth > 0 {
            let room = quanta(POSITION.high) - self.stretches.iter().sum::<i64>();
            hold(room / growth, true, HeldBy::LongestLine);
        }
        (step, held)
    }

    /// Goes so many steps.
    fn go(&self, points: &mut [DraftPoint], step: i64) {
        if step == 0 {
            return;
        }
        let mut at = 0;
        for (index, (length, share)) in self.stretches.iter().zip(&self.shares).enumerate() {
            at += length + share * step;
            points[index + 1].at_m = metres(at);
        }
    }
}

/// The lengths between neighbouring points, in steps of the grid.
fn stretches(points: &[DraftPoint]) -> Vec<i64> {
    points
        .windows(2)
        .map(|pair| quanta(pair[1].at_m) - quanta(pair[0].at_m))
        .collect()
}

fn quanta(metres: f64) -> i64 {
    i64::from(POSITION.quanta(metres))
}

/// The place of a count of steps. Below zero only on the way to being refused.
#[expect(
    clippy::cast_precision_loss,
    reason = "a hundred metres of tenths of a millimetre"
)]
fn metres(quanta: i64) -> f64 {
    quanta as f64 / f64::from(POSITION.steps)
}

/// Gives the part between two points another length; what lies in it keeps its proportions, what lies behind it moves
/// along. Where both ends are to stay alike, the same part of the other end gets the same length.
pub(super) fn lengthen(
    draft: &mut Draft,
    design: &Design,
    (first, last): (usize, usize),
    length_m: f64,
    ends: Ends,
) -> Result<(), Refusal> {
    let mut stretches = stretches(&design.draft().points);
    let last = last.min(stretches.len());
    if first >= last {
        return Ok(());
    }
    let length = quanta(admit(POSITION, length_m, Place::Point(last))?);
    let grown = in_proportion(&stretches[first..last], length);
    let (mirrored_first, mirrored_last) = (stretches.len() - last, stretches.len() - first);
    let is_apart = mirrored_last <= first || mirrored_first >= last;
    if is_apart && heeds_both_ends(design, ends) {
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

/// Parts of this length together, in the proportions of those given. Their ends are rounded, not they themselves, so that
/// the sum is exact.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "lengths of a line in tenths of a millimetre"
)]
fn in_proportion(parts: &[i64], length: i64) -> Vec<i64> {
    let whole: i64 = parts.iter().sum();
    let (mut until, mut placed) = (0, 0);
    let scaled = parts.iter().map(|part| {
        until += part;
        let end = (until as f64 / whole as f64 * length as f64).round() as i64;
        let part = end - placed;
        placed = end;
        part
    });
    scaled.collect()
}

/// Makes all of the line so many times thicker.
pub(super) fn scale_sizes(draft: &mut Draft, factor: f64) {
    for point in &mut draft.points {
        point.diameter_mm *= factor;
    }
}

/// Adds a point where the drawing passes a place, so that the drawing keeps its shape to a step of the grid. Where both
/// ends are to stay alike, another one at the same distance from the rear.
pub(super) fn add(
    draft: &mut Draft,
    design: &Design,
    at_m: f64,
    ends: Ends,
) -> Result<(), Refusal> {
    let at_m = admit(POSITION, at_m, Place::Taper)?;
    if !heeds_both_ends(design, ends) {
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

/// Takes a point out, and where both ends are to stay alike its like at the other end. The first stays, since the line
/// begins at its tip; two points are the least a taper has.
pub(super) fn remove(
    draft: &mut Draft,
    design: &Design,
    index: usize,
    ends: Ends,
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
    let like = last - index;
    // The end of the line may go, its beginning not; and of three points only the middle one can go alone.
    if like != index && like != 0 && heeds_both_ends(design, ends) {
        draft
            .points
            .remove(if like > index { like - 1 } else { like });
    }
    Ok(())
}
