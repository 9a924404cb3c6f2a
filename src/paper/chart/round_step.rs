//! A round step for an axis.

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
