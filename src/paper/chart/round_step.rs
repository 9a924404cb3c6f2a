//! Round steps and figures of an axis.

use crate::base::units::show::trimmed;

/// A round step of which no more than so many fit into a range above 0: 1, 2 or 5 with zeros.
pub(super) fn round_step(range: f64, most: f64) -> f64 {
    let least = range / most;
    let decade = 10_f64.powf(least.log10().floor());
    let rounds = [1.0, 2.0, 5.0, 10.0].map(|round| round * decade);
    rounds
        .into_iter()
        .find(|step| *step >= least)
        .unwrap_or(10.0 * decade)
}

/// Most figures of an axis, whatever its range.
const MOST: u32 = 12;

/// Round figures within a range, by this step: where they are, and what they say.
pub(super) fn round_figures(
    (low, high): (f64, f64),
    step: f64,
    place: impl Fn(f64) -> f64,
) -> Vec<(f64, String)> {
    let first = (low / step).ceil();
    let values = (0..=MOST).map(|count| (first + f64::from(count)) * step);
    values
        .take_while(|value| *value <= high + 1e-9 * step)
        .map(|value| (place(value), trimmed(value, 3)))
        .collect()
}
