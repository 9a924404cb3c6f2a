//! The way down to the least sum of squares, within ranges.

use nalgebra::{Cholesky, DMatrix, DVector};

use super::errors::{Group, Whitened, residuals};
use super::robust::Weighing;
use super::unknown::Unknown;

/// Steps after which patience ends; problems that can be solved take some ten.
const MOST_STEPS: usize = 200;
/// Halvings after which a step gains nothing any more.
const MOST_HALVINGS: usize = 40;
/// The same for steps along an edge.
const HALVINGS_ALONG_EDGES: usize = 6;
/// A smaller gain than this, in half squares of spreads, is not worth another step along an edge.
const LEAST_GAIN: f64 = 1e-12;
/// A step whose square, in spreads of the estimate, is below this is none: a hundred-millionth of a spread.
const CLOSE: f64 = 1e-16;
/// Central differences err least at about the cube root of the rounding of f64.
const DIFFERENCE: f64 = 6e-6;
/// Differences of an unknown near 0 go by this share of its spread.
const LEAST_SCALE: f64 = 0.01;

/// A search for the least sum of squares, or of Huber's loss where numbers have a bend.
pub(super) struct Descent<'a, F> {
    pub(super) unknowns: &'a [Unknown],
    pub(super) groups: &'a [Group],
    pub(super) expected: &'a F,
}

/// A place on the way down, with all that was calculated there.
pub(super) struct Spot {
    pub(super) at: DVector<f64>,
    /// What the model says there.
    pub(super) found: Vec<f64>,
    /// Half the sum of squares, or the loss; infinite where the model has nothing to say.
    pub(super) cost: f64,
    /// The weight of each number.
    pub(super) weights: Vec<f64>,
}

/// The sum around a place: its gradient turned round, and its curvature.
struct Local {
    hessian: DMatrix<f64>,
    downhill: DVector<f64>,
}

