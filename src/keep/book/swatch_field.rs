//! The numbers of a swatch.

use serde::{Deserialize, Serialize};

/// A number of a swatch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SwatchField {
    /// Threads engaged.
    Threads,
    /// Ends in each thread.
    Ends,
    /// Teeth of the wheel that drives.
    Driver,
    /// Teeth of the wheel that is driven.
    Driven,
    /// Length braided, metres.
    Length,
    /// Carrier circuits over that length.
    Circuits,
    /// Crossings along one rib.
    Crossings,
    /// Length they were counted over, metres.
    CrossingsOver,
    /// Mass, grams.
    Mass,
    /// Outer diameter, millimetres.
    Diameter,
    /// Braid angle, degrees.
    Angle,
    /// Length of thread weighed before braiding, metres.
    ThreadLength,
    /// Mass of that length, grams.
    ThreadMass,
}

impl SwatchField {
    /// Every number, in the order of the form.
    pub const ALL: [Self; 13] = [
        Self::Threads,
        Self::Ends,
        Self::Driver,
        Self::Driven,
        Self::Length,
        Self::Circuits,
        Self::Crossings,
        Self::CrossingsOver,
        Self::Mass,
        Self::Diameter,
        Self::Angle,
        Self::ThreadLength,
        Self::ThreadMass,
    ];

    /// What must be known before anything measured on the braid can be used; of its thread the ends are enough.
    pub const SETUP: [Self; 4] = [Self::Threads, Self::Ends, Self::Driver, Self::Driven];

    /// The words shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Threads => "threads",
            Self::Ends => "ends in each thread",
            Self::Driver => "teeth of the driving gear",
            Self::Driven => "teeth of the driven gear",
            Self::Length => "length braided",
            Self::Circuits => "carrier circuits",
            Self::Crossings => "crossings along one rib",
            Self::CrossingsOver => "length the crossings were counted over",
            Self::Mass => "weight",
            Self::Diameter => "diameter",
            Self::Angle => "braid angle",
            Self::ThreadLength => "length of thread weighed, not braided",
            Self::ThreadMass => "weight of that thread",
        }
    }

    /// Whether a number is another one, or means something else, once this one has changed.
    pub(super) fn depends_on(self, changed: Self) -> bool {
        match changed {
            Self::Length => matches!(self, Self::Length | Self::Circuits | Self::Mass),
            Self::CrossingsOver => matches!(self, Self::CrossingsOver | Self::Crossings),
            Self::ThreadLength => matches!(self, Self::ThreadLength | Self::ThreadMass),
            setup if Self::SETUP.contains(&setup) => true,
            other => self == other,
        }
    }

    /// The unit the number is kept in, as written after it; empty for a count.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length | Self::CrossingsOver | Self::ThreadLength => "m",
            Self::Mass | Self::ThreadMass => "g",
            Self::Diameter => "mm",
            Self::Angle => "°",
            _ => "",
        }
    }
}
