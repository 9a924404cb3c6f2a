//! The ring of horn gears from above, with every carrier at its place. A sketch: angles round the ring are true, the
//! swing of the tracks is drawn as large as their numbers need.

mod layout;

use super::ring::{Mounted, Ring};
use crate::braid::track::Direction;
use layout::Layout;

/// The map, in pixels; its middle is at half its side both ways.
#[derive(Clone, Debug, PartialEq)]
pub struct TrackMap {
    /// Side of the square.
    pub side: f64,
    /// The horn gears.
    pub gears: Vec<Gear>,
    /// Their slots, as path data of short strokes.
    pub slots: String,
    /// The track of the clockwise carriers, as path data.
    pub clockwise: String,
    /// The track of the counter-clockwise carriers, as path data.
    pub counter_clockwise: String,
    /// How large the carriers are drawn.
    pub size: MarkSize,
    /// The carriers, in the order given.
    pub marks: Vec<Mark>,
}

/// A horn gear: a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gear {
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
    /// From its middle to the tip of its nose: nothing of the mark lies farther out.
    pub reach: f64,
    /// Height of its number.
    pub number: f64,
}

/// A carrier on the map.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Which one, and what it does.
    pub mounted: Mounted,
    /// Its middle, from the left, in pixels.
    pub x: f64,
    /// Its middle, from the top, in pixels.
    pub y: f64,
    /// Which way its nose points, in degrees clockwise from the right.
    pub heading: f64,
    /// Middle of a figure beside it, where there is room for one.
    pub figure_at: Option<(f64, f64)>,
}

impl TrackMap {
    /// The map of a ring and the carriers on it.
    pub fn of(ring: Ring, mounted: &[Mounted]) -> Self {
        let layout = Layout::of(ring);
        Self {
            side: 2.0 * layout.middle,
            gears: (0..ring.horn_gears).map(|gear| layout.gear(gear)).collect(),
            slots: layout.slots(),
            clockwise: layout.track(Direction::Clockwise),
            counter_clockwise: layout.track(Direction::CounterClockwise),
            size: layout.size,
            marks: mounted.iter().map(|&one| layout.mark(one)).collect(),
        }
    }
}

impl Mark {
    /// Middle of the figure of its ends, where there is room for one and a thread to count.
    pub fn ends_at(&self) -> Option<(f64, f64)> {
        self.figure_at.filter(|_| self.mounted.is_engaged())
    }
}

impl MarkSize {
    /// Smaller where there are more of them.
    const fn of(places: u32) -> Self {
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
