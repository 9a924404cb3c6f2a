//! Lengths as whole counts of the grid of [`POSITION`], so that sums are exact.

use crate::design::DraftPoint;
use crate::design::settings::POSITION;

/// The lengths between neighbouring points, in steps of the grid.
pub(super) fn stretches(points: &[DraftPoint]) -> Vec<i64> {
    points
        .windows(2)
        .map(|pair| quanta(pair[1].at_m) - quanta(pair[0].at_m))
        .collect()
}

/// A distance from the tip in steps of the grid; from metres.
pub(super) fn quanta(metres: f64) -> i64 {
    i64::from(POSITION.quanta(metres))
}

/// The place of a count of steps, in metres. A count below zero is refused later.
#[expect(
    clippy::cast_precision_loss,
    reason = "a hundred metres of tenths of a millimetre"
)]
pub(super) fn metres(quanta: i64) -> f64 {
    quanta as f64 / f64::from(POSITION.steps)
}

/// Parts of this total length, in the proportions of those given. The ends of the parts are rounded, not their lengths, so that
/// the sum is exact.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "lengths of a line in tenths of a millimetre"
)]
pub(super) fn in_proportion(parts: &[i64], length: i64) -> Vec<i64> {
    let whole: i64 = parts.iter().sum();
    let (mut until, mut placed) = (0, 0);
    let scaled = parts.iter().map(|part| {
        until += part;
        let end = (until as f64 / whole as f64 * length as f64).round() as i64;
        let part = end - placed;
        placed = end;
        part
    });
    scaled.collect()
}
