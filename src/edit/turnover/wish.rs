//! What is wanted of a line in the air, and why it cannot be had.

use core::fmt;

use super::influence::MOST_POINTS;
use crate::base::choice::Choice;
use crate::braid::weight::Verdict;

/// How a line should turn over instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// Less energy reaches the leader: it turns over more gently.
    Gentler,
    /// More energy reaches the leader: it turns over harder.
    Farther,
}

impl Choice for Wish {
    const ALL: &'static [Self] = &[Self::Gentler, Self::Farther];

    fn key(self) -> &'static str {
        match self {
            Self::Gentler => "gentler",
            Self::Farther => "farther",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Gentler => "turns over more gently",
            Self::Farther => "turns over with more energy",
        }
    }
}

impl Wish {
    /// 1 where more energy is to reach the leader, −1 where less is.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Gentler => -1.0,
            Self::Farther => 1.0,
        }
    }
}

/// Why a line cannot be reshaped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoReshape {
    /// It has no class to keep.
    NoClass(Verdict),
    /// It has more control points than are looked at.
    TooManyPoints(usize),
    /// It is level as far as it is cast and weighed: its class gives its size.
    Level,
    /// No small change lands noticeably more gently as braided and keeps all that is good about it; and the tip has the fewest threads
    /// that the maker allows.
    FewestThreads,
    /// No small change turns over noticeably better as braided and keeps all that is good about it.
    NothingGained(Wish),
}

impl fmt::Display for NoReshape {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoClass(Verdict::Missing(_)) => write!(
                out,
                "A line shorter than 30 ft after its tip has no class. Draw it longer first."
            ),
            Self::NoClass(_) => write!(
                out,
                "This line has no class to keep. Bring it to a class first."
            ),
            Self::TooManyPoints(points) => write!(
                out,
                "This drawing has {points} points. Remove some until it has at most {MOST_POINTS}."
            ),
            Self::Level => write!(
                out,
                "The first 30 ft are level, so the class gives the size. Draw a taper at the tip first."
            ),
            Self::FewestThreads => write!(
                out,
                "With its class unchanged and only small changes, no line was found that {}. Nothing was changed. \
                 The tip has the fewest threads you allow. Allow fewer threads, or ply finer ones.",
                Wish::Gentler.name()
            ),
            Self::NothingGained(wish) => write!(
                out,
                "With its class unchanged and only small changes, no line was found that {}. Nothing was changed. \
                 Move points yourself, or look for other threads.",
                wish.name()
            ),
        }
    }
}
