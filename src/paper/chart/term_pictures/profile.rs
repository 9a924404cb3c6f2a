//! A line of every part: tip, front taper, belly, rear taper, running line.

use super::layer::{Ink, TermLayer};
use super::pen::{PenPoint, layer};

/// Where the parts end, and half the thickness there.
const EDGES: [PenPoint; 6] = [
    (6.0, 8.0),
    (24.0, 8.0),
    (56.0, 30.0),
    (100.0, 30.0),
    (122.0, 5.0),
    (154.0, 5.0),
];
const AXIS: f64 = 50.0;

fn part(index: usize) -> Vec<PenPoint> {
    let [(from, before), (to, behind)] = [EDGES[index], EDGES[index + 1]];
    vec![
        (from, AXIS - before),
        (to, AXIS - behind),
        (to, AXIS + behind),
        (from, AXIS + before),
    ]
}

/// The line, with these of its parts meant, counted from the tip.
pub(super) fn with_meant(meant: &[usize]) -> Vec<TermLayer> {
    let parts = |wanted: bool| {
        let of = (0..EDGES.len() - 1).filter(|index| meant.contains(index) == wanted);
        of.map(part).collect::<Vec<_>>()
    };
    vec![
        layer(Ink::Body, &parts(false)),
        layer(Ink::Meant, &parts(true)),
    ]
}
