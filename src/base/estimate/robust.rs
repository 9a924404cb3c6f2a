//! Huber's loss: a number far off pulls no harder than one at the bend.
//!
//! With `e` the distance of a number from what is found, in its own errors, and `k` its bend, least squares pay `½ e²`.
//! Huber's loss pays that up to `|e| = k` and `k |e| − ½ k²` beyond. Its pull is that of least squares with the weight
//! `w = min(1, k/|e|)`; weighing and solving in turn comes down to the least loss (iteratively reweighted least squares).
//! Sources: P. J. Huber, Robust Estimation of a Location Parameter, Ann. Math. Statist. 35 (1964) 73–101; the reweighting:
//! P. W. Holland and R. E. Welsch, Robust Regression Using Iteratively Reweighted Least-Squares, Commun. Statist. A 6 (1977)
//! 813–827 (from memory).

use nalgebra::DVector;

use super::errors::Group;

/// The bend at which errors that are normal after all cost 5 % of what is learnt. Source: Holland and Welsch, see above.
pub const BEND: f64 = 1.345;
/// No weight is less, so that a number infinitely far off still has one.
const LEAST_WEIGHT: f64 = 1e-12;
/// Weights that move by less have settled.
const SETTLED: f64 = 1e-13;
/// Rounds after which weights of numbers that share an error have long settled.
const MOST_ROUNDS: usize = 200;

/// The weight of every number, and the loss of all together.
pub(super) struct Weighing {
    pub(super) weights: Vec<f64>,
    pub(super) loss: f64,
}

impl Weighing {
    /// That of groups whose numbers are so far from what is found.
    pub(super) fn of(groups: &[Group], residuals: &DVector<f64>) -> Self {
        let mut all = Self {
            weights: Vec::with_capacity(residuals.len()),
            loss: 0.0,
        };
        for group in groups {
            let first = all.weights.len();
            let end = first + group.measured.len();
            all.add(group, &residuals.as_slice()[first..end]);
        }
        all
    }

    fn add(&mut self, group: &Group, residuals: &[f64]) {
        let (weights, together, off) = settled(group, residuals);
        let losses = off.iter().zip(&group.bends);
        let own: f64 = losses.map(|(&off, &bend)| loss(off, bend)).sum();
        self.loss += own + 0.5 * together * together;
        self.weights.extend(weights);
    }
}

/// Huber's loss of a number so many errors off.
fn loss(off: f64, bend: f64) -> f64 {
    let off = off.abs();
    if off <= bend {
        0.5 * off * off
    } else {
        bend * (off - 0.5 * bend)
    }
}

/// Weights of a group, the error its numbers share in its spreads, and how far each is off by itself, in its own errors. The
/// shared error is the likeliest with these weights, and the weights follow from it.
fn settled(group: &Group, residuals: &[f64]) -> (Vec<f64>, f64, Vec<f64>) {
    let mut weights = vec![1.0; residuals.len()];
    let mut rounds = 0;
    loop {
        let together = together(group, residuals, &weights);
        let off: Vec<f64> = (0..residuals.len())
            .map(|row| (residuals[row] - together * group.shared[row]) / group.errors[row])
            .collect();
        let weight = |(&off, &bend): (&f64, &f64)| (bend / off.abs()).clamp(LEAST_WEIGHT, 1.0);
        let next: Vec<f64> = off.iter().zip(&group.bends).map(weight).collect();
        let pairs = next.iter().zip(&weights);
        let moved = pairs.map(|(next, before)| (next - before).abs());
        let is_settled = moved.fold(0.0, f64::max) <= SETTLED;
        weights = next;
        rounds += 1;
        if is_settled || rounds == MOST_ROUNDS {
            return (weights, together, off);
        }
    }
}

/// The likeliest shared error, in its spreads: `uᵀ W r / (1 + uᵀ W u)` with `W = diag(w/σ²)`. Analytic.
fn together(group: &Group, residuals: &[f64], weights: &[f64]) -> f64 {
    let (mut pull, mut held) = (0.0, 1.0);
    for row in 0..residuals.len() {
        let shared = group.shared[row];
        let weight = weights[row] / (group.errors[row] * group.errors[row]);
        pull += weight * shared * residuals[row];
        held += weight * shared * shared;
    }
    pull / held
}
