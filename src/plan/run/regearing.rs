//! How the gears of the rest of a line change by a correction, and what that gains.

use crate::base::units::{Angle, Length};
use crate::braid::stretch::BraidedLine;
use crate::braid::takeoff::Wheels;
use crate::plan::{Action, AdjustedPlan, Event};

/// How the gears of the rest change by a correction.
#[derive(Clone, Debug, PartialEq)]
pub struct Regearing {
    /// Where the machine stands.
    pub at: Length,
    /// Stretches with another gear than before, in order.
    pub others: Vec<OtherGear>,
    /// Places where a gear was to be changed, and now none is.
    pub spared: Vec<Length>,
    /// By how much the settled angle comes nearer to the target on the stretch between two stops that gains most; 0 where none does.
    pub gain: Angle,
}

/// A stretch with another gear than before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OtherGear {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// What is now fitted on it.
    pub wheels: Wheels,
    /// What was to be fitted on it.
    pub instead_of: Wheels,
}

impl Regearing {
    /// How two plans differ that have the same changes of thread, from a place on.
    pub(super) fn between(
        before: &AdjustedPlan,
        after: &AdjustedPlan,
        at: Length,
        target: Angle,
    ) -> Self {
        let length = after.line.length();
        let gears = |plan: &AdjustedPlan| -> Vec<Length> {
            let is_gear = |event: &&Event| matches!(event.action, Action::Gear { .. });
            let places = plan.events.iter().filter(is_gear).map(|event| event.at);
            places.filter(|place| *place >= at).collect()
        };
        let (old, new) = (gears(before), gears(after));
        let mut places: Vec<Length> = [&[at], &old[..], &new[..], &[length]].concat();
        places.sort_by(|a, b| a.metres().total_cmp(&b.metres()));
        let mut others: Vec<OtherGear> = Vec::new();
        for ends in places.windows(2).filter(|ends| ends[0] < ends[1]) {
            let (wheels, instead_of) = (wheels_at(after, ends[0]), wheels_at(before, ends[0]));
            let (Some(wheels), Some(instead_of)) = (wheels, instead_of) else {
                continue;
            };
            let here = OtherGear {
                from: ends[0],
                to: ends[1],
                wheels,
                instead_of,
            };
            match others
                .last_mut()
                .filter(|before| before.is_continued_by(&here))
            {
                Some(before) => before.to = here.to,
                None if wheels != instead_of => others.push(here),
                None => {}
            }
        }
        let spared = old.into_iter().filter(|place| !new.contains(place));
        Self {
            at,
            others,
            spared: spared.collect(),
            gain: gain(before, after, at, target),
        }
    }
}

impl OtherGear {
    fn is_continued_by(&self, next: &Self) -> bool {
        (self.to, self.wheels, self.instead_of) == (next.from, next.wheels, next.instead_of)
    }
}

/// The wheels that are fitted from a place on.
fn wheels_at(plan: &AdjustedPlan, at: Length) -> Option<Wheels> {
    let after = plan.events.partition_point(|event| event.at <= at);
    let last = plan.events[..after].last();
    last.map(|event| event.wheels)
}

/// By how much the settled angle comes nearer to the target on the stretch between two stops that gains most.
fn gain(before: &AdjustedPlan, after: &AdjustedPlan, at: Length, target: Angle) -> Angle {
    let stops = after
        .events
        .iter()
        .filter(|event| event.action.is_of_threads());
    let stops = stops.map(|event| event.at).filter(|place| *place > at);
    let mut places = vec![at];
    places.extend(stops);
    places.push(after.line.length());
    let gains = places
        .windows(2)
        .filter(|ends| ends[0] < ends[1])
        .map(|ends| {
            let off = |line| mean_off(line, (ends[0], ends[1]), target);
            off(&before.line) - off(&after.line)
        });
    gains.fold(Angle::ZERO, Angle::max)
}

/// How far the settled angle is from the target between two places, on average.
fn mean_off(line: &BraidedLine, (from, to): (Length, Length), target: Angle) -> Angle {
    let stretches = line.stretches().iter();
    let within = stretches.filter(|stretch| stretch.from() < to && from < stretch.to());
    within.fold(Angle::ZERO, |sum, stretch| {
        let part = stretch.to().min(to) - stretch.from().max(from);
        sum + (stretch.steady.angle - target).abs() * (part / (to - from))
    })
}
