//! What is asked of the search, and what it finds.

use crate::base::units::Length;
use crate::braid::taper::{Point, Taper};

/// The taper found in the readings of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundTaper {
    /// Two at least, in order; the first at 0, the last at the length of the line.
    pub points: Vec<FoundPoint>,
    /// For each piece between two points, whether it is level: both its points have one diameter.
    pub is_level: Vec<bool>,
    /// Whether the line is the same from both ends, as a double taper is. Its points are then mirrored exactly.
    pub is_mirrored: bool,
    /// One standard deviation of a reading: the micrometer's error, or what the readings show where that is more.
    pub scatter: Length,
    /// For each reading given: measured less found.
    pub residuals: Vec<Length>,
    /// For each reading given, whether it was left out.
    pub left_out: Vec<bool>,
}

/// A control point with how well it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FoundPoint {
    /// Distance from the tip.
    pub at: Length,
    /// Diameter there.
    pub diameter: Length,
    /// One standard deviation of the place; 0 at the ends of the line, which are given.
    pub at_spread: Length,
    /// One standard deviation of the diameter.
    pub diameter_spread: Length,
}

/// How closely the taper may follow the readings: from simplest to closest.
pub const CLOSENESS: core::ops::RangeInclusive<i8> = -4..=4;

/// What is asked of the search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// The micrometer's error, one standard deviation, above 0.
    pub error: Length,
    /// Length of the whole line. The place of the last reading where it is not given or shorter.
    pub length: Option<Length>,
    /// From −4, few points, to 4, many: the price of a point is divided by 2 for each. The search settles where no single change is
    /// better, so that one step closer may now and then have a point less.
    pub closeness: i8,
}

impl FoundTaper {
    /// The drawing of it.
    pub fn taper(&self) -> Taper {
        let point = |found: &FoundPoint| Point {
            at: found.at,
            diameter: found.diameter,
        };
        Taper::new(self.points.iter().map(point).collect()).expect("points are found in order")
    }
}
