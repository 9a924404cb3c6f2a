//! Which levels a drawing calls for, judged by what the levels weigh as they are really made.
//!
//! At the target angle a level weighs what its yarn does. But gears come in whole teeth and end somewhere: where no gear brings
//! a level to the target, it is heavier or lighter by the cosine of its angle, and another level may be nearer to the drawing.

use super::ground::Ground;
use super::places::Layout;
use crate::base::units::Length;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::{Change, Staircase};

impl Ground {
    /// The staircase of levels that each have the wheels that bring them nearest to the target.
    pub(super) fn staircase_with_nearest_wheels(&self) -> Staircase {
        let nearest = |level: usize| {
            let braiding = &self.process.braiding;
            let (load, target) = (self.loads[level], self.process.target);
            let fit = self.take_off.nearest(&self.choices, braiding, load, target);
            fit.map_or(self.choices[0], |fit| fit.wheels)
        };
        let yarn = (0..self.levels.len()).map(|level| self.yarn_as_made(level, nearest(level)));
        self.staircase_of(yarn.collect())
    }

    /// Whether two staircases call for the same levels in the same order. Places differ a little, and are found later.
    pub(super) fn calls_alike(&self, one: &Staircase, other: &Staircase) -> bool {
        let points = self.taper.points();
        let (one, other) = (one.changes(points), other.changes(points));
        let alike = |(a, b): (&Change, &Change)| (a.lower, a.rising) == (b.lower, b.rising);
        one.0 == other.0 && one.1.len() == other.1.len() && one.1.iter().zip(&other.1).all(alike)
    }

    /// The staircase of a layout, but levels that it has weigh what the wheels of their longest interval make of them.
    pub(super) fn staircase_as_laid_out(&self, layout: &Layout) -> Staircase {
        let mut staircase = layout.staircase.clone();
        let mut longest = vec![Length::ZERO; self.levels.len()];
        let ends = super::ends(&layout.stops, self.taper.length());
        for (interval, &wheels) in layout.wheels.iter().enumerate() {
            let (level, length) = (layout.level(interval), ends[interval + 1] - ends[interval]);
            if length > longest[level] {
                longest[level] = length;
                staircase.yarn[level] = self.yarn_as_made(level, wheels);
            }
        }
        self.staircase_of(staircase.yarn)
    }

    /// Yarn that at the target angle would weigh what a level does with these wheels, in standard threads.
    pub(super) fn yarn_as_made(&self, level: usize, wheels: Wheels) -> f64 {
        self.steady_state(level, wheels).braid.linear_density / self.standard_thread()
    }

    /// A staircase must ascend. With gears far apart a level can weigh less than the one before it: then it is no step up.
    fn staircase_of(&self, mut yarn: Vec<f64>) -> Staircase {
        for level in 1..yarn.len() {
            yarn[level] = yarn[level].max(yarn[level - 1]);
        }
        Staircase {
            yarn,
            ..self.staircase.clone()
        }
    }
}
