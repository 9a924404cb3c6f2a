//! The ring of horn gears from above, with every carrier at its place. A sketch: angles round the ring are true, the
//! swing of the tracks is drawn as large as their numbers need.

mod layout;
mod marks;

use super::ring::{MountedCarrier, Ring};
use crate::braid::track::Direction;
use layout::MapLayout;

pub use marks::{CarrierMark, HornGear, MarkSize};

/// The map, in pixels; its middle is at half its side both ways.
#[derive(Clone, Debug, PartialEq)]
pub struct TrackMap {
    /// Side of the square.
    pub side: f64,
    /// The horn gears.
    pub gears: Vec<HornGear>,
    /// Their slots, as path data of short strokes.
    pub slots: String,
    /// The track of the clockwise carriers, as path data.
    pub clockwise: String,
    /// The track of the counter-clockwise carriers, as path data.
    pub counter_clockwise: String,
    /// How large the carriers are drawn.
    pub size: MarkSize,
    /// The carriers, in the order given.
    pub marks: Vec<CarrierMark>,
}

impl TrackMap {
    /// The map of a ring and the carriers on it.
    pub fn of(ring: Ring, mounted: &[MountedCarrier]) -> Self {
        let layout = MapLayout::of(ring);
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

    /// Where the number of a carrier stands that is read from afar, so high: beside its mark, towards the middle.
    pub fn number_at(&self, mark: &CarrierMark, height: f64) -> (f64, f64) {
        let middle = self.side / 2.0;
        let (x, y) = (middle - mark.x, middle - mark.y);
        // A number of two figures is about as wide as it is high.
        let share = (self.size.reach + 0.8 * height) / x.hypot(y).max(1.0);
        (mark.x + share * x, mark.y + share * y)
    }
}
