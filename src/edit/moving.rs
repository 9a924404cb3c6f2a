//! Moving control points. A drawing is the list of its stretches, the lengths between neighbouring points. Each way to move a
//! point makes some stretches longer and others shorter, by whole multiples of one step. So all moves, mirrored or not, are one
//! sum, and only three things limit a move: a stretch that would become too short, the longest line, and the range of sizes.

use super::ends::keeps_ends_alike;
use super::grid::{metres, quanta, stretches};
use super::limit::MoveLimit;
use super::options::{Along, LevelStretch, MoveOptions};
use crate::design::refusal::{LEAST_SPACING, Place, Refusal, admit};
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{Design, Draft, DraftPoint};

/// The outcome of a move: the draft's points, and what limited the move.
pub(super) struct Moved {
    pub(super) points: Vec<DraftPoint>,
    pub(super) limit: Option<MoveLimit>,
}

/// Moves a point towards a wish, as far as its neighbours and the ranges allow. A wish that is no number counts as the
/// lowest.
pub(super) fn towards(
    design: &Design,
    index: usize,
    wish: DraftPoint,
    options: MoveOptions,
) -> Moved {
    let mut points = design.draft().points.clone();
    let Some(now) = points.get(index).copied() else {
        return Moved {
            points,
            limit: None,
        };
    };
    let (size, limit_in_size) = size_within_range(wish.diameter_mm);
    resize(&mut points, design, index, size, options);
    // Up to twice the longest line, so that the limit is noticed.
    let at_m = clamped(wish.at_m, 0.0, 2.0 * POSITION.high);
    let shift = quanta(at_m) - quanta(now.at_m);
    let changes = StretchChanges::of(design, index, options);
    let (step, limit_lengthwise) = changes.step_within(shift);
    changes.apply(&mut points, step);
    Moved {
        points,
        limit: limit_lengthwise.or(limit_in_size),
    }
}

/// Moves a point exactly there. Whether the outcome is a design is for [`Design::parse`] to say.
pub(super) fn exactly(
    draft: &mut Draft,
    design: &Design,
    index: usize,
    point: DraftPoint,
    options: MoveOptions,
) -> Result<(), Refusal> {
    let Some(now) = design.draft().points.get(index).copied() else {
        return Ok(());
    };
    let place = Place::Point(index);
    admit(DIAMETER, point.diameter_mm, place)?;
    let at_m = admit(POSITION, point.at_m, place)?;
    resize(&mut draft.points, design, index, point.diameter_mm, options);
    let shift = quanta(at_m) - quanta(now.at_m);
    if index == 0 && shift != 0 {
        return Err(Refusal::TipNotAtZero { at: at_m });
    }
    let changes = StretchChanges::of(design, index, options);
    if changes.steps_of_point == 0 && shift != 0 {
        return Err(Refusal::MiddleStays(index));
    }
    if shift != 0 {
        changes.apply(&mut draft.points, shift / changes.steps_of_point);
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

fn size_within_range(wish: f64) -> (f64, Option<MoveLimit>) {
    let size = clamped(wish, DIAMETER.low, DIAMETER.high);
    let limit = if wish > size {
        Some(MoveLimit::Thickest)
    } else {
        (wish < size || wish.is_nan()).then_some(MoveLimit::Thinnest)
    };
    (size, limit)
}

/// Gives a point its size, and with it to the level stretch it ends and to the other end of the line, as the options say.
fn resize(
    points: &mut [DraftPoint],
    design: &Design,
    index: usize,
    size: f64,
    options: MoveOptions,
) {
    let last = points.len() - 1;
    let taper = design.taper();
    let run = |index: usize| match options.level {
        LevelStretch::Stays => taper.level_run(index),
        LevelStretch::Bends => (index, index),
    };
    let mut put = |(first, last): (usize, usize)| {
        for point in &mut points[first..=last] {
            point.diameter_mm = size;
        }
    };
    put(run(index));
    if keeps_ends_alike(design, options.ends) {
        put(run(last - index));
    }
}

/// How a move changes the stretches.
struct StretchChanges {
    /// Length of each stretch before the move, in steps of the grid.
    stretches: Vec<i64>,
    /// By how many steps of the grid each stretch grows with each step of the move.
    shares: Vec<i64>,
    /// By how many steps of the grid the point itself moves with each step of the move.
    steps_of_point: i64,
    /// Why the point cannot move at all, where it cannot.
    fixed_by: MoveLimit,
}

impl StretchChanges {
    fn of(design: &Design, index: usize, options: MoveOptions) -> Self {
        let stretches = stretches(&design.draft().points);
        let mut shares = vec![0; stretches.len()];
        if let Some(before) = index.checked_sub(1) {
            shares[before] += 1;
            let loses = match options.along {
                Along::Alone => Some(index),
                Along::Stretch => Some(index + 1),
                Along::AllAfter => None,
            };
            if let Some(share) = loses.and_then(|loses| shares.get_mut(loses)) {
                *share -= 1;
            }
        }
        if keeps_ends_alike(design, options.ends) {
            let other_end: Vec<i64> = shares.iter().rev().copied().collect();
            shares.iter_mut().zip(other_end).for_each(|(a, b)| *a += b);
        }
        Self {
            steps_of_point: shares[..index].iter().sum(),
            fixed_by: if index == 0 {
                MoveLimit::Tip
            } else {
                MoveLimit::Middle
            },
            stretches,
            shares,
        }
    }

    /// The step nearest to a shift of the point that leaves every stretch its least length and the line within the
    /// longest length allowed, and what limited it.
    fn step_within(&self, shift: i64) -> (i64, Option<MoveLimit>) {
        if self.steps_of_point == 0 {
            return (0, (shift != 0).then_some(self.fixed_by));
        }
        let wish = shift / self.steps_of_point;
        let (mut step, mut limit) = (wish, None);
        let mut hold = |bound: i64, upper: bool, by: MoveLimit| {
            if (upper && step > bound) || (!upper && step < bound) {
                (step, limit) = (bound, Some(by));
            }
        };
        let least = quanta(LEAST_SPACING);
        for (index, (length, share)) in self.stretches.iter().zip(&self.shares).enumerate() {
            let room = (length - least).max(0);
            match share {
                0 => {}
                1.. => hold(-(room / share), false, MoveLimit::Stretch(index)),
                _ => hold(room / -share, true, MoveLimit::Stretch(index)),
            }
        }
        let growth: i64 = self.shares.iter().sum();
        if growth > 0 {
            let room = quanta(POSITION.high) - self.stretches.iter().sum::<i64>();
            hold(room / growth, true, MoveLimit::LongestLine);
        }
        (step, limit)
    }

    /// Moves the points by a count of steps.
    fn apply(&self, points: &mut [DraftPoint], step: i64) {
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
