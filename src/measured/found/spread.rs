//! How well the points found are known.

use super::shape::Shaped;
use crate::base::segments::{Sums, covariance};

/// One standard deviation of place and diameter of each point, where a reading has this variance.
///
/// A point in a gap with no reading on one side of its piece could be anywhere in the gap. Of two places taken at random in a
/// gap, each has a variance of a 18th of its square; of one place anywhere between its neighbours, a 12th (analytic).
pub(super) fn spreads(shaped: &Shaped, sums: &Sums, variance: f64) -> Vec<(f64, f64)> {
    let knots = &shaped.line.places;
    let numbers = sums.places();
    let before = |place: f64| numbers.partition_point(|&at| at < place);
    let believed = |knot: usize| {
        let (Some(left), Some(right)) = (knot.checked_sub(1), knots.get(knot + 1)) else {
            return 1.0;
        };
        let here = before(knots[knot]);
        let is_empty = before(knots[left]) == here || before(*right) == here;
        let gap = here.checked_sub(1).zip(numbers.get(here));
        match gap.filter(|_| is_empty) {
            Some((one, &other)) => (other - numbers[one]) / 18.0_f64.sqrt(),
            None => (right - knots[left]) / 12.0_f64.sqrt(),
        }
    };
    let believed: Vec<f64> = (0..knots.len())
        .map(|knot| believed(knot).max(1e-6))
        .collect();
    let ties = &shaped.ties;
    let covariance = covariance(sums, &shaped.line, ties, (variance, &believed));
    let spread = |index: usize| {
        let found = covariance
            .as_ref()
            .map_or(0.0, |covariance| covariance[(index, index)]);
        if found.is_finite() {
            found.max(0.0).sqrt()
        } else {
            0.0
        }
    };
    let of = |knot: usize| {
        (
            ties.place(knot).map_or(0.0, spread),
            spread(ties.value(knot)),
        )
    };
    (0..knots.len()).map(of).collect()
}
