//! What the braid should look like where the machine stands, and how a measured value is judged by it.
//!
//! The ranges join the maker's tolerance with what the instrument can show, as the root of the sum of their squares: the two have
//! nothing to do with each other.

use super::Run;
use super::check::{
    Check, CheckKind, CheckRange, Judgement, MOST_CHECKS, MOST_OFF, NoCheck, on_grid,
};
use crate::base::units::{Angle, Length};
use crate::braid::geometry::{Braid, Braiding, Load};
use crate::design::Design;
use crate::plan::AdjustedPlan;

/// What a protractor shows, degrees. Our own choice: one line of its scale.
const ANGLE_READ: f64 = 1.0;
/// Crossings by which a count may be wrong. Our own choice: one, at the end of the length.
const CROSSINGS_READ: f64 = 1.0;
/// Length over which crossings are counted, centimetres. Our own choice.
const COUNTED_OVER: f64 = 5.0;
/// What a micrometer shows of a soft braid, millimetres. Our own choice: two lines of its scale.
const DIAMETER_READ: f64 = 0.02;
/// Share of a diameter by which it may be off. Our own choice: one thread of sixteen does as much, since a diameter is as the root of
/// the threads.
const DIAMETER_SHARE: f64 = 0.03;
/// An angle nearer than this to the one it settles at has settled, degrees. Our own choice: half of what can be read.
const SETTLED: f64 = 0.5;

/// What the braid should look like at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// Braid angle, degrees.
    pub angle: CheckRange,
    /// Crossings along one rib, per centimetre.
    pub crossings: CheckRange,
    /// Diameter of the bare braid, millimetres.
    pub diameter: CheckRange,
    /// Line still to braid until the angle has settled; nothing where it has.
    pub settles_after: Option<Length>,
    braid: Braid,
    load: Load,
    braiding: Braiding,
    /// Length drawn in one circuit over what the gears should draw, as far as it is known.
    drawn: f64,
}

impl Expected {
    /// What is expected of one kind of value.
    pub const fn of(&self, kind: CheckKind) -> CheckRange {
        match kind {
            CheckKind::Angle => self.angle,
            CheckKind::Crossings => self.crossings,
            CheckKind::Diameter => self.diameter,
        }
    }

    /// Judges a measured value, in the unit of its kind.
    ///
    /// The lay `L` that it implies over the planned one: by crossings, of which a rib has `N/(2L)` a metre, planned over measured;
    /// by the angle, `L = π D / tan α` with the path `D` that the same threads have at the measured angle. Both analytic, from
    /// [`crate::braid::geometry`].
    ///
    /// # Errors
    /// [`NoCheck`] where the braid cannot look so.
    pub fn judge(&self, kind: CheckKind, value: f64) -> Result<Judgement, NoCheck> {
        let range = self.of(kind);
        if !(value > 0.0 && value.is_finite()) {
            return Err(NoCheck::NotPositive);
        }
        if kind == CheckKind::Angle && value >= 90.0 {
            return Err(NoCheck::NoAngle);
        }
        let lay = match kind {
            CheckKind::Angle => {
                let measured = self
                    .braiding
                    .at_angle(self.load, Angle::from_degrees(value));
                Some(measured.lay / self.braid.lay)
            }
            CheckKind::Crossings => Some(range.planned / value),
            CheckKind::Diameter => None,
        };
        let times = lay.unwrap_or(value / range.planned);
        if !(1.0 / MOST_OFF..=MOST_OFF).contains(&times) {
            let planned = range.planned;
            return Err(NoCheck::TooFar { planned });
        }
        Ok(Judgement {
            level: range.level(value),
            drawn: lay.map(|lay| lay * self.drawn),
        })
    }
}

