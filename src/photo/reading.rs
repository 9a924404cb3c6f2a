//! What a picture of a braid shows.

use serde::{Deserialize, Serialize};

use super::place::{Line, Point};
use crate::base::units::Length;

/// A number with its error, one standard deviation, in the same unit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The number.
    pub value: f64,
    /// One standard deviation.
    pub error: f64,
}

/// A braid read from a picture.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PhotoReading {
    /// The two edges of the braid, both in the same direction, across the picture.
    pub edges: [Line; 2],
    /// Braid angle on the surface, between thread and axis, radians: half of what lies between the two families of threads.
    pub angle: Estimate,
    /// By how much one family lies steeper than the other, radians, halved: the line is twisted, or the camera slants.
    pub skew: Estimate,
    /// Pixels from one crossing to the next along a rib.
    pub spacing: Estimate,
    /// Outer diameter, pixels.
    pub diameter: Estimate,
    /// Pixels from one thread to the next of its family, square to it.
    pub thread: f64,
    /// Threads in the braid, as stated or as counted: the angle is of this count.
    pub threads: u32,
    /// Threads as counted in the picture, where that is sure enough.
    pub counted: Option<u32>,
    /// The braid piece by piece along the line, in the direction of the edges.
    pub windows: Vec<PhotoWindow>,
}

/// A piece of the braid.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PhotoWindow {
    /// Its middle.
    pub middle: Point,
    /// Pixels along the line.
    pub length: f64,
    /// Outer diameter, pixels.
    pub diameter: f64,
    /// Braid angle, radians; nothing where its threads are not clear.
    pub angle: Option<Estimate>,
    /// The two families as they lie in the picture, radians from its x axis towards its y axis; nothing where they are not clear.
    pub directions: Option<[f64; 2]>,
    /// What is odd about it.
    pub doubt: Option<WindowDoubt>,
}

/// What is odd about a piece of the braid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WindowDoubt {
    /// No clear threads: out of focus, dark, a fibre across it, or a thread missing.
    Unclear,
    /// Its angle differs from that of the others by more than its error.
    Angle,
    /// It is thicker than the line to both sides: a loose thread, or a knot.
    Thicker,
    /// It is thinner: a thread is missing, or pulled tight.
    Thinner,
}

/// What gives a picture its scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PhotoScale {
    /// The diameter of the braid, measured or planned, with one standard deviation.
    Diameter(Length, Length),
    /// A line drawn on a rule in the picture, and how long it is there.
    Rule(Line, Length),
}
