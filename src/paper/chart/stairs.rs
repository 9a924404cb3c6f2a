//! The threads along a whole line, small: one step for each stretch.

use super::path::Path;
use crate::base::units::Length;
use crate::plan::Plan;

/// Its size in units of its own; the page stretches it.
pub const SIZE: (f64, f64) = (1000.0, 60.0);

/// The picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Stairs {
    /// The steps and the area below them, closed.
    pub area: String,
    length: Length,
}

impl Stairs {
    /// Of a plan. A heavier thread counts as the standard threads it weighs.
    pub fn of(plan: &Plan) -> Self {
        let (width, height) = SIZE;
        let stretches = plan.line.stretches();
        let most = stretches
            .iter()
            .map(|stretch| stretch.piece.load.yarn)
            .fold(1.0, f64::max);
        let x_of = |at: Length| width * (at / plan.length);
        let mut path = Path::default();
        path.to(0.0, height);
        for stretch in stretches {
            let y = height * (1.0 - stretch.piece.load.yarn / most);
            path.to(x_of(stretch.from()), y);
            path.to(x_of(stretch.to()), y);
        }
        path.to(width, height);
        Self {
            area: path.closed(),
            length: plan.length,
        }
    }

    /// How far from the left a place on the line is.
    pub fn x_of(&self, at: Length) -> f64 {
        SIZE.0 * (at / self.length).clamp(0.0, 1.0)
    }

    /// The place at this share of the width.
    pub fn place_at(&self, share: f64) -> Length {
        self.length * share.clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;

    #[test]
    fn a_place_and_its_share_of_the_width_lead_to_each_other() {
        let stairs = Stairs::of(&Plan::of(&demo()));
        for share in [0.0, 0.25, 0.9, 1.0] {
            let at = stairs.place_at(share);
            assert!((stairs.x_of(at) / SIZE.0 - share).abs() < 1e-12);
        }
    }

    #[test]
    fn the_highest_step_reaches_the_top() {
        let stairs = Stairs::of(&Plan::of(&demo()));
        let tops = || stairs.area.split(['M', 'L', 'H', 'V', 'Z']);
        let heights = tops().filter_map(|point| point.split_once(' ')?.1.parse::<f64>().ok());
        let least = heights.fold(f64::INFINITY, f64::min);
        assert!(least.abs() < 0.05, "{least} in {}", stairs.area);
    }
}
