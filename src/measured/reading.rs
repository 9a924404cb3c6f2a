//! What the micrometer said at a place of a line.

use crate::base::choice::Choice;
use crate::base::units::Length;

/// Most readings of one line.
pub const MOST_READINGS: usize = 2_000;

/// A diameter read at a place. Several readings may have the same place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Distance from the tip.
    pub at: Length,
    /// What the micrometer said.
    pub diameter: Length,
    /// Whether the taper may be found from it.
    pub trust: Trust,
}

/// Whether the taper is found from a reading.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Trust {
    /// The search decides: it leaves out a single reading that the others contradict.
    #[default]
    Judged,
    /// The maker says it is right: it is always used.
    Used,
    /// The maker says it is wrong: it is never used.
    LeftOut,
}

impl Trust {
    /// Whether the search decides.
    // Serde hands the field over by reference.
    #[allow(clippy::trivially_copy_pass_by_ref)]
    pub(super) fn is_judged(&self) -> bool {
        *self == Self::Judged
    }
}

impl Choice for Trust {
    const ALL: &'static [Self] = &[Self::Judged, Self::Used, Self::LeftOut];

    fn key(self) -> &'static str {
        match self {
            Self::Judged => "judged",
            Self::Used => "used",
            Self::LeftOut => "left-out",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Judged => "Decide for me",
            Self::Used => "Use it",
            Self::LeftOut => "Leave it out",
        }
    }
}
