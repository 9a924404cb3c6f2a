//! Notices of the braid angle: where it stays outside the tolerance and why, and where it only settles.

use crate::base::units::{Angle, Length};
use crate::braid::stretch::Stretch;
use crate::braid::takeoff::{TEETH, Wheels};
use crate::design::Design;
use crate::plan::contents::Plan;
use crate::plan::layout::Ground;
use crate::plan::notice::{AngleCause, BetterWheels, GearFault, Notice, OutsideParts};

pub(super) fn notices(design: &Design, ground: &Ground, plan: &Plan) -> Vec<Notice> {
    let (target, tolerance) = (design.target_angle(), design.angle_tolerance());
    let is_lasting = |stretch: &Stretch| (stretch.steady.angle - target).abs() > tolerance;
    let outside = |lasting: bool| {
        let mut found = Search::new(target);
        let stretches = plan.line.stretches().iter();
        for stretch in stretches.filter(|stretch| is_lasting(stretch) == lasting) {
            for part in stretch.outside(target, tolerance) {
                found.add(stretch, part);
            }
        }
        found
    };
    let Search { parts, level, .. } = outside(true);
    let lasting = parts.map(|parts| Notice::AngleOff {
        parts,
        cause: cause(design, ground, parts.at, level),
    });
    let settling = outside(false).parts.map(Notice::AngleSettling);
    lasting.into_iter().chain(settling).collect()
}

/// Parts found so far, from the tip on.
struct Search {
    target: Angle,
    /// Where the part found last begins and ends.
    last: (Length, Length),
    parts: Option<OutsideParts>,
    /// The level where the angle is farthest from the target.
    level: usize,
}

impl Search {
    fn new(target: Angle) -> Self {
        Self {
            target,
            last: (Length::ZERO, Length::ZERO),
            parts: None,
            level: 0,
        }
    }

    /// A part of a stretch; one that begins where the last ended belongs to it.
    fn add(&mut self, stretch: &Stretch, (from, to): (Length, Length)) {
        let continues = self.parts.is_some() && self.last.1 == from;
        self.last = (if continues { self.last.0 } else { from }, to);
        // Within a stretch the angle only rises or only falls, so it is farthest off at one of its ends.
        let off = |at: &Length| (stretch.angle_at(*at) - self.target).abs();
        let at = if off(&to) > off(&from) { to } else { from };
        let part = OutsideParts {
            count: 1,
            length: to - from,
            longest: self.last,
            at,
            angle: stretch.angle_at(at),
        };
        let is_worst = |before: &OutsideParts| part.off(self.target) > before.off(self.target);
        if self.parts.as_ref().is_none_or(is_worst) {
            self.level = stretch.piece.level;
        }
        self.parts = Some(match self.parts {
            None => part,
            Some(before) => self.joined(before, part, continues),
        });
    }

    fn joined(&self, before: OutsideParts, part: OutsideParts, continues: bool) -> OutsideParts {
        let length = |(from, to): (Length, Length)| to - from;
        let is_worse = part.off(self.target) > before.off(self.target);
        let worst = if is_worse { part } else { before };
        OutsideParts {
            count: before.count + usize::from(!continues),
            length: before.length + part.length,
            longest: if length(part.longest) > length(before.longest) {
                part.longest
            } else {
                before.longest
            },
            ..worst
        }
    }
}

impl OutsideParts {
    fn off(&self, target: Angle) -> Angle {
        (self.angle - target).abs()
    }
}

/// Why a level that the line has at a place stays outside. A gear to buy is for the level that the line would have there at the
/// target angle: with other gears it is braided with as many threads as then weigh what is drawn.
fn cause(design: &Design, ground: &Ground, at: Length, level: usize) -> AngleCause {
    let (take_off, target) = (&ground.take_off, design.target_angle());
    let braiding = &ground.process.braiding;
    let nearest = |choices: &[Wheels], level: usize| {
        let fit = take_off.nearest(choices, braiding, ground.loads[level], target)?;
        let (wheels, angle) = (fit.wheels, fit.braid.angle);
        Some(BetterWheels { wheels, angle })
    };
    let within = |found: &BetterWheels| (found.angle - target).abs() <= design.angle_tolerance();
    let owned = nearest(&ground.choices, level);
    if let Some(better) = owned.filter(within) {
        return AngleCause::OtherWheelsChosen(better);
    }
    let called_for = ground.staircase.nearest(ground.taper.diameter_at(at));
    let teeth = TEETH.quanta(TEETH.low)..=TEETH.quanta(TEETH.high);
    AngleCause::NoWheelsOwned {
        buy: nearest(&take_off.choices_with_one_more(teeth), called_for).filter(within),
        fault: gear_fault(ground, level),
    }
}

/// The shortest lay makes the largest angle.
fn gear_fault(ground: &Ground, level: usize) -> GearFault {
    let process = &ground.process;
    let ideal = process
        .braiding
        .at_angle(ground.loads[level], process.target);
    let lays = || {
        ground
            .choices
            .iter()
            .map(|&wheels| ground.take_off.lay(wheels))
    };
    if lays().all(|lay| lay > ideal.lay) {
        GearFault::AllTooFast
    } else if lays().all(|lay| lay < ideal.lay) {
        GearFault::AllTooSlow
    } else {
        GearFault::TooFarApart
    }
}
