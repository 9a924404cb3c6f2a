//! What the maker should know before braiding by this plan.

use super::{Plan, Stretch};
use crate::design::Design;
use crate::track::Carrier;
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
        /// Teeth of the wheel that would come nearest to the target there, owned or not.
        teeth: u32,
        /// The angle it would make.
        mended: Angle,
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

pub(super) fn of(design: &Design, plan: &Plan) -> Vec<Notice> {
    let mut notices: Vec<Notice> = unsound(plan).collect();
    notices.extend(too_thick(design, plan));
    notices.extend(too_thin(design, plan));
    notices.extend(angle_off(design, plan));
    notices
}

fn unsound(plan: &Plan) -> impl Iterator<Item = Notice> {
    (plan.threads_min()..=plan.threads_max()).filter_map(|threads| {
        let carriers = plan.ladder.interlacing(threads).unsound;
        (!carriers.is_empty()).then_some(Notice::Unsound { threads, carriers })
    })
}

fn drawn_diameters(design: &Design) -> impl Iterator<Item = Length> {
    design
        .draft()
        .points
        .iter()
        .map(|point| Length::from_millimetres(point.diameter_mm))
}

fn too_thick(design: &Design, plan: &Plan) -> Option<Notice> {
    let thickest = drawn_diameters(design).fold(Length::ZERO, Length::max);
    let (wanted, most) = (plan.staircase.wanted(thickest), plan.staircase.most);
    let possible = plan.staircase.diameter(f64::from(most));
    (wanted > f64::from(most) + ROUNDING).then_some(Notice::TooThick {
        wanted,
        most,
        possible,
    })
}

fn too_thin(design: &Design, plan: &Plan) -> Option<Notice> {
    let thinnest = drawn_diameters(design).fold(Length::from_metres(f64::INFINITY), Length::min);
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
    let is_off = |stretch: &&Stretch| (stretch.fit.braid.angle - target).abs() > tolerance;
    let stretches = plan.stretches.iter().filter(is_off).count();
    let worst = plan.stretch_at(plan.worst_angle.from);
    (stretches > 0).then(|| {
        let best = design
            .take_off()
            .ideal(&design.braiding(), worst.threads, target);
        Notice::AngleOff {
            stretches,
            from: worst.from,
            angle: worst.fit.braid.angle,
            teeth: best.gear,
            mended: best.braid.angle,
        }
    })
}
