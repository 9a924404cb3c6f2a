//! What the maker should know before braiding by this plan.

use super::Plan;
use crate::design::Design;
use crate::design::settings::TEETH;
use crate::taper::Taper;
use crate::track::{Carrier, Interlacing};
use crate::units::{Angle, Length};

/// A thing to know, with the figures to say it.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    /// The drawing is thicker than all threads together can make it.
    TooThick {
        /// Threads the thickest place calls for.
        wanted: f64,
        /// Threads there are.
        most: u32,
        /// Thickest finished diameter they make.
        possible: Length,
    },
    /// The drawing is thinner than the fewest threads make it.
    TooThin {
        /// Threads the thinnest place calls for.
        wanted: f64,
        /// Fewest threads set.
        fewest: u32,
        /// Thinnest finished diameter they make.
        possible: Length,
    },
    /// No gear owned brings these stretches within the tolerance.
    AngleOff {
        /// How many stretches.
        stretches: usize,
        /// Where the worst of them begins.
        from: Length,
        /// The angle there.
        angle: Angle,
        /// Teeth and angle of a wheel not owned that would be within the tolerance there, if there is one.
        mended: Option<(u32, Angle)>,
    },
    /// With this many threads some never pass over, or never under.
    Unsound {
        /// Thread count.
        threads: u32,
        /// Carriers of the threads that lie loose.
        carriers: Vec<Carrier>,
    },
}

/// Half a thread: less than that is rounding, not a wish that cannot be met.
const ROUNDING: f64 = 0.5;

pub(super) fn of(design: &Design, plan: &Plan, interlacings: &[Interlacing]) -> Vec<Notice> {
    let mut notices: Vec<Notice> = unsound(plan.threads_min(), interlacings).collect();
    let taper = design.taper();
    notices.extend(too_thick(&taper, plan));
    notices.extend(too_thin(&taper, plan));
    notices.extend(angle_off(design, plan));
    notices
}

/// The states that fall apart; `interlacings` begin with that of the fewest threads.
fn unsound(fewest: u32, interlacings: &[Interlacing]) -> impl Iterator<Item = Notice> {
    let states = (fewest..)
        .zip(interlacings)
        .filter(|(_, found)| !found.is_sound());
    states.map(|(threads, found)| Notice::Unsound {
        threads,
        carriers: found.unsound.clone(),
    })
}

fn too_thick(taper: &Taper, plan: &Plan) -> Option<Notice> {
    let thickest = taper.thickest();
    let (wanted, most) = (plan.staircase.wanted(thickest), plan.staircase.most);
    let possible = plan.staircase.diameter(f64::from(most));
    (wanted > f64::from(most) + ROUNDING).then_some(Notice::TooThick {
        wanted,
        most,
        possible,
    })
}

fn too_thin(taper: &Taper, plan: &Plan) -> Option<Notice> {
    let thinnest = taper.thinnest();
    let (wanted, fewest) = (plan.staircase.wanted(thinnest), plan.staircase.fewest);
    let possible = plan.staircase.diameter(f64::from(fewest));
    (wanted < f64::from(fewest) - ROUNDING).then_some(Notice::TooThin {
        wanted,
        fewest,
        possible,
    })
}

fn angle_off(design: &Design, plan: &Plan) -> Option<Notice> {
    let (target, tolerance) = (design.target_angle(), design.angle_tolerance());
    let stretches = plan
        .stretches
        .iter()
        .filter(|stretch| stretch.off(target) > tolerance)
        .count();
    let worst = plan.stretch_at(plan.worst_angle.from);
    (stretches > 0).then(|| Notice::AngleOff {
        stretches,
        from: worst.from,
        angle: worst.fit.braid.angle,
        mended: wheel_to_get(design, worst.threads),
    })
}

/// A wheel not owned that would bring this many threads within the tolerance.
fn wheel_to_get(design: &Design, threads: u32) -> Option<(u32, Angle)> {
    let (take_off, target) = (design.take_off(), design.target_angle());
    let made = TEETH.quanta(TEETH.low)..=TEETH.quanta(TEETH.high);
    let best = take_off.ideal(&design.braiding(), threads, target, made);
    let is_within = (best.braid.angle - target).abs() <= design.angle_tolerance();
    let is_owned = take_off.gears.contains(&best.gear);
    (is_within && !is_owned).then_some((best.gear, best.braid.angle))
}
