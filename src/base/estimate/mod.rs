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
//! This room knows nothing of braids.

mod descent;
mod errors;
mod unknown;

use nalgebra::{DMatrix, DVector};

pub use errors::Group;
pub use unknown::Unknown;

use descent::Descent;
use errors::Whitened;

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
    /// with the number's own error. Analytic: `[V⁻¹ r]ⱼ / √[V⁻¹ − V⁻¹ J C Jᵀ V⁻¹]ⱼⱼ` with the residuals `r` and the covariance
    /// `C`, which for independent errors is the residual over `σ √(1 − leverage)`.
    pub standardised: Vec<f64>,
    /// Half the sum of squares that is least there: the less, the likelier the whole.
    pub cost: f64,
    /// Whether the search settled, rather than to the end of its patience.
    pub settled: bool,
}

/// The estimate of some unknowns from measured numbers. `expected` gives the model's numbers for values of the unknowns,
/// within their ranges, in the order of the groups; where it gives none that is finite, no estimate goes.
pub fn fit(unknowns: &[Unknown], groups: &[Group], expected: impl Fn(&[f64]) -> Vec<f64>) -> Fit {
    let whitened = Whitened::of(groups);
    let descent = Descent {
        unknowns,
        whitened: &whitened,
        expected: &expected,
    };
    let (spot, settled) = descent.run();
    let slopes = descent.slopes(&spot.at);
    let covariance = descent.covariance(&slopes);
    Fit {
        standardised: standardised(&whitened, &slopes, &covariance, &spot.found),
        values: spot.at.as_slice().to_vec(),
        covariance,
        slopes,
        expected: spot.found,
        cost: spot.cost,
        settled,
    }
}

fn standardised(
    whitened: &Whitened,
    slopes: &DMatrix<f64>,
    covariance: &DMatrix<f64>,
    found: &[f64],
) -> Vec<f64> {
    let pulled = whitened.weigh(&whitened.residuals(found));
    let weighed = whitened.weigh_columns(slopes);
    let weights = whitened.weights();
    let left = |row: usize| {
        let slope: DVector<f64> = weighed.row(row).transpose();
        let explained = (covariance * &slope).dot(&slope);
        // Rounding may bring what is left to nothing; a number that decides all by itself surprises nobody.
        (weights[row] - explained).max(weights[row] * 1e-12)
    };
    (0..pulled.len())
        .map(|row| pulled[row] / left(row).sqrt())
        .collect()
}
