//! What the braid should look like where the machine stands, and how a measured value is judged by it.
//!
//! The ranges join the maker's tolerance with what the instrument can show, as the root of the sum of their squares: the two have
//! nothing to do with each other. A value from a photo has an error of its own, which stands in the place of the instrument's.

use super::Run;
use super::check::{Check, CheckRange, Judgement, MOST_CHECKS, MOST_OFF, NoCheck, on_grid};
use super::check_kind::CheckKind;
use super::measured::Measured;
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
    tolerances: Tolerances,
    braid: Braid,
    load: Load,
    braiding: Braiding,
    /// Length drawn in one circuit over what the gears should draw, as far as it is known.
    drawn: f64,
}

impl Expected {
    /// What is expected of one kind of value that is read off an instrument.
    pub const fn of(&self, kind: CheckKind) -> CheckRange {
        match kind {
            CheckKind::Angle => self.angle,
            CheckKind::Crossings => self.crossings,
            CheckKind::Diameter => self.diameter,
        }
    }

    /// What is expected of a measured value: its own error, where it has one, stands in the place of the instrument's.
    pub fn of_measured(&self, measured: Measured) -> CheckRange {
        let range = self.of(measured.kind);
        let fine = measured
            .own_error()
            .map(|error| self.tolerances.of_kind(measured.kind).hypot(error));
        CheckRange {
            fine: fine.unwrap_or(range.fine),
            ..range
        }
    }

    /// What is on the machine there, and how its threads pack into a braid.
    pub const fn loaded(&self) -> (Braiding, Load) {
        (self.braiding, self.load)
    }

    /// Judges a measured value.
    ///
    /// The lay `L` that it implies over the planned one: by crossings, of which a rib has `N/(2L)` a metre, planned over measured;
    /// by the angle, `L = π D / tan α` with the path `D` that the same threads have at the measured angle. Both analytic, from
    /// [`crate::braid::geometry`].
    ///
    /// # Errors
    /// [`NoCheck`] where the braid cannot look so.
    pub fn judge(&self, measured: Measured) -> Result<Judgement, NoCheck> {
        let Measured { kind, value, .. } = measured;
        let range = self.of_measured(measured);
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
        let tolerances = Tolerances::of(&braid, design.angle_tolerance());
        Some(Expected {
            angle: tolerances.range(CheckKind::Angle, braid.angle.degrees()),
            crossings: tolerances.range(CheckKind::Crossings, crossings_of(&braid)),
            diameter: tolerances.range(CheckKind::Diameter, braid.diameter.millimetres()),
            tolerances,
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
        measured: Measured,
    ) -> Result<Self, NoCheck> {
        let expected = self.expected(adjusted, design, at);
        let expected = expected.ok_or(NoCheck::NothingBraided)?;
        expected.judge(measured)?;
        let CheckRange { planned, fine } = expected.of_measured(measured);
        let check = Check {
            kind: measured.kind,
            value: on_grid(measured.value),
            error: measured.own_error().map(on_grid),
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

/// How far from what is expected the maker's tolerance lets a value be, before any instrument is thought of; in the units of the kinds.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Tolerances {
    angle: f64,
    crossings: f64,
    diameter: f64,
}

impl Tolerances {
    /// Crossings go with tan α: a small step of the angle changes them by the share dα/(sin α cos α). Analytic.
    fn of(braid: &Braid, tolerance: Angle) -> Self {
        let angle = braid.angle;
        let steepness = angle.radians().sin() * angle.radians().cos();
        Self {
            angle: tolerance.degrees(),
            crossings: crossings_of(braid) * tolerance.radians() / steepness,
            diameter: braid.diameter.millimetres() * DIAMETER_SHARE,
        }
    }

    const fn of_kind(&self, kind: CheckKind) -> f64 {
        match kind {
            CheckKind::Angle => self.angle,
            CheckKind::Crossings => self.crossings,
            CheckKind::Diameter => self.diameter,
        }
    }

    /// The range of a value read off an instrument.
    fn range(&self, kind: CheckKind, planned: f64) -> CheckRange {
        let read = match kind {
            CheckKind::Angle => ANGLE_READ,
            CheckKind::Crossings => CROSSINGS_READ / COUNTED_OVER,
            CheckKind::Diameter => DIAMETER_READ,
        };
        CheckRange {
            planned,
            fine: self.of_kind(kind).hypot(read),
        }
    }
}

/// Crossings along one rib, per centimetre.
fn crossings_of(braid: &Braid) -> f64 {
    braid.crossings_per_metre() / 100.0
}
