//! The braid to be drawn, and a crossing of two of its threads.

use crate::base::units::{Angle, Length};
use crate::paper::chart::ring::{MountedCarrier, Ring};

/// Most circuits in view: where the lay is very short, the picture is short too, so that crossings stay apart.
pub(super) const MOST_CIRCUITS: u32 = 3;
/// The braid to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct Surface<'a> {
    /// The ring it comes from.
    pub ring: Ring,
    /// Its carriers; those idle leave gaps.
    pub mounted: &'a [MountedCarrier],
    /// Mean diameter of the thread's path, above 0.
    pub path_diameter: Length,
    /// Braid angle on it, above 0° and below 90°.
    pub angle: Angle,
    /// Width of the standard thread in the braid.
    pub thread_width: Length,
    /// Ends of the standard thread, at least 1. The width of another thread is
    /// proportional to the square root of its ends, since all cross-sections have one shape.
    pub thread_ends: u32,
}

/// Two threads crossing on the front.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Place of the clockwise thread.
    pub clockwise: u32,
    /// Place of the counter-clockwise thread.
    pub counter_clockwise: u32,
    /// Whether the clockwise thread is above.
    pub clockwise_is_over: bool,
    /// From the left, in pixels; may be beyond the picture.
    pub x: f64,
    /// From the top, in pixels.
    pub y: f64,
}
