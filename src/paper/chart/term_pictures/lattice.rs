//! The surface of a braid, threads of either way at 45°, over one and under one.

use super::layer::{Ink, TermLayer};
use super::pen::{PenPoint, circle, layer, piece, rectangle};

/// Where the crossings on the axis lie.
const ROW: [f64; 5] = [24.0, 52.0, 80.0, 108.0, 136.0];
/// Step from one thread to the next, along the axis.
const STEP: f64 = 28.0;
/// The axis, and half the height of the braid.
const AXIS: f64 = 50.0;
const HALF: f64 = 38.0;
/// Left and right edge.
const SIDES: (f64, f64) = (6.0, 154.0);
/// Half a crossing along a thread, measured along the axis.
const REACH: f64 = 9.0;

/// A thread through a place of the axis, cut off at the edges; `rise` is 1 down to the right, -1 up.
fn thread(at: f64, rise: f64, from: f64, to: f64) -> Vec<PenPoint> {
    let (from, to) = (from.max(SIDES.0), to.min(SIDES.1));
    [from, to].map(|x| (x, AXIS + rise * (x - at))).to_vec()
}

fn whole(at: f64, rise: f64) -> Vec<PenPoint> {
    thread(at, rise, at - HALF, at + HALF)
}

/// Where threads cross the axis, also those that do so beyond the edges.
fn roots() -> impl Iterator<Item = f64> {
    (-1..=5).map(|k| ROW[0] + STEP * f64::from(k))
}

/// The short pieces of rising threads that lie over falling ones: every second crossing.
fn over() -> Vec<Vec<PenPoint>> {
    let pairs = roots().flat_map(|falling| roots().map(move |rising| (falling, rising)));
    let crossings = pairs.filter_map(|(falling, rising)| {
        let steps = ((rising - falling) / STEP).round().abs();
        let (x, off) = (f64::midpoint(falling, rising), 0.5 * (rising - falling));
        let is_inside =
            off.abs() + REACH <= HALF && (SIDES.0 + REACH..=SIDES.1 - REACH).contains(&x);
        (steps % 2.0 == 1.0 && is_inside).then_some((x, rising))
    });
    crossings
        .map(|(x, rising)| thread(rising, -1.0, x - REACH, x + REACH))
        .collect()
}

/// The braid, with the hollow between its threads.
pub(super) fn cover() -> Vec<TermLayer> {
    let (top, bottom) = (AXIS - HALF, AXIS + HALF);
    let hollow = rectangle((SIDES.0, top), (SIDES.1, bottom));
    let is_seen = |thread: &Vec<PenPoint>| thread[0].0 < thread[1].0;
    let way = |rise: f64| {
        roots()
            .map(|at| whole(at, rise))
            .filter(is_seen)
            .collect::<Vec<_>>()
    };
    let mut layers = vec![piece(Ink::Hollow, &hollow)];
    for threads in [way(-1.0), way(1.0), over()] {
        layers.push(layer(Ink::ThreadEdge, &threads));
        layers.push(layer(Ink::Thread, &threads));
    }
    layers
}

/// One crossing, with a dot.
pub(super) fn crossing() -> Vec<TermLayer> {
    let mut layers = cover();
    layers.push(piece(Ink::Spot, &circle((ROW[2], AXIS), 7.0)));
    layers
}

/// The crossings of one row, each with a dot, and the line through them.
pub(super) fn rib() -> Vec<TermLayer> {
    let mut layers = cover();
    layers.push(piece(Ink::Mark, &[(SIDES.0, AXIS), (SIDES.1, AXIS)]));
    layers.push(layer(Ink::Spot, &ROW.map(|x| circle((x, AXIS), 5.0))));
    layers
}
