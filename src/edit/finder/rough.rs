//! A rough judgement of thread plans, as if gears came in any size.

use super::thread_plan::{
    PER_CHANGE, PER_FURTHER_KIND, PER_GEAR_CHANGE, PER_GRAIN, PER_PERCENT_OF_DIAMETER,
};
use crate::base::units::{Length, LinearDensity, Mass};
use crate::braid::geometry::Load;
use crate::braid::ladder::LadderCache;
use crate::braid::threads::{Build, Change, Supply};
use crate::braid::weight::Class;
use crate::design::Design;
use crate::plan::Plan;
use crate::plan::layout::Ground;

/// A quick judgement: every level at the target angle, changes where the drawing passes them, nothing late or buried.
#[derive(Clone, Debug)]
pub(super) struct RoughEstimate {
    pub(super) ground: Ground,
    head: Option<(Length, Length)>,
    target: Option<f64>,
}

impl RoughEstimate {
    pub(super) fn of(design: &Design, ladders: &mut LadderCache) -> Self {
        let plan = Plan::with(design, ladders);
        let head = plan.head_mass.map(|_| (plan.head.from, plan.head.to));
        Self {
            ground: Ground::of(design),
            head,
            target: plan.head_drawn.map(|head| Class::nearest(head).target),
        }
    }

    pub(super) fn demerit(&self, supply: &Supply) -> f64 {
        let ground = &self.ground;
        let levels = supply.levels();
        // Loads count in the design's standard thread here, whatever thread the plan plies.
        let size = f64::from(supply.light) / f64::from(ground.supply.light);
        let mut staircase = ground.staircase.clone();
        staircase.yarn = levels
            .iter()
            .map(|&level| supply.load(level).yarn * size)
            .collect();
        let (first, changes) = staircase.changes(ground.taper.points());
        let mut sums = (0.0, Mass::ZERO);
        let (mut from, mut level) = (Length::ZERO, first);
        let ends = changes.iter().map(|change| (change.at, change.after()));
        for (to, next) in ends.chain([(ground.taper.length(), 0)]) {
            self.add(&mut sums, (from, to), staircase.yarn[level]);
            (from, level) = (to, next);
        }
        self.judged(sums, &changes, supply)
    }

    /// Adds a run's squared error of diameter, and its part of the head.
    fn add(&self, sums: &mut (f64, Mass), (from, to): (Length, Length), yarn: f64) {
        let ground = &self.ground;
        let made = ground.staircase.diameter(yarn);
        let squared = |at: Length| (made / ground.taper.diameter_at(at) - 1.0).powi(2);
        // Only the points within the level: a line of many points has many levels too.
        let points = ground.taper.points();
        let first = points.partition_point(|point| point.at <= from);
        let pairs = points[first.saturating_sub(1)..].windows(2);
        for pair in pairs.take_while(|pair| pair[0].at < to) {
            // The drawing is straight between control points, where Simpson's rule serves.
            let (from, to) = (pair[0].at.max(from), pair[1].at.min(to));
            if from < to {
                let sum = squared(from) + 4.0 * squared((from + to) / 2.0) + squared(to);
                sums.0 += sum / 6.0 * (to - from).metres();
            }
        }
        if let Some((begin, end)) = self.head {
            let length = to.min(end) - from.max(begin);
            if length > Length::ZERO {
                sums.1 += length * self.dressed(yarn);
            }
        }
    }

    fn dressed(&self, yarn: f64) -> LinearDensity {
        let process = &self.ground.process;
        let load = Load {
            yarn,
            ..Load::from(1)
        };
        let braid = process.braiding.at_angle(load, process.target);
        process
            .dressing
            .dress(&braid, process.braiding.fibre_fraction)
            .linear_density
    }

    fn judged(&self, (error, head): (f64, Mass), changes: &[Change], supply: &Supply) -> f64 {
        let grains = self
            .target
            .map_or(0.0, |target| (head.grains() - target).abs());
        let percent = 100.0 * (error / self.ground.taper.length().metres()).sqrt();
        let kinds = if supply.build == Build::MoreThreads {
            0.0
        } else {
            1.0
        };
        grains * PER_GRAIN
            + percent * PER_PERCENT_OF_DIAMETER
            + changes.len() as f64 * (PER_CHANGE + PER_GEAR_CHANGE)
            + kinds * PER_FURTHER_KIND
    }
}
