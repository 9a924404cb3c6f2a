//! What else changes when a control point is moved.

use crate::base::choice::Choice;

/// What happens to a level stretch when one of its ends changes size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LevelStretch {
    /// It stays level: its other points change size alike.
    #[default]
    Stays,
    /// It becomes a taper: only the one point changes.
    Bends,
}

/// What happens to the other end of a line whose ends are alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LineEnds {
    /// They stay alike: a change at one end is made at the other too. No effect where they are not alike.
    #[default]
    Alike,
    /// Each changes alone.
    Apart,
}

/// What moves along when a point is moved lengthwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Along {
    /// Nothing: the stretch before it grows by as much as the stretch after it shrinks.
    #[default]
    Alone,
    /// The next point: the stretch between the two keeps its length.
    Stretch,
    /// Everything after it: only the stretch before it changes, and the whole line with it.
    AllAfter,
}

/// How a control point is moved.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MoveOptions {
    /// What happens to level stretches.
    pub level: LevelStretch,
    /// What happens to the other end.
    pub ends: LineEnds,
    /// What moves along lengthwise.
    pub along: Along,
}

impl Choice for Along {
    const ALL: &'static [Self] = &[Self::Alone, Self::Stretch, Self::AllAfter];

    fn key(self) -> &'static str {
        match self {
            Self::Alone => "alone",
            Self::Stretch => "stretch",
            Self::AllAfter => "all-behind",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Alone => "nothing",
            Self::Stretch => "the next point",
            Self::AllAfter => "all points after it",
        }
    }
}
