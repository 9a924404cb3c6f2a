//! Where control points are grabbed. Where two handles would cover each other they take different edges of the silhouette, which
//! is the same on both; where even that leaves no room, some are not drawn.

use super::scale::Scale;
use crate::base::units::Length;
use crate::design::{Design, DraftPoint};

/// Radius within which a finger takes hold, in pixels: a target of 48 px.
pub const REACH: f64 = 24.0;
/// Radius of the ring itself, in pixels: the ring that is seen has 7 px, the rest is tolerance. Our own choice.
pub const RING: f64 = 14.0;
/// Handles closer than this on the same edge would cover each other.
const ELBOW_ROOM: f64 = 40.0;
/// A handle closer than this to the one before it on its edge is not drawn: forty points on a telephone have one each, a thousand
/// do not. Zooming in shows the others. Our own choice.
const LEAST_GAP: f64 = 12.0;

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

/// The edge of every handle that is drawn, `None` for those that are not: no room on either edge, or out of sight. The
/// chosen point always has one while it is in sight.
///
/// A handle sits on the upper edge where there is elbow room, else on the edge whose last handle is farther away. Neither the
/// chosen point nor the part in sight changes the edge of another.
pub fn handles(design: &Design, scale: &Scale, chosen: usize) -> Vec<Option<Edge>> {
    let (mut last_upper, mut last_lower) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
    let mut edge = |x: f64| {
        let is_upper = x - last_upper >= ELBOW_ROOM || last_upper <= last_lower;
        let (last, edge) = if is_upper {
            (&mut last_upper, Edge::Upper)
        } else {
            (&mut last_lower, Edge::Lower)
        };
        (x - *last >= LEAST_GAP).then(|| {
            *last = x;
            edge
        })
    };
    let points = design.draft().points.iter().enumerate();
    let handle = |(index, point): (usize, &DraftPoint)| {
        let at = Length::from_metres(point.at_m);
        let own = edge(scale.x_of(at));
        let edge = own.or_else(|| (index == chosen).then_some(Edge::Upper));
        edge.filter(|_| scale.shows(at))
    };
    points.map(handle).collect()
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

/// Where the handles of all points sit, and whether that is in sight; `None` for points that have none.
pub fn spots(
    design: &Design,
    handles: &[Option<Edge>],
    scale: &Scale,
) -> Vec<Option<(ChartPoint, bool)>> {
    let points = design.draft().points.iter().zip(handles);
    let of = |(point, edge): (&DraftPoint, &Option<Edge>)| {
        let is_in_sight = scale.shows(Length::from_metres(point.at_m));
        edge.map(|edge| (spot(point, edge, scale), is_in_sight))
    };
    points.map(of).collect()
}

/// The handle nearest to a point of the chart, if any is within reach.
pub fn nearest(grips: impl Iterator<Item = Grip>, to: ChartPoint) -> Option<Grip> {
    let distance = |grip: &Grip| (grip.spot.0 - to.0).hypot(grip.spot.1 - to.1);
    grips
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
        .filter(|grip| distance(grip) <= REACH)
}

/// All handles that are drawn.
pub fn grips<'a>(
    design: &'a Design,
    handles: &'a [Option<Edge>],
    scale: &'a Scale,
) -> impl Iterator<Item = Grip> + 'a {
    let points = design.draft().points.iter().zip(handles).enumerate();
    points.filter_map(|(index, (point, edge))| {
        let edge = (*edge)?;
        Some(Grip {
            index,
            point: *point,
            edge,
            spot: spot(point, edge, scale),
        })
    })
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
