//! What a metre of the line weighs along its length: bare, oiled and finished.

use super::finish::Finish;
use super::path::Path;
use super::paths::places;
use crate::base::units::{Length, LinearDensity};
use crate::braid::geometry::Braid;
use crate::plan::Plan;

/// The curve of each state of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct WeightCurves {
    /// The curves, as path data, in the order of [`Finish::ALL`].
    pub curves: [String; 3],
    /// The heaviest metre of the finished line: the top of the picture.
    pub heaviest: LinearDensity,
}

/// The curves of a line in a picture of this width and height, in pixels; the lower edge is a weight of 0.
pub fn weight_curves(plan: &Plan, (width, height): (f64, f64)) -> WeightCurves {
    let process = plan.line.process();
    let fraction = process.braiding.fibre_fraction;
    let braids: Vec<_> = places(&plan.line)
        .map(|(stretch, at)| (at, plan.line.station_in(stretch, at).braid))
        .collect();
    let finished = process.dressing;
    let weighs = |finish: Finish| {
        let dressing = finish.dressing(&finished);
        let of = move |(at, braid): &(Length, Braid)| {
            (*at, dressing.dress(braid, fraction).linear_density)
        };
        braids.iter().map(of).collect::<Vec<_>>()
    };
    let states = Finish::ALL.map(weighs);
    let all = states.iter().flatten().map(|(_, weight)| *weight);
    let heaviest = all.fold(LinearDensity::ZERO, LinearDensity::max);
    let curve = |state: &Vec<(Length, LinearDensity)>| {
        let mut path = Path::default();
        for (at, weight) in state {
            path.to(
                width * (*at / plan.length),
                height * (1.0 - *weight / heaviest),
            );
        }
        path.open()
    };
    WeightCurves {
        curves: [curve(&states[0]), curve(&states[1]), curve(&states[2])],
        heaviest,
    }
}
