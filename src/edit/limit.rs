//! What limits the move of a point, in words.

use core::fmt;

use crate::design::refusal::LEAST_SPACING;
use crate::design::settings::{DIAMETER, POSITION};

/// What keeps a point from the place or size asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoveLimit {
    /// The first point stays at the tip.
    Tip,
    /// Both ends are alike, so the middle stays where it is.
    Middle,
    /// The stretch after the point of this index is as short as it may be.
    Stretch(usize),
    /// A line may not be longer.
    LongestLine,
    /// A line may not be thinner.
    Thinnest,
    /// A line may not be thicker.
    Thickest,
}

impl fmt::Display for MoveLimit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Tip => write!(out, "the first point stays at the tip"),
            Self::Middle => write!(out, "both ends move alike, so the middle stays where it is"),
            Self::Stretch(index) => write!(
                out,
                "points {} and {} stay at least {} mm apart",
                index + 1,
                index + 2,
                LEAST_SPACING * 1e3
            ),
            Self::LongestLine => write!(out, "a line can be at most {} m long", POSITION.high),
            Self::Thinnest => write!(out, "a line can be at least {} mm thick", DIAMETER.low),
            Self::Thickest => write!(out, "a line can be at most {} mm thick", DIAMETER.high),
        }
    }
}
