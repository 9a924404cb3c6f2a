//! Errors of measured numbers, some of which share a part of theirs.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// Measured numbers that share a part of their errors. Groups share nothing with each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Group {
    /// The numbers measured.
    pub measured: Vec<f64>,
    /// Error of each by itself, one standard deviation; more than 0.
    pub errors: Vec<f64>,
    /// How far one standard deviation of the error they share moves each of them; 0 for those that have no part in it.
    pub shared: Vec<f64>,
    /// From how many of its own errors on each pulls no harder ([`super::BEND`]); infinite for plain least squares.
    pub bends: Vec<f64>,
}

impl Group {
    /// Adds a number with its own error and its part in the one shared, for plain least squares.
    pub fn push(&mut self, measured: f64, error: f64, shared: f64) {
        self.measured.push(measured);
        self.errors.push(error);
        self.shared.push(shared);
        self.bends.push(f64::INFINITY);
    }

    /// `V = diag(σ²/w) + u uᵀ`, with the own errors σ, their weights w and what is shared u. Analytic: a nuisance that adds
    /// `ε u`, with ε normal of spread 1, leaves just this when it is summed over.
    pub(super) fn covariance(&self, weights: &[f64]) -> DMatrix<f64> {
        let shared = DVector::from_column_slice(&self.shared);
        let own = self.errors.iter().zip(weights);
        let own = own.map(|(error, weight)| error * error / weight);
        let own = DVector::from_iterator(self.errors.len(), own);
        DMatrix::from_diagonal(&own) + &shared * shared.transpose()
    }
}

/// Measured less found, for the numbers of all groups.
pub(super) fn residuals(groups: &[Group], found: &[f64]) -> DVector<f64> {
    let measured = groups.iter().flat_map(|group| &group.measured);
    let residuals = measured
        .zip(found)
        .map(|(measured, found)| measured - found);
    DVector::from_iterator(found.len(), residuals)
}

/// Groups of numbers made ready for least squares: with `V = L Lᵀ` the numbers `L⁻¹ y` have errors of 1 that share nothing.
pub(super) struct Whitened {
    /// The root of each group's covariance, with the place of its first number.
    roots: Vec<(usize, Cholesky<f64, Dyn>)>,
}

impl Whitened {
    /// The groups with these weights, more than 0 and one for each number.
    pub(super) fn of(groups: &[Group], weights: &[f64]) -> Self {
        let mut first = 0;
        let root = |group: &Group| {
            let at = first;
            first += group.measured.len();
            let root = Cholesky::new(group.covariance(&weights[at..first]));
            (at, root.expect("squares of errors above 0 have a root"))
        };
        Self {
            roots: groups.iter().map(root).collect(),
        }
    }

    /// `L⁻¹ M`: every column with errors of 1.
    pub(super) fn whiten(&self, columns: &DMatrix<f64>) -> DMatrix<f64> {
        let mut whitened = columns.clone();
        for (at, root) in &self.roots {
            let mut part = whitened.rows_mut(*at, root.l_dirty().nrows());
            root.l_dirty().solve_lower_triangular_mut(&mut part);
        }
        whitened
    }

    /// `V⁻¹ M`.
    pub(super) fn weigh_columns(&self, columns: &DMatrix<f64>) -> DMatrix<f64> {
        let mut weighed = columns.clone();
        for (at, root) in &self.roots {
            let mut part = weighed.rows_mut(*at, root.l_dirty().nrows());
            root.solve_mut(&mut part);
        }
        weighed
    }

    /// `V⁻¹ r`.
    pub(super) fn weigh(&self, residuals: &DVector<f64>) -> DVector<f64> {
        let column = DMatrix::from_column_slice(residuals.len(), 1, residuals.as_slice());
        self.weigh_columns(&column).column(0).into_owned()
    }

    /// The diagonal of `V⁻¹`.
    pub(super) fn weights(&self) -> Vec<f64> {
        let of = |(_, root): &(usize, Cholesky<f64, Dyn>)| -> Vec<f64> {
            root.inverse().diagonal().iter().copied().collect()
        };
        self.roots.iter().flat_map(of).collect()
    }
}
