//! What a thread plan must meet before it is recommended, however good it is otherwise.

use crate::base::units::{Angle, Length};
use crate::braid::track::Engaged;
use crate::design::Design;
use crate::plan::{Notice, Plan};

/// Most of the line, as a share, over which the angle may stay outside the tolerance. Our own choice.
const MOST_OFF: f64 = 0.02;
/// Farthest the angle may be from the target anywhere, also while it settles, in tolerances. Our own choice.
const FARTHEST: f64 = 3.0;
/// The longest float that any braid may have: what a braid of the usual machine has with all carriers on.
const USUAL_FLOAT: u32 = 2;

/// A condition that a thread plan does not meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unmet {
    /// Some threads never pass over, or never under.
    FallsApart,
    /// The threads do not reach the thickest or the thinnest place of the drawing.
    OutOfReach,
    /// There is no room for all threads beside each other.
    Jams,
    /// The angle stays outside the tolerance over so much of the line.
    AngleOff {
        /// How much, together.
        length: Length,
        /// The angle where it is farthest off.
        worst: Angle,
    },
    /// Somewhere the angle is far outside the tolerance, if only while it settles.
    AngleFar(Angle),
    /// A thread floats over, or under, so many crossings in a row; a braid of all carriers does not.
    Float(u32),
    /// Neighbouring threads are so many places apart; the fewest threads spread evenly would be closer.
    Gap(u32),
}

/// The conditions that the plan of a design does not meet.
pub(in crate::edit) fn unmet(design: &Design, plan: &Plan) -> Vec<Unmet> {
    let mut unmet: Vec<Unmet> = Vec::new();
    let mut add = |one: Unmet| {
        if !unmet.contains(&one) {
            unmet.push(one);
        }
    };
    for notice in &plan.notices {
        match notice {
            Notice::Unsound { .. } => add(Unmet::FallsApart),
            Notice::TooThick { .. } | Notice::TooThin { .. } => add(Unmet::OutOfReach),
            Notice::Jammed { .. } => add(Unmet::Jams),
            Notice::AngleOff { parts, .. } if parts.length > plan.length * MOST_OFF => {
                add(Unmet::AngleOff {
                    length: parts.length,
                    worst: parts.angle,
                });
            }
            _ => {}
        }
    }
    let is_far = plan.worst_angle.off > design.angle_tolerance() * FARTHEST;
    if is_far
        && !unmet
            .iter()
            .any(|one| matches!(one, Unmet::AngleOff { .. }))
    {
        unmet.push(Unmet::AngleFar(plan.worst_angle.angle));
    }
    unmet.extend(interlacing(design, plan));
    unmet
}

fn interlacing(design: &Design, plan: &Plan) -> impl Iterator<Item = Unmet> {
    let track = design.track();
    let all = track.all().fold(Engaged::default(), Engaged::with);
    let most_float = track.interlacing(&all).longest_float.max(USUAL_FLOAT);
    let each_way = (design.supply().fewest / 2).max(1);
    let most_gap = track.places_each_way().div_ceil(each_way);
    let found = plan.interlacings;
    let float = (found.longest_float > most_float).then_some(Unmet::Float(found.longest_float));
    let gap = (found.widest_gap > most_gap).then_some(Unmet::Gap(found.widest_gap));
    float.into_iter().chain(gap)
}