impl<F: Fn(&[f64]) -> Vec<f64>> Descent<'_, F> {
    /// Goes down from the means, or from the ends of ranges they lie beyond; says whether the search settled.
    pub(super) fn run(&self) -> (Spot, bool) {
        let means = self.unknowns.iter().map(|unknown| unknown.mean);
        let means = DVector::from_iterator(self.unknowns.len(), means);
        let mut spot = self.spot(self.clamped(&means));
        for _ in 0..MOST_STEPS {
            let slopes = self.slopes(&spot.at);
            let local = self.local(&spot, &slopes);
            let (hessian, step) = (&local.hessian, self.step(&spot, &local, None));
            if (hessian * &step).dot(&step) <= CLOSE {
                let last = self.clamped(&(&spot.at + step));
                return (self.spot(last), true);
            }
            let next = self.better(&spot, &step, MOST_HALVINGS);
            match next.or_else(|| self.along_an_edge(&spot, &local)) {
                Some(next) => spot = next,
                // No way down but rounding: this is the bottom.
                None => return (spot, true),
            }
        }
        (spot, false)
    }

    fn spot(&self, at: DVector<f64>) -> Spot {
        let found = (self.expected)(at.as_slice());
        let Weighing { weights, loss } = Weighing::of(self.groups, &residuals(self.groups, &found));
        let believed: f64 = self.strains(&at).map(|strain| strain * strain).sum();
        let cost = loss + 0.5 * believed;
        Spot {
            cost: if cost.is_finite() {
                cost
            } else {
                f64::INFINITY
            },
            found,
            at,
            weights,
        }
    }

    /// The numbers with their weights at a place.
    pub(super) fn whitened(&self, spot: &Spot) -> Whitened {
        Whitened::of(self.groups, &spot.weights)
    }

    /// Slopes of what is expected, by central differences; at an end of a range by the side within it, since what is beyond
    /// may have another slope, or none.
    pub(super) fn slopes(&self, at: &DVector<f64>) -> DMatrix<f64> {
        let column = |(index, unknown): (usize, &Unknown)| {
            let scale = at[index].abs().max(LEAST_SCALE * unknown.spread);
            let by = DIFFERENCE * scale;
            let (up, down) = (
                (at[index] + by).min(unknown.high),
                (at[index] - by).max(unknown.low),
            );
            let moved = |to: f64| {
                let mut moved = at.clone();
                moved[index] = to;
                DVector::from_vec((self.expected)(moved.as_slice()))
            };
            (moved(up) - moved(down)) / (up - down)
        };
        let columns: Vec<DVector<f64>> = self.unknowns.iter().enumerate().map(column).collect();
        DMatrix::from_columns(&columns)
    }

    /// `(Jᵀ V⁻¹ J + S⁻²)⁻¹`.
    pub(super) fn covariance(&self, whitened: &Whitened, slopes: &DMatrix<f64>) -> DMatrix<f64> {
        let hessian = self.hessian(whitened, slopes);
        let (scaled, scales) = equilibrated(&hessian);
        let inverse = root(scaled).inverse();
        DMatrix::from_fn(scales.len(), scales.len(), |row, column| {
            inverse[(row, column)] * scales[row] * scales[column]
        })
    }

    /// `Jᵀ V⁻¹ J + S⁻²`.
    fn hessian(&self, whitened: &Whitened, slopes: &DMatrix<f64>) -> DMatrix<f64> {
        let whitened = whitened.whiten(slopes);
        let mut hessian = whitened.tr_mul(&whitened);
        for (index, unknown) in self.unknowns.iter().enumerate() {
            hessian[(index, index)] += unknown.spread.powi(-2);
        }
        hessian
    }

    /// How the sum falls at a place, and how it bends there.
    fn local(&self, spot: &Spot, slopes: &DMatrix<f64>) -> Local {
        let whitened = self.whitened(spot);
        let residuals = residuals(self.groups, &spot.found);
        let mut downhill = slopes.tr_mul(&whitened.weigh(&residuals));
        for (index, strain) in self.strains(&spot.at).enumerate() {
            downhill[index] -= strain / self.unknowns[index].spread;
        }
        Local {
            hessian: self.hessian(&whitened, slopes),
            downhill,
        }
    }

    /// How far each unknown is from its mean, in its spreads.
    fn strains<'b>(&'b self, at: &'b DVector<f64>) -> impl Iterator<Item = f64> + 'b {
        let strain = |(unknown, &at): (&Unknown, &f64)| (at - unknown.mean) / unknown.spread;
        self.unknowns.iter().zip(at.iter()).map(strain)
    }

    /// The step of Gauss and Newton, with those held that would leave their range from its very end, and one kept as it is.
    fn step(&self, spot: &Spot, local: &Local, kept: Option<usize>) -> DVector<f64> {
        let at = &spot.at;
        let Local { hessian, downhill } = local;
        let mut held: Vec<bool> = self.leaving(at, downhill).collect();
        if let Some(kept) = kept {
            held[kept] = true;
        }
        loop {
            let step = solved(hessian, downhill, &held);
            let more: Vec<usize> = self
                .leaving(at, &step)
                .enumerate()
                .filter_map(|(index, leaves)| (leaves && !held[index]).then_some(index))
                .collect();
            if more.is_empty() {
                return step;
            }
            for index in more {
                held[index] = true;
            }
        }
    }

    /// Which unknowns stand at an end of their range and are pushed across it.
    fn leaving<'b>(
        &'b self,
        at: &'b DVector<f64>,
        way: &'b DVector<f64>,
    ) -> impl Iterator<Item = bool> + 'b {
        self.unknowns.iter().enumerate().map(|(index, unknown)| {
            (at[index] <= unknown.low && way[index] < 0.0)
                || (at[index] >= unknown.high && way[index] > 0.0)
        })
    }

    /// The first place on a step, halved and halved again, with a smaller sum of squares.
    fn better(&self, spot: &Spot, step: &DVector<f64>, halvings: usize) -> Option<Spot> {
        let shares = core::iter::successors(Some(1.0), |share| Some(0.5 * share));
        shares
            .take(halvings)
            .map(|share| self.spot(self.clamped(&(&spot.at + step * share))))
            .find(|next| next.cost < spot.cost)
    }

    /// A place farther down with one unknown kept. Where slopes change abruptly, the bottom may lie on the edge, and steps
    /// that would cross it gain nothing; those along it do.
    fn along_an_edge(&self, spot: &Spot, local: &Local) -> Option<Spot> {
        let along = |kept: usize| {
            let step = self.step(spot, local, Some(kept));
            self.better(spot, &step, HALVINGS_ALONG_EDGES)
        };
        (0..self.unknowns.len())
            .filter_map(along)
            .min_by(|one, other| one.cost.total_cmp(&other.cost))
            .filter(|best| best.cost < spot.cost - LEAST_GAIN)
    }

    fn clamped(&self, at: &DVector<f64>) -> DVector<f64> {
        let clamp = |(unknown, &at): (&Unknown, &f64)| at.clamp(unknown.low, unknown.high);
        let values = self.unknowns.iter().zip(at.iter()).map(clamp);
        DVector::from_iterator(at.len(), values)
    }
}

/// The solution of `H x = g` among those not held; those held stay at 0.
fn solved(hessian: &DMatrix<f64>, downhill: &DVector<f64>, held: &[bool]) -> DVector<f64> {
    let mut hessian = hessian.clone();
    let mut downhill = downhill.clone();
    for index in (0..held.len()).filter(|&index| held[index]) {
        hessian.row_mut(index).fill(0.0);
        hessian.column_mut(index).fill(0.0);
        hessian[(index, index)] = 1.0;
        downhill[index] = 0.0;
    }
    let (scaled, scales) = equilibrated(&hessian);
    root(scaled)
        .solve(&downhill.component_mul(&scales))
        .component_mul(&scales)
}

/// The matrix with ones along its diagonal, and what each row and column was multiplied with: unknowns of very different
/// size are then solved for alike.
fn equilibrated(hessian: &DMatrix<f64>) -> (DMatrix<f64>, DVector<f64>) {
    let scales = hessian.diagonal().map(|square| 1.0 / square.sqrt());
    let scaled = DMatrix::from_fn(scales.len(), scales.len(), |row, column| {
        hessian[(row, column)] * scales[row] * scales[column]
    });
    (scaled, scales)
}

/// The root of a matrix that the prior keeps positive; where rounding does not, a hair on the diagonal does.
fn root(matrix: DMatrix<f64>) -> Cholesky<f64, nalgebra::Dyn> {
    Cholesky::new(matrix.clone()).unwrap_or_else(|| {
        let size = matrix.nrows();
        Cholesky::new(matrix + DMatrix::identity(size, size) * 1e-9)
            .expect("squares and a hair on the diagonal have a root")
    })
}
