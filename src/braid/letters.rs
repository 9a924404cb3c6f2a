//! Silk size letters: the trade's old scale of diameters.

use crate::base::units::Length;

/// A letter of the scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Letter {
    /// The letter, or several of the same.
    pub name: &'static str,
    /// The diameter it stands for.
    pub diameter: Length,
}

const fn letter(name: &'static str, thousandths: f64) -> Letter {
    Letter {
        name,
        diameter: Length::from_inches(thousandths / 1e3),
    }
}

/// The letters, thickest first. Source: the tables of `McClane` and Tapply as reprinted in Healy, Pocket Guide to Fishing
/// Knots. Some lists have I at .020 in.
pub const LETTERS: [Letter; 13] = [
    letter("AAAAA", 80.0),
    letter("AAAA", 75.0),
    letter("AAA", 70.0),
    letter("AA", 65.0),
    letter("A", 60.0),
    letter("B", 55.0),
    letter("C", 50.0),
    letter("D", 45.0),
    letter("E", 40.0),
    letter("F", 35.0),
    letter("G", 30.0),
    letter("H", 25.0),
    letter("I", 22.0),
];

/// Farther than half of the widest step beyond either end, a diameter has no letter.
const BEYOND: Length = Length::from_inches(0.0025);

impl Letter {
    /// The letter nearest to a diameter; the thicker of two equally near.
    pub fn nearest(diameter: Length) -> Option<Self> {
        let (thickest, thinnest) = (LETTERS[0], LETTERS[LETTERS.len() - 1]);
        let on_scale =
            diameter <= thickest.diameter + BEYOND && diameter >= thinnest.diameter - BEYOND;
        let off = |letter: &Self| (letter.diameter - diameter).abs().metres();
        let nearest = LETTERS.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        nearest.filter(|_| on_scale)
    }
}
