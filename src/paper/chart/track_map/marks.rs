//! What the map is made of: horn gears, and the carriers on them.

use crate::braid::track::Direction;
use crate::paper::chart::ring::MountedCarrier;

/// A horn gear: a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HornGear {
    /// Its middle, from the left, in pixels.
    pub x: f64,
    /// Its middle, from the top, in pixels.
    pub y: f64,
    /// Its radius, in pixels.
    pub radius: f64,
}

/// How large carriers are drawn, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkSize {
    /// Radius of a round mark.
    pub radius: f64,
    /// From its middle to the tip of its nose: nothing of the mark is farther out.
    pub reach: f64,
    /// Height of its number.
    pub number: f64,
}

/// A carrier on the map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CarrierMark {
    /// Which one, and what it does.
    pub mounted: MountedCarrier,
    /// Its middle, from the left, in pixels.
    pub x: f64,
    /// Its middle, from the top, in pixels.
    pub y: f64,
    /// Which way its nose points, in degrees clockwise from the right.
    pub heading: f64,
    /// Middle of a figure beside it, where there is room for one.
    pub figure_at: Option<(f64, f64)>,
}

impl CarrierMark {
    /// Middle of the figure of its ends, where there is room for one and a thread to count.
    pub fn ends_at(&self) -> Option<(f64, f64)> {
        self.figure_at.filter(|_| self.mounted.is_engaged())
    }
}

impl MarkSize {
    /// Smaller where there are more of them.
    pub(super) const fn of(places: u32) -> Self {
        let (radius, nose, number) = match places {
            0..=24 => (13.0, 5.0, 14.0),
            25..=32 => (11.0, 4.0, 13.0),
            _ => (10.0, 3.0, 12.0),
        };
        Self {
            radius,
            reach: radius + nose,
            number,
        }
    }

    /// A mark in outline about its middle, nose to the right: round runs clockwise, square counter-clockwise.
    pub fn outline(&self, direction: Direction) -> String {
        let Self { radius, reach, .. } = *self;
        match direction {
            Direction::Clockwise => {
                // Where the sides of the nose touch the circle.
                let x = radius * radius / reach;
                let y = (radius * radius - x * x).sqrt();
                format!(
                    "M{x:.1} {:.1}L{reach:.1} 0L{x:.1} {y:.1}A{radius} {radius} 0 1 1 {x:.1} {:.1}Z",
                    -y, -y
                )
            }
            Direction::CounterClockwise => {
                let half = 0.84 * radius;
                format!(
                    "M{:.1} {:.1}H{half:.1}L{reach:.1} 0L{half:.1} {half:.1}H{:.1}Z",
                    -half, -half, -half
                )
            }
        }
    }
}
