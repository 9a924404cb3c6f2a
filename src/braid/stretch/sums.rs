//! What adds up along a line, and what of it grows per length.

use crate::base::units::{Area, Length, LinearDensity, Mass};
use crate::braid::geometry::{Braid, Loaded};

/// What adds up along a line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Sums {
    /// Mass of the bare braid.
    pub(super) bare: Mass,
    /// Bare diameter times length: what a film on the surface goes by.
    pub(super) breadth: Area,
    /// Length of each engaged thread, were it engaged all along.
    pub(super) thread: Length,
}

/// What grows along a line, per length.
#[derive(Clone, Copy)]
pub(super) struct Rates {
    pub(super) bare: LinearDensity,
    pub(super) breadth: Length,
    pub(super) thread: f64,
}

impl Rates {
    pub(super) fn of(braid: &Braid) -> Self {
        Self {
            bare: braid.linear_density,
            breadth: braid.diameter,
            thread: braid.take_up,
        }
    }

    /// Of a load at the angle of this secant.
    pub(super) fn at(loaded: &Loaded, secant: f64) -> Self {
        let bare = loaded.linear_density(secant);
        Self {
            bare,
            breadth: loaded.diameter(bare),
            thread: loaded.take_up(secant),
        }
    }

    pub(super) fn less(&self, other: &Self) -> Self {
        Self {
            bare: self.bare - other.bare,
            breadth: self.breadth - other.breadth,
            thread: self.thread - other.thread,
        }
    }

    pub(super) fn over(&self, length: Length) -> Sums {
        Sums {
            bare: length * self.bare,
            breadth: length * self.breadth,
            thread: length * self.thread,
        }
    }
}

impl Sums {
    pub(super) fn and(self, other: Self) -> Self {
        Self {
            bare: self.bare + other.bare,
            breadth: self.breadth + other.breadth,
            thread: self.thread + other.thread,
        }
    }
}
