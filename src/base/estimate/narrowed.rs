//! How far numbers that are not measured yet would narrow what is known.

use nalgebra::{Cholesky, DMatrix};

use super::errors::Group;

/// The covariance left once the numbers of a group are measured, whatever they turn out to be. `slopes` has a row for each number
/// and a column for each unknown.
///
/// `C − C Jᵀ (J C Jᵀ + V)⁻¹ J C`, with `V` the covariance of the errors. Exact where all is normal and the model linear; nothing in
/// it depends on what is measured. Source: any text on inverse problems, such as Tarantola, Inverse Problem Theory, SIAM 2005,
/// section 3.2 (from memory). With `S = J C Jᵀ + V = L Lᵀ` it is `C − (L⁻¹ J C)ᵀ (L⁻¹ J C)`: a square is taken away, so that no
/// spread can grow. Where a slope is no number, nothing is narrowed.
pub fn narrowed(covariance: &DMatrix<f64>, slopes: &DMatrix<f64>, group: &Group) -> DMatrix<f64> {
    let errors = group.covariance(&vec![1.0; group.measured.len()]);
    let moved = slopes * covariance;
    let total = &moved * slopes.transpose() + errors;
    let root = Cholesky::new(total);
    let explained = root.and_then(|root| root.l().solve_lower_triangular(&moved));
    explained.map_or_else(
        || covariance.clone(),
        |explained| covariance - explained.tr_mul(&explained),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(errors: &[f64], shared: &[f64]) -> Group {
        let mut group = Group::default();
        for (&error, &shared) in errors.iter().zip(shared) {
            group.push(0.0, error, shared);
        }
        group
    }

    /// Analytic: of one unknown the precisions add, 1/4 + 1/1 + 1/1.
    #[test]
    fn precisions_add() {
        let known = DMatrix::from_element(1, 1, 4.0);
        let slopes = DMatrix::from_element(2, 1, 1.0);
        let left = narrowed(&known, &slopes, &group(&[1.0, 1.0], &[0.0, 0.0]));
        assert!((left[(0, 0)] - 1.0 / 2.25).abs() < 1e-12);
    }

    /// Analytic: two numbers that share an error of 1 and have none of their own but a hair leave `1/(1/4 + 1)`.
    #[test]
    fn a_shared_error_is_not_averaged_away() {
        let known = DMatrix::from_element(1, 1, 4.0);
        let slopes = DMatrix::from_element(2, 1, 1.0);
        let left = narrowed(&known, &slopes, &group(&[1e-6, 1e-6], &[1.0, 1.0]));
        assert!((left[(0, 0)] - 0.8).abs() < 1e-9);
    }

    #[test]
    fn nothing_measured_narrows_nothing() {
        let known = DMatrix::from_element(1, 1, 4.0);
        let left = narrowed(&known, &DMatrix::zeros(0, 1), &Group::default());
        assert_eq!(left, known);
        let undefined = DMatrix::from_element(1, 1, f64::NAN);
        assert_eq!(narrowed(&known, &undefined, &group(&[1.0], &[0.0])), known);
    }
}
