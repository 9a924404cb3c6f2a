//! A quantity that every line has its own of, and how it is written.

use core::ops::Sub;

use crate::base::units::show::{self, Units, trimmed};
use crate::base::units::{Length, Mass};
use crate::braid::weight::Verdict;
use crate::paper::figures::verdict_words;

/// A quantity of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// The class it makes.
    Class(Verdict),
    /// What it or a part of it weighs.
    Mass(Mass),
    /// What the yarn for it weighs.
    Yarn(Mass),
    /// How long it is.
    Length(Length),
    /// How thick it is.
    Diameter(Length),
    /// How many threads.
    Count(f64),
}

impl Amount {
    /// Its number: of a class the class's, `None` where the line makes none; else in the SI base unit.
    pub fn si(self) -> Option<f64> {
        match self {
            Self::Class(verdict) => verdict.number().map(f64::from),
            Self::Mass(mass) | Self::Yarn(mass) => Some(mass.kilograms()),
            Self::Length(length) | Self::Diameter(length) => Some(length.metres()),
            Self::Count(count) => Some(count),
        }
    }

    /// Its words; a part that weighs nothing is not there.
    pub fn show(self, units: Units) -> String {
        match self {
            Self::Class(verdict) => verdict_words(&verdict),
            Self::Mass(Mass::ZERO) => "none".to_owned(),
            Self::Mass(mass) => show::mass(mass),
            Self::Yarn(mass) => show::grams(mass),
            Self::Length(length) => units.show_position(length),
            Self::Diameter(diameter) => units.show_diameter_short(diameter),
            Self::Count(count) => trimmed(count, 0),
        }
    }

    /// By how much it is more than another of its kind, with its sign; `None` where one makes no class, or the kinds
    /// differ.
    pub(super) fn show_less(self, other: Self, units: Units) -> Option<String> {
        Some(match (self, other) {
            (Self::Class(mine), Self::Class(other)) => classes(mine.number()?, other.number()?),
            (Self::Mass(mine), Self::Mass(other)) => {
                let [grams, grains] =
                    [show::grams, show::grains].map(|show| signed(mine, other, show));
                format!("{grams} · {grains}")
            }
            (Self::Yarn(mine), Self::Yarn(other)) => signed(mine, other, show::grams),
            (Self::Length(mine), Self::Length(other)) => {
                signed(mine, other, |length| units.show_position(length))
            }
            (Self::Diameter(mine), Self::Diameter(other)) => {
                signed(mine, other, |length| units.show_diameter_short(length))
            }
            (Self::Count(mine), Self::Count(other)) => {
                signed(mine, other, |count| trimmed(count, 0))
            }
            _ => return None,
        })
    }
}

/// `+1 class`, `−2 classes`.
fn classes(mine: u8, other: u8) -> String {
    let noun = if mine.abs_diff(other) == 1 {
        "class"
    } else {
        "classes"
    };
    let number = signed(f64::from(mine), f64::from(other), |count| trimmed(count, 0));
    format!("{number} {noun}")
}

/// A difference in words, its sign in front; what rounds to nothing has none. It is that of the numbers shown, so that a reader
/// who subtracts them finds it; of feet and inches, which nobody subtracts so, the exact one.
fn signed<Q>(mine: Q, other: Q, show: impl Fn(Q) -> String) -> String
where
    Q: Copy + Default + PartialOrd + Sub<Output = Q>,
{
    let (is_less, by) = if mine < other {
        (true, other - mine)
    } else {
        (false, mine - other)
    };
    let words = [show(mine), show(other)];
    let size = match words.each_ref().map(|words| ShownNumber::read(words)) {
        [Some(mine), Some(other)] => format!(
            "{:.*}{}",
            mine.decimals.max(other.decimals),
            (mine.number - other.number).abs(),
            mine.unit
        ),
        _ => show(by),
    };
    if size == show(Q::default()) {
        return size;
    }
    format!("{}{size}", if is_less { '\u{2212}' } else { '+' })
}

/// A quantity as it is shown, taken apart.
struct ShownNumber<'a> {
    number: f64,
    decimals: usize,
    /// The unit with the space before it.
    unit: &'a str,
}

impl<'a> ShownNumber<'a> {
    /// A number, and the unit after it; `None` where the words are not one number.
    fn read(words: &'a str) -> Option<Self> {
        let is_part = |part: char| part.is_ascii_digit() || part == '.';
        let end = words.find(|part| !is_part(part)).unwrap_or(words.len());
        let (number, unit) = words.split_at(end);
        if unit.contains(|part: char| part.is_ascii_digit()) {
            return None;
        }
        Some(Self {
            number: number.parse().ok()?,
            decimals: number.split_once('.').map_or(0, |(_, after)| after.len()),
            unit,
        })
    }
}
