//! What a metre of the line weighs along its length: bare, oiled and finished.

use super::paths::{self, Path};
use crate::base::units::{Length, LinearDensity};
use crate::braid::dressing::Dressing;
use crate::braid::geometry::Braid;
use crate::plan::Plan;

/// Which state of the line is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// As it comes from the machine.
    Bare,
    /// Once its last coat of oil is dry, before varnish and grease.
    Oiled,
    /// Ready to fish.
    Finished,
}

impl Finish {
    /// Every state, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Bare, Self::Oiled, Self::Finished];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::Oiled => "oiled",
            Self::Finished => "finished",
        }
    }

    /// What is on the line then.
    pub fn dressing(self, finished: &Dressing) -> Dressing {
        match self {
            Self::Bare => Dressing::BARE,
            Self::Oiled => Dressing {
                oil: finished.oil,
                weighed: finished.weighed,
                ..Dressing::BARE
            },
            Self::Finished => *finished,
        }
    }
}

/// The picture: size in pixels, and the curve of each state.
#[derive(Clone, Debug, PartialEq)]
pub struct Heft {
    /// The curves, as path data, in the order of [`Finish::ALL`].
    pub curves: [String; 3],
    /// The heaviest metre of the finished line: the top of the picture.
    pub heaviest: LinearDensity,
}

/// The picture of a line in this many pixels; nothing weighs at its foot.
pub fn heft(plan: &Plan, (width, height): (f64, f64)) -> Heft {
    let making = plan.line.making();
    let fraction = making.braiding.fibre_fraction;
    let braids: Vec<_> = paths::places(&plan.line)
        .map(|(stretch, at)| (at, plan.line.station_in(stretch, at).braid))
        .collect();
    let finished = making.dressing;
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
    Heft {
        curves: [curve(&states[0]), curve(&states[1]), curve(&states[2])],
        heaviest,
    }
}
