//! Places in a picture.

use libm::{atan2, hypot};
use serde::{Deserialize, Serialize};

/// A place in a picture, pixels from its upper left corner: `x` to the right, `y` down. The middle of the first pixel is at ½, ½.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A place.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The place so far on in a direction, radians from the x axis towards the y axis.
    #[must_use]
    pub fn towards(self, direction: f64, distance: f64) -> Self {
        Self {
            x: libm::cos(direction).mul_add(distance, self.x),
            y: libm::sin(direction).mul_add(distance, self.y),
        }
    }

    /// Half-way to another place.
    #[must_use]
    pub fn half_way(self, other: Self) -> Self {
        Self::new(0.5 * (self.x + other.x), 0.5 * (self.y + other.y))
    }

    /// Whether both numbers are numbers, and within what a picture can have.
    pub fn is_possible(self) -> bool {
        self.x.abs() < 1e6 && self.y.abs() < 1e6
    }
}

/// A straight line between two places.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// Where it begins.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
}

impl Line {
    /// Between two places.
    pub const fn new(from: Point, to: Point) -> Self {
        Self { from, to }
    }

    /// Pixels from end to end.
    pub fn length(self) -> f64 {
        hypot(self.to.x - self.from.x, self.to.y - self.from.y)
    }

    /// Where it leads, radians from the x axis towards the y axis, −π to π.
    pub fn direction(self) -> f64 {
        atan2(self.to.y - self.from.y, self.to.x - self.from.x)
    }

    /// The same line the other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        Self::new(self.to, self.from)
    }
}
