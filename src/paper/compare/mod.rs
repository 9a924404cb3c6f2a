//! Two lines beside each other: what each weighs and measures, and the difference. The figures come from the table of figures.
//!
//! Every difference is one's own less the other's: what is heavier, longer or thicker than the other is more than zero.

mod amount;
mod compared;
mod places;

use crate::base::units::show::Units;
use crate::base::units::{Length, Mass};
use crate::design::Design;
use crate::paper::figures::FIGURES;
use crate::plan::Plan;

pub use amount::Amount;
pub use compared::{Compared, ComparedWords};
pub use places::{ComparedPlace, MERGED_WITHIN, PlaceValues};

/// Everything two lines are compared by.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Class, weights, sizes and threads, in the order shown.
    pub figures: Vec<Compared>,
    /// What both are like at their control points, in order from the tip.
    pub places: Vec<ComparedPlace>,
}

/// What quantity a figure's number is.
type Reading = fn(f64) -> Amount;

/// The figures compared, by their key.
const COMPARED: [(&str, Reading); 12] = [
    ("head-mass", mass),
    ("tip-mass", mass),
    ("front-mass", mass),
    ("belly-mass", mass),
    ("rear-mass", mass),
    ("total-mass", mass),
    ("length", |metres| {
        Amount::Length(Length::from_metres(metres))
    }),
    ("tip-diameter", diameter),
    ("belly-diameter", diameter),
    ("threads-min", Amount::Count),
    ("threads-max", Amount::Count),
    ("yarn-mass", |kilograms| {
        Amount::Yarn(Mass::from_kilograms(kilograms))
    }),
];

fn mass(kilograms: f64) -> Amount {
    Amount::Mass(Mass::from_kilograms(kilograms))
}

fn diameter(metres: f64) -> Amount {
    Amount::Diameter(Length::from_metres(metres))
}

impl Comparison {
    /// One's own line beside another, each with the plan of its design.
    pub fn of(mine: (&Design, &Plan), other: (&Design, &Plan)) -> Self {
        let figures = COMPARED
            .iter()
            .filter_map(|&(key, amount)| figure(key, amount, mine.1, other.1));
        Self {
            figures: core::iter::once(class(mine.1, other.1))
                .chain(figures)
                .collect(),
            places: places::of(mine, other),
        }
    }
}

fn class(mine: &Plan, other: &Plan) -> Compared {
    Compared {
        key: "class",
        name: "line class",
        mine: Some(Amount::Class(mine.verdict)),
        other: Some(Amount::Class(other.verdict)),
    }
}

/// A row of the table of figures; its name is the figure's.
fn figure(key: &'static str, amount: Reading, mine: &Plan, other: &Plan) -> Option<Compared> {
    let figure = FIGURES.iter().find(|figure| figure.key == key)?;
    // The number is the same in all units.
    let side = |plan| (figure.value)(plan, Units::Metric).si.map(amount);
    Some(Compared {
        key,
        name: figure.name,
        mine: side(mine),
        other: side(other),
    })
}
