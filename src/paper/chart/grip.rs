//! Where control points are grabbed. Where two handles would cover each other they take different edges of the silhouette, which
//! is the same on both.

use super::scale::Scale;
use crate::base::units::Length;
use crate::design::{Design, DraftPoint};

/// Radius within which a finger takes hold, in pixels: a target of 48 px.
pub const REACH: f64 = 24.0;
/// Radius of the ring itself, in pixels: the ring that is seen has 7 px, the rest is tolerance. Our own choice.
pub const RING: f64 = 14.0;
/// Handles closer than this on the same edge would cover each other.
const ELBOW_ROOM: f64 = 40.0;

/// Which edge of the silhouette a handle sits on. The silhouette is the same on both, so either will do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// The upper edge: dragging up makes the line thicker.
    Upper,
    /// The lower edge: dragging down makes it thicker.
    Lower,
}

/// A place on the chart, in pixels from its upper left corner.
pub type ChartPoint = (f64, f64);

/// The edge of every handle: upper where there is elbow room, else the edge whose last handle is farther away.
pub fn edges(design: &Design, scale: &Scale) -> Vec<Edge> {
    let (mut last_upper, mut last_lower) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    let edge = |x: f64| {
        if x - last_upper >= ELBOW_ROOM || last_upper <= last_lower {
            last_upper = x;
            Edge::Upper
        } else {
            last_lower = x;
            Edge::Lower
        }
    };
    let places = design
        .draft()
        .points
        .iter()
        .map(|point| Length::from_metres(point.at_m));
    places.map(|at| scale.x_of(at)).map(edge).collect()
}

/// Where a control point's handle sits.
pub fn spot(point: &DraftPoint, edge: Edge, scale: &Scale) -> ChartPoint {
    let half = scale.half_thickness(Length::from_millimetres(point.diameter_mm));
    let middle = scale.profile().middle();
    let y = match edge {
        Edge::Upper => middle - half,
        Edge::Lower => middle + half,
    };
    (scale.x_of(Length::from_metres(point.at_m)), y)
}

/// The handle nearest to a point, if any is within reach.
pub fn nearest(spots: &[ChartPoint], to: ChartPoint) -> Option<usize> {
    let distance = |spot: &ChartPoint| (spot.0 - to.0).hypot(spot.1 - to.1);
    let index =
        (0..spots.len()).min_by(|&a, &b| distance(&spots[a]).total_cmp(&distance(&spots[b])))?;
    (distance(&spots[index]) <= REACH).then_some(index)
}

/// A handle taken hold of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// The control point.
    pub index: usize,
    /// The control point as it was.
    pub point: DraftPoint,
    /// The edge the handle sits on.
    pub edge: Edge,
    /// Where the handle was.
    pub spot: ChartPoint,
}
