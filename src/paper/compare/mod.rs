//! Two lines beside each other: what each weighs and measures, and by how much the maker's own differs.
//!
//! Every difference is one's own less the other's: what is heavier, longer or thicker than the other is more than zero.

mod amount;
mod stations;

use crate::base::units::show::Units;
use crate::base::units::{Length, Mass};
use crate::design::Design;
use crate::paper::figures::FIGURES;
use crate::plan::Plan;

pub use amount::Amount;
pub use stations::{MERGED_WITHIN, Place, Station};

/// Everything two lines are compared by.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Class, weights, sizes and threads, in the order shown.
    pub figures: Vec<Compared>,
    /// What both are like at their control points, in order from the tip.
    pub stations: Vec<Station>,
}

/// One quantity of both lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compared {
    /// The key by which tests find it; of a figure on the page, the figure's own.
    pub key: &'static str,
    /// Its name.
    pub name: &'static str,
    /// One's own; `None` where there is none to give.
    pub mine: Option<Amount>,
    /// The other's.
    pub other: Option<Amount>,
}

/// What is said of one quantity of both lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Words {
    /// One's own.
    pub mine: String,
    /// The other's.
    pub other: String,
    /// One's own less the other's, with its sign.
    pub difference: String,
}

/// What stands where there is nothing to say.
const NOTHING: &str = "–";
/// The difference of what reads alike.
const ALIKE: &str = "same";

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
            stations: stations::of(mine, other),
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

impl Compared {
    /// One's own less the other's, in the SI base unit, or in classes or threads; `None` where a side has no number.
    pub fn difference(&self) -> Option<f64> {
        Some(self.mine?.si()? - self.other?.si()?)
    }

    /// Both, and the difference with its sign; `same` where both read alike.
    pub fn words(&self, units: Units) -> Words {
        let side = |amount: Option<Amount>| {
            amount.map_or_else(|| NOTHING.to_owned(), |amount| amount.show(units))
        };
        let (mine, other) = (side(self.mine), side(self.other));
        let pair = self.mine.zip(self.other);
        let difference = match pair {
            Some(_) if mine == other => ALIKE.to_owned(),
            Some((own, others)) => own
                .show_less(others, units)
                .unwrap_or_else(|| NOTHING.to_owned()),
            None => NOTHING.to_owned(),
        };
        Words {
            mine,
            other,
            difference,
        }
    }
}
