//! Why a typed text gave no number, and what to type instead.

use core::fmt;

use super::unit::Unit;

/// Why a typed text gave no number. Each says what the text did wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Nothing was typed.
    Empty,
    /// The text is not a number.
    NotANumber(String),
    /// A number whose comma could stand before thousands or before decimals.
    Ambiguous(String),
    /// A word that is no number of teeth.
    NotTeeth(String),
    /// A number to be left out of a list that it does not stand in.
    NotAmong(String),
    /// A range whose end lies before its beginning.
    BackwardRange(String),
    /// The word after the number is not a known unit.
    UnknownUnit {
        /// The word.
        word: String,
        /// The unit the field is in.
        wanted: Unit,
    },
    /// The unit measures something else than the field asks for.
    WrongUnit {
        /// The unit typed.
        typed: Unit,
        /// The unit the field is in.
        wanted: Unit,
    },
}

impl Unread {
    pub(super) fn unknown(word: &str, wanted: Unit) -> Self {
        Self::UnknownUnit {
            word: word.to_owned(),
            wanted,
        }
    }
}

impl fmt::Display for Unread {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(out, "The field is empty. Type a number."),
            Self::NotANumber(text) => write!(
                out,
                "“{text}” is not a number. Type digits with a comma or a dot."
            ),
            Self::Ambiguous(text) => write!(
                out,
                "“{text}” can mean two numbers. Write {} for the large one, or {} for the small one.",
                text.replace(',', ""),
                text.replace(',', ".")
            ),
            Self::NotTeeth(word) => write!(
                out,
                "“{word}” is not a whole number. Type gears like 20, 22, 24–30."
            ),
            Self::NotAmong(number) => {
                write!(out, "{number} cannot be left out: it is not in the list.")
            }
            Self::BackwardRange(text) => {
                write!(out, "Put the smaller number first in “{text}”.")
            }
            Self::UnknownUnit { word, wanted } => {
                write!(
                    out,
                    "The unit “{word}” is not known here. {}.",
                    wanted.suggested()
                )
            }
            Self::WrongUnit { typed, wanted } => {
                write!(
                    out,
                    "This field does not take {}. Type the value {}.",
                    typed.symbol(),
                    wanted.wanted()
                )
            }
        }
    }
}

impl Unit {
    fn wanted(self) -> String {
        match self {
            Self::One => "as a plain number".to_owned(),
            unit => format!("in {}", unit.symbol()),
        }
    }

    /// What can be written in its place: `Leave it out, or write m, cm, mm or ft`.
    fn suggested(self) -> String {
        let units: Vec<&str> = self.likes().map(Unit::symbol).collect();
        match units.split_last() {
            None | Some((&"", _)) => "Leave it out".to_owned(),
            Some((only, [])) => format!("Leave it out, or write {only}"),
            Some((last, others)) => {
                format!("Leave it out, or write {} or {last}", others.join(", "))
            }
        }
    }
}