impl Run {
    /// What the braid should look like at a place since the last step done; before the start, on the lead-in.
    ///
    /// At that step's own place, where nothing of the new level is braided yet, it is what the level comes to before the next
    /// stop. `None` where something else is due at that very place. `design` is the one that the line is braided by.
    pub fn expected(
        &self,
        adjusted: &AdjustedPlan,
        design: &Design,
        at: Length,
    ) -> Option<Expected> {
        let (events, line) = (&adjusted.events, &adjusted.line);
        let done = self.done_of(adjusted).max(1);
        let last = events.get(done - 1)?.at;
        let next = events.get(done).map_or(line.length(), |event| event.at);
        let is_since = at > last || done == events.len();
        if !is_since && next <= last {
            return None;
        }
        let place = if is_since {
            at.min(line.length())
        } else {
            next
        };
        let station = line.station_before(place);
        let (braid, load) = (station.braid, station.piece.load);
        let stretch = line.stretch_at(at);
        let settled = line.station_before(next.max(place)).braid.angle;
        let off = (stretch.angle_at(at.max(last)) - settled).abs().degrees();
        // What is left of a step dies away by the same share in every lag.
        let settles_after =
            (off > SETTLED).then(|| stretch.convergence.lag() * (off / SETTLED).ln());
        let settles_after = settles_after.map(|after| after.min(next.max(at) - at));
        let ranges = Ranges::of(&braid, design.angle_tolerance());
        Some(Expected {
            angle: ranges.angle,
            crossings: ranges.crossings,
            diameter: ranges.diameter,
            settles_after: settles_after.filter(|after| *after > Length::ZERO),
            braid,
            load,
            braiding: line.process().braiding,
            drawn: adjusted.drawn_at(place),
        })
    }

    /// The run with something measured at a place since the last step done. What was measured of the same kind at the same place
    /// before was a slip: the new value takes its place.
    ///
    /// # Errors
    /// [`NoCheck`] where the value cannot be, or there is no room.
    pub fn checked(
        &self,
        adjusted: &AdjustedPlan,
        design: &Design,
        at: Length,
        (kind, value): (CheckKind, f64),
    ) -> Result<Self, NoCheck> {
        let expected = self.expected(adjusted, design, at);
        let expected = expected.ok_or(NoCheck::NothingBraided)?;
        expected.judge(kind, value)?;
        let CheckRange { planned, fine } = expected.of(kind);
        let check = Check {
            kind,
            value: on_grid(value),
            planned: on_grid(planned),
            fine: on_grid(fine),
            done: self.done_of(adjusted),
            at_m: super::place_on_grid(at.max(Length::ZERO)),
        };
        let place = |check: &Check| (check.kind, check.done, check.at_m.to_bits());
        let mut run = self.clone();
        run.checks.retain(|other| place(other) != place(&check));
        if run.checks.len() >= MOST_CHECKS {
            return Err(NoCheck::TooMany);
        }
        run.checks.push(check);
        Ok(run)
    }

    /// The last check of a kind since the last step done.
    pub fn last_check(&self, kind: CheckKind) -> Option<&Check> {
        let mut checks = self.checks.iter().rev();
        checks.find(|check| check.kind == kind && check.done == self.done)
    }

    /// The run without that check.
    #[must_use]
    pub fn without_check(mut self, kind: CheckKind) -> Self {
        let last = self.last_check(kind).copied();
        let at = self.checks.iter().rposition(|check| Some(*check) == last);
        if let Some(at) = at {
            self.checks.remove(at);
        }
        self
    }
}

/// The ranges of all kinds.
struct Ranges {
    angle: CheckRange,
    crossings: CheckRange,
    diameter: CheckRange,
}

impl Ranges {
    /// Crossings go with tan α: a small step of the angle changes them by the share dα/(sin α cos α). Analytic.
    fn of(braid: &Braid, tolerance: Angle) -> Self {
        let angle = braid.angle;
        let steepness = angle.radians().sin() * angle.radians().cos();
        let crossings = braid.crossings_per_metre() / 100.0;
        let diameter = braid.diameter.millimetres();
        Self {
            angle: CheckRange {
                planned: angle.degrees(),
                fine: tolerance.degrees().hypot(ANGLE_READ),
            },
            crossings: CheckRange {
                planned: crossings,
                fine: (crossings * tolerance.radians() / steepness)
                    .hypot(CROSSINGS_READ / COUNTED_OVER),
            },
            diameter: CheckRange {
                planned: diameter,
                fine: (diameter * DIAMETER_SHARE).hypot(DIAMETER_READ),
            },
        }
    }
}
