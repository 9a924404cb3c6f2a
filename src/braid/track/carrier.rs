//! Carriers and the way they run.

use core::fmt;

/// Which way a carrier runs, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// With the clock.
    Clockwise,
    /// Against the clock.
    CounterClockwise,
}

impl Direction {
    /// Both, clockwise first.
    pub const BOTH: [Self; 2] = [Self::Clockwise, Self::CounterClockwise];

    /// The trade's abbreviation: `cw`, `ccw`.
    pub const fn short(self) -> &'static str {
        match self {
            Self::Clockwise => "cw",
            Self::CounterClockwise => "ccw",
        }
    }

    /// The other way.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Clockwise => Self::CounterClockwise,
            Self::CounterClockwise => Self::Clockwise,
        }
    }
}

/// One carrier: its direction, and its number from 0 in track order among those mounted that run the same way.
///
/// Sixteen carriers on every second place of a ring of 32 are 0 … 7 each way; [`super::Track::place`] tells where each stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Carrier {
    /// Which way it runs.
    pub direction: Direction,
    /// Its number among the mounted carriers of its direction, from 0; at most 63.
    pub number: u32,
}

/// The key of a carrier: `cw0`, `ccw7`.
impl fmt::Display for Carrier {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}{}", self.direction.short(), self.number)
    }
}

impl Carrier {
    /// The carrier of a key, written as its `Display` writes it.
    pub fn of_key(key: &str) -> Option<Self> {
        let of = |direction: Direction| {
            let number = key.strip_prefix(direction.short())?.parse().ok()?;
            let carrier = Self { direction, number };
            (carrier.to_string() == key).then_some(carrier)
        };
        Direction::BOTH.into_iter().find_map(of)
    }
}
