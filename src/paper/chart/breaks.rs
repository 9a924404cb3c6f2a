//! Breaks where a level stretch is drawn short: all bands end there in a zigzag, as on a technical drawing.

use super::path::Path;
use super::scale::{LEFT, Scale};
use crate::base::units::Length;
use crate::braid::taper::Taper;

/// How far a break's edge runs to either side of its middle, in pixels.
const SWING: f64 = 3.5;
/// Height of half a zigzag, in pixels.
const STEP: f64 = 60.0;
/// How far breaks run beyond the bands, above and below, in pixels.
const BEYOND: f64 = 5.0;
/// Pixels beyond the bands that curves may still be seen in, so that the line's ends are not cut.
const EDGE: f64 = 3.0;

/// A break in sight.
#[derive(Clone, Debug, PartialEq)]
pub struct Break {
    /// Its left and its right edge, in pixels from the left; cut off at the edges of the bands.
    pub x: (f64, f64),
    /// The whole length of the level stretch that is drawn short.
    pub level: Length,
}

/// The breaks in sight, tip first, with what the line has there now: while a point is dragged the break stays, and the level
/// stretch round it may get longer and shorter.
pub fn breaks(taper: &Taper, scale: &Scale) -> Vec<Break> {
    let points = taper.points();
    let folds = scale.folds.iter();
    let seen = folds.filter_map(|fold| Some((fold, scale.seen((fold.from, fold.to))?)));
    seen.map(|(fold, x)| {
        let middle = (fold.from + fold.to) / 2.0;
        let after = points.partition_point(|point| point.at <= middle);
        let ends = (after.checked_sub(1).map(|before| &points[before])).zip(points.get(after));
        Break {
            x,
            level: ends.map_or(fold.to - fold.from, |(from, to)| to.at - from.at),
        }
    })
    .collect()
}

/// The edges of all breaks, as path data.
pub fn edges(scale: &Scale) -> String {
    let mut path = Path::default();
    for (from, to) in gaps(scale) {
        for x in [from, to] {
            path.lift();
            for (x, y) in zigzag(x, scale) {
                path.to(x, y);
            }
        }
    }
    path.open()
}

/// Where curves may be drawn, as path data of closed pieces: the bands, less the breaks.
pub fn in_sight(scale: &Scale) -> String {
    let mut path = Path::default();
    let (top, foot) = upright(scale);
    let mut begin = vec![(LEFT - EDGE, top), (LEFT - EDGE, foot)];
    let mut piece = |begin: &[(f64, f64)], end: &[(f64, f64)]| {
        for &(x, y) in begin.iter().chain(end.iter().rev()) {
            path.to(x, y);
        }
        path.shut();
    };
    for (from, to) in gaps(scale) {
        let end: Vec<_> = zigzag(from, scale).collect();
        piece(&begin, &end);
        begin = zigzag(to, scale).collect();
    }
    let right = scale.right() + EDGE;
    piece(&begin, &[(right, top), (right, foot)]);
    path.open()
}

/// The gaps in sight, in pixels from the left.
fn gaps(scale: &Scale) -> impl Iterator<Item = (f64, f64)> {
    let folds = scale.folds.iter();
    folds
        .filter(|fold| scale.seen((fold.from, fold.to)).is_some())
        .map(|fold| (scale.x_of(fold.from), scale.x_of(fold.to)))
}

/// From where to where breaks run, in pixels from the top.
fn upright(scale: &Scale) -> (f64, f64) {
    (scale.profile().top - BEYOND, scale.foot() + BEYOND)
}

/// A zigzag about an upright, over all bands.
fn zigzag(x: f64, scale: &Scale) -> impl Iterator<Item = (f64, f64)> + use<> {
    let (top, foot) = upright(scale);
    let height = foot - top;
    let count = (height / STEP).ceil().max(1.0);
    let step = height / count;
    let mut index = 0.0;
    core::iter::from_fn(move || {
        let here = index;
        index += 1.0;
        let side = if here % 2.0 == 0.0 { -SWING } else { SWING };
        (here <= count).then_some((x + side, top + here * step))
    })
}
