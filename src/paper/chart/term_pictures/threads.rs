//! What a thread is and how it runs.

use core::f64::consts::TAU;

use super::layer::{Ink, TermLayer};
use super::pen::{PenPoint, arc, circle, dimension, layer, piece, rectangle};

/// Four ends that come from the left and are plied to one thread; either one end or the thread is meant.
pub(super) fn plied(end: bool) -> Vec<TermLayer> {
    let run = |k: f64| vec![(6.0, 14.0 + 24.0 * k), (70.0, 45.5 + 3.0 * k)];
    let others: Vec<_> = [1.0, 2.0, 3.0].map(run).to_vec();
    let twist = |k: u32| {
        let x = 76.0 + 13.0 * f64::from(k);
        vec![(x, 56.0), (x + 9.0, 44.0)]
    };
    let thread = if end { Ink::Body } else { Ink::Meant };
    let first = if end { Ink::Strong } else { Ink::Line };
    vec![
        piece(thread, &rectangle((70.0, 44.0), (154.0, 56.0))),
        layer(Ink::Line, &(0..6).map(twist).collect::<Vec<_>>()),
        layer(Ink::Line, &others),
        piece(first, &run(0.0)),
    ]
}

/// A stretch of line with its axis.
fn body(top: f64, bottom: f64) -> [TermLayer; 2] {
    let middle = f64::midpoint(top, bottom);
    [
        piece(Ink::Body, &rectangle((6.0, top), (154.0, bottom))),
        piece(Ink::Soft, &[(6.0, middle), (154.0, middle)]),
    ]
}

/// A thread at 45° to the axis, and the arc between them.
pub(super) fn angle() -> Vec<TermLayer> {
    let mut layers = body(22.0, 78.0).to_vec();
    layers.push(piece(Ink::Strong, &[(52.0, 78.0), (108.0, 22.0)]));
    layers.push(piece(
        Ink::Line,
        &arc((80.0, 50.0), 24.0, 0.0, -45.0 / 360.0),
    ));
    layers
}

/// Length of one turn in the drawing of the lay.
const TURN: f64 = 84.0;
/// Where that turn begins.
const TURN_BEGINS: f64 = 22.0;

/// A thread that winds around the line: solid in front, dashed behind. The dimension line is one turn long.
pub(super) fn lay() -> Vec<TermLayer> {
    let winding = |from: f64, to: f64| -> Vec<PenPoint> {
        let at = |step: u32| {
            let turn = from + (to - from) * f64::from(step) / 16.0;
            (TURN_BEGINS + TURN * turn, 42.0 + 26.0 * (TAU * turn).cos())
        };
        (0..=16).map(at).collect()
    };
    let [line, _] = body(16.0, 68.0);
    vec![
        line,
        piece(Ink::Soft, &winding(0.5, 1.0)),
        layer(Ink::Strong, &[winding(0.0, 0.5), winding(1.0, 1.5)]),
        dimension(TURN_BEGINS, TURN_BEGINS + TURN, 86.0),
    ]
}

/// Sides on which the thread of the drawing passes seven others: above or below.
const ABOVE: [bool; 7] = [true, false, true, true, true, false, true];
/// The part of them in a row that is the float.
const FLOATS: core::ops::RangeInclusive<usize> = 2..=4;

/// A thread that passes over and under others, seen from their ends, and stays above three of them.
pub(super) fn float() -> Vec<TermLayer> {
    let x = |index: usize| 14.0 + 22.0 * index as f64;
    let y = |index: usize| if ABOVE[index] { 44.0 } else { 72.0 };
    let others: Vec<_> = (0..ABOVE.len())
        .map(|i| circle((x(i), 58.0), 8.0))
        .collect();
    let way: Vec<_> = (0..ABOVE.len()).map(|i| (x(i), y(i))).collect();
    let floating: Vec<_> = FLOATS.map(|i| (x(i), y(i))).collect();
    vec![
        layer(Ink::Body, &others),
        piece(Ink::Line, &way),
        piece(Ink::Strong, &floating),
        dimension(x(*FLOATS.start()), x(*FLOATS.end()), 22.0),
    ]
}
