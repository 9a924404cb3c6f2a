//! One quantity of two lines, and its difference.

use super::amount::Amount;
use crate::base::units::show::Units;

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

/// One quantity of both lines in words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ComparedWords {
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

impl Compared {
    /// One's own less the other's, in the SI base unit, or in classes or threads; `None` where a side has no number.
    pub fn difference(&self) -> Option<f64> {
        Some(self.mine?.si()? - self.other?.si()?)
    }

    /// Both, and the difference with its sign; `same` where both read alike.
    pub fn words(&self, units: Units) -> ComparedWords {
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
        ComparedWords {
            mine,
            other,
            difference,
        }
    }
}
