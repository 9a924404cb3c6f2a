//! Weighted nonlinear least squares with prior knowledge: what measured numbers say about unknown ones.
//!
//! Each unknown `θ` is believed to be `μ ± s` beforehand; each measured number `y` is the model's `f(θ)` with an error of a
//! stated size. What is least at the estimate is
//!
//! ```text
//! (y − f(θ))ᵀ V⁻¹ (y − f(θ)) + Σ ((θ − μ)/s)²
//! ```
//!
//! with `V` the covariance of the errors. Where all errors are normal this is the likeliest `θ` (Bayes), and with `J` the slopes
//! of `f`, `(Jᵀ V⁻¹ J + S⁻²)⁻¹` is its covariance in the linear case. Source: any text on inverse problems, such as Tarantola,
//! Inverse Problem Theory, SIAM 2005, section 3.2 (from memory).
//!
//! The minimum is found by the rule of Gauss and Newton with slopes by central differences; a step that gains nothing is
//! halved. Ranges are kept by clamping: an unknown that would leave its range is held at its end while the others move on.
//! A number may have a bend from which on it pulls no harder: then Huber's loss takes the place of its square, and the weight
//! that follows from it divides its variance in `V`, in the estimate and in its covariance. How far numbers not
//! measured yet would narrow what is known is [`narrowed()`]. This room knows nothing of braids.

mod descent;
mod errors;
mod narrowed;
mod robust;
mod unknown;

use nalgebra::{DMatrix, DVector};

pub use errors::Group;
pub use narrowed::narrowed;
pub use robust::BEND;
pub use unknown::Unknown;

use descent::{Descent, Spot};
use errors::{Whitened, residuals};

/// What measuring made of the unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The estimate of each unknown.
    pub values: Vec<f64>,
    /// Their covariance, as in the linear case without ranges: where an unknown is held at the end of its range, it says how
    /// far the measured numbers alone would let it wander.
    pub covariance: DMatrix<f64>,
    /// Slopes of the expected numbers: a row for each measured number, a column for each unknown.
    pub slopes: DMatrix<f64>,
    /// What the model says at the estimate in place of each measured number.
    pub expected: Vec<f64>,
    /// How far each measured number is from what all others, and the prior, make one expect, in spreads of that expectation
    /// with the number's own error. Analytic: with the residuals `r`, the covariance `C`, `a = V⁻¹ r` and `q` the diagonal of
    /// `V⁻¹ − V⁻¹ J C Jᵀ V⁻¹`, a number left out is `a/q` from what is then expected, with a variance of `1/q`; in that its own
    /// weight `w` is taken back, `σ²` for `σ²/w`. For independent errors of full weight it is the residual over
    /// `σ √(1 − leverage)`.
    pub standardised: Vec<f64>,
    /// The weight of each measured number: 1, or less where it lies beyond its bend.
    pub weights: Vec<f64>,
    /// Half the sum of squares that is least there, or the loss: the less, the likelier the whole.
    pub cost: f64,
    /// Whether the search settled, rather than to the end of its patience.
    pub settled: bool,
}

/// The estimate of some unknowns from measured numbers. `expected` gives the model's numbers for values of the unknowns,
/// within their ranges, in the order of the groups; where it gives none that is finite, no estimate goes.
pub fn fit(unknowns: &[Unknown], groups: &[Group], expected: impl Fn(&[f64]) -> Vec<f64>) -> Fit {
    let descent = Descent {
        unknowns,
        groups,
        expected: &expected,
    };
    let (spot, settled) = descent.run();
    let slopes = descent.slopes(&spot.at);
    let whitened = descent.whitened(&spot);
    let covariance = descent.covariance(&whitened, &slopes);
    Fit {
        standardised: standardised(groups, &whitened, &spot, (&slopes, &covariance)),
        values: spot.at.as_slice().to_vec(),
        covariance,
        slopes,
        expected: spot.found,
        weights: spot.weights,
        cost: spot.cost,
        settled,
    }
}

/// What is expected of a number that was not learnt from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expectation {
    /// The likeliest value.
    pub value: f64,
    /// Its spread, as far as the unknowns are known; no measuring error is in it: one standard deviation.
    pub spread: f64,
}

/// What an estimate makes one expect of other numbers: `√(J C Jᵀ)` is its spread. `expected` gives the model's numbers, as for
/// [`fit`].
pub fn expect(
    unknowns: &[Unknown],
    fit: &Fit,
    expected: impl Fn(&[f64]) -> Vec<f64>,
) -> Vec<Expectation> {
    let descent = Descent {
        unknowns,
        groups: &[],
        expected: &expected,
    };
    let slopes = descent.slopes(&DVector::from_column_slice(&fit.values));
    let of = |(row, value): (usize, f64)| {
        let slope: DVector<f64> = slopes.row(row).transpose();
        let variance = (&fit.covariance * &slope).dot(&slope);
        Expectation {
            value,
            spread: variance.max(0.0).sqrt(),
        }
    };
    let values = expected(&fit.values);
    values.into_iter().enumerate().map(of).collect()
}

fn standardised(
    groups: &[Group],
    whitened: &Whitened,
    spot: &Spot,
    (slopes, covariance): (&DMatrix<f64>, &DMatrix<f64>),
) -> Vec<f64> {
    let pulled = whitened.weigh(&residuals(groups, &spot.found));
    let weighed = whitened.weigh_columns(slopes);
    let precisions = whitened.weights();
    let left = |row: usize| {
        let slope: DVector<f64> = weighed.row(row).transpose();
        let explained = (covariance * &slope).dot(&slope);
        // Rounding may bring what is left to nothing; a number that decides all by itself surprises nobody.
        (precisions[row] - explained).max(precisions[row] * 1e-12)
    };
    let errors = groups.iter().flat_map(|group| &group.errors);
    let of = |(row, error): (usize, &f64)| {
        let (left, own) = (left(row), error * error);
        let variance = (1.0 / left - own / spot.weights[row]).max(0.0) + own;
        pulled[row] / left / variance.sqrt()
    };
    errors.enumerate().map(of).collect()
}
