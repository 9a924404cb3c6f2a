//! Path data from points.

use core::f64::consts::TAU;

use super::layer::{Ink, TermLayer};
use crate::paper::chart::path::Path;

/// A place in a drawing, from the left and from the top.
pub(super) type PenPoint = (f64, f64);

/// Sides of a circle drawn as a polygon; enough for the eye at this size.
const SIDES: u32 = 36;
/// Half the height of the ticks that end a dimension line.
const TICK: f64 = 5.0;

/// A layer of several pieces, open or shut.
pub(super) fn layer(ink: Ink, pieces: &[Vec<PenPoint>]) -> TermLayer {
    let is_shut = matches!(
        ink,
        Ink::Body | Ink::Meant | Ink::Dot | Ink::Spot | Ink::Hollow
    );
    let mut path = Path::default();
    for piece in pieces {
        for &(x, y) in piece {
            path.to(x, y);
        }
        if is_shut {
            path.shut();
        } else {
            path.lift();
        }
    }
    TermLayer {
        ink,
        path: path.open(),
    }
}

/// A layer of one piece.
pub(super) fn piece(ink: Ink, points: &[PenPoint]) -> TermLayer {
    layer(ink, &[points.to_vec()])
}

/// A box from its left upper to its right lower corner.
pub(super) fn rectangle((left, top): PenPoint, (right, bottom): PenPoint) -> Vec<PenPoint> {
    vec![(left, top), (right, top), (right, bottom), (left, bottom)]
}

/// Part of a circle, from one angle to another, in turns clockwise from the right.
pub(super) fn arc((x, y): PenPoint, radius: f64, from: f64, to: f64) -> Vec<PenPoint> {
    let at = |step: u32| {
        let turn = from + (to - from) * f64::from(step) / f64::from(SIDES);
        let (sine, cosine) = (TAU * turn).sin_cos();
        (x + radius * cosine, y + radius * sine)
    };
    (0..=SIDES).map(at).collect()
}

/// A whole circle.
pub(super) fn circle(middle: PenPoint, radius: f64) -> Vec<PenPoint> {
    arc(middle, radius, 0.0, 1.0)
}

/// A level dimension line with a tick at either end.
pub(super) fn dimension(from: f64, to: f64, y: f64) -> TermLayer {
    let tick = |x: f64| vec![(x, y - TICK), (x, y + TICK)];
    layer(Ink::Line, &[tick(from), vec![(from, y), (to, y)], tick(to)])
}
