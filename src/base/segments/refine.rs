//! Knots moved to the least sum of squares, places and values together.

use nalgebra::{Cholesky, DMatrix, DVector};

use super::broken::{Bounds, Broken};
use super::sums::Sums;
use super::ties::Ties;

/// Steps after which patience ends; most lines take ten to twenty.
const MOST_STEPS: usize = 60;
/// Damping of the first step, and the largest; between steps it falls or grows tenfold.
const DAMPING: f64 = 1e-3;
const MOST_DAMPING: f64 = 1e7;
const LEAST_DAMPING: f64 = 1e-9;
/// A gain of less than this share of the squares ends the search.
const LEAST_GAIN: f64 = 1e-10;

/// Rounds of steps along the places of numbers.
const MOST_ROUNDS: usize = 8;

/// A broken line at its least squares.
#[derive(Clone, Debug, PartialEq)]
pub struct Refined {
    /// The line.
    pub line: Broken,
    /// Weighted squares it leaves.
    pub squares: f64,
}

/// Half the curvature of the sum of squares, and its slope turned round.
fn local(sums: &Sums, line: &Broken, ties: &Ties) -> (DMatrix<f64>, DVector<f64>) {
    let count = ties.count();
    let mut curvature = DMatrix::zeros(count, count);
    let mut downhill = DVector::zeros(count);
    for (before, piece) in line.pieces(sums).enumerate() {
        // A knot's value moves the line by its hat, its place by its hat times the slope, the other way.
        let moved = |knot: usize, is_after: bool| {
            let value = (ties.value(knot), is_after, 1.0);
            let place = ties.tied_place(knot);
            let place = place.map(|tied| (tied.index, is_after, -piece.slope * tied.sign));
            [Some(value), place]
        };
        let moved = [moved(before, false), moved(before + 1, true)];
        for (row, is_after, share) in moved.into_iter().flatten().flatten() {
            let pull = if is_after {
                piece.pull_after
            } else {
                piece.pull_before
            };
            downhill[row] += share * pull;
            for (column, is_other_after, other) in moved.into_iter().flatten().flatten() {
                let product = match (is_after, is_other_after) {
                    (false, false) => piece.before,
                    (true, true) => piece.after,
                    _ => piece.both,
                };
                curvature[(row, column)] += share * other * product;
            }
        }
    }
    (curvature, downhill)
}

/// The line moved by a step of its parameters; values stay within their bounds.
fn stepped(line: &Broken, ties: &Ties, step: &DVector<f64>, bounds: &Bounds) -> Broken {
    let place = |(knot, &place): (usize, &f64)| {
        let tied = ties.tied_place(knot);
        tied.map_or(place, |tied| place + tied.sign * step[tied.index])
    };
    let value = |(knot, &value): (usize, &f64)| {
        (value + step[ties.value(knot)]).clamp(bounds.low, bounds.high)
    };
    Broken {
        places: line.places.iter().enumerate().map(place).collect(),
        values: line.values.iter().enumerate().map(value).collect(),
    }
}

/// Holds still the values that stand at a bound and are pulled across it.
fn hold(
    line: &Broken,
    ties: &Ties,
    bounds: &Bounds,
    (curvature, downhill): (&mut DMatrix<f64>, &mut DVector<f64>),
) {
    for (knot, &value) in line.values.iter().enumerate() {
        let row = ties.value(knot);
        let pull = downhill[row];
        if (value <= bounds.low && pull < 0.0) || (value >= bounds.high && pull > 0.0) {
            fix(row, (curvature, downhill));
        }
    }
}

/// Holds a parameter still.
fn fix(index: usize, (curvature, downhill): (&mut DMatrix<f64>, &mut DVector<f64>)) {
    curvature.row_mut(index).fill(0.0);
    curvature.column_mut(index).fill(0.0);
    curvature[(index, index)] = 1.0;
    downhill[index] = 0.0;
}

/// `(H + d D) s = g`, with the diagonal `D` of `H` made large enough where a parameter moves nothing.
fn solved(curvature: &DMatrix<f64>, downhill: &DVector<f64>, damping: f64) -> Option<DVector<f64>> {
    // Every parameter is measured by how much it bends the sum, so that places and values are alike.
    let largest = curvature.diagonal().max();
    let scale = |bend: f64| 1.0 / bend.max(1e-12 * largest).max(f64::MIN_POSITIVE).sqrt();
    let scales = curvature.diagonal().map(scale);
    let mut scaled = DMatrix::from_fn(scales.len(), scales.len(), |row, column| {
        curvature[(row, column)] * scales[row] * scales[column]
    });
    for index in 0..scales.len() {
        scaled[(index, index)] += damping;
    }
    let root = Cholesky::new(scaled)?;
    let step = root
        .solve(&downhill.component_mul(&scales))
        .component_mul(&scales);
    step.iter().all(|part| part.is_finite()).then_some(step)
}

/// The broken line of least weighted squares near a first guess that is within the bounds, with the same knots.
///
/// Gauss–Newton with the damping of Marquardt 1963, "An algorithm for least-squares estimation of nonlinear parameters", SIAM
/// Journal 11 (from memory). With the share `h` of knot j at a place, the line's slopes are `h` by its value and `−h s` by its
/// place, `s` being the slope of the piece (analytic). Sums over whole pieces stand for the numbers, so that a step takes no
/// longer with more of them.
///
/// Where a knot crosses the place of a number, the slopes change abruptly, and steps across may gain nothing though those along
/// do. [`polish`] takes these, too; what is missing without them is a small part of a spread.
pub fn refine(sums: &Sums, start: Broken, ties: &Ties, bounds: &Bounds) -> Refined {
    let squares = start.squares(sums);
    let start = Refined {
        line: start,
        squares,
    };
    descended(sums, start, ties, (bounds, None))
}

/// The same, with steps along the places of numbers while they gain anything.
pub fn polish(sums: &Sums, start: Broken, ties: &Ties, bounds: &Bounds) -> Refined {
    let mut best = refine(sums, start, ties, bounds);
    for _ in 0..MOST_ROUNDS {
        let along = |knot| {
            let held = ties.place(knot)?;
            Some(descended(sums, best.clone(), ties, (bounds, Some(held))))
        };
        let next = (0..best.line.places.len()).filter_map(along);
        let next = next.min_by(|one, other| one.squares.total_cmp(&other.squares));
        let enough = best.squares * (1.0 - LEAST_GAIN);
        let Some(next) = next.filter(|next| next.squares < enough) else {
            break;
        };
        best = descended(sums, next, ties, (bounds, None));
    }
    best
}

/// A line moved down to where no step gains anything, with a parameter held where it is.
fn descended(
    sums: &Sums,
    start: Refined,
    ties: &Ties,
    (bounds, held): (&Bounds, Option<usize>),
) -> Refined {
    let Refined {
        mut line,
        mut squares,
    } = start;
    let mut damping = DAMPING;
    for _ in 0..MOST_STEPS {
        let (mut curvature, mut downhill) = local(sums, &line, ties);
        hold(&line, ties, bounds, (&mut curvature, &mut downhill));
        if let Some(index) = held {
            fix(index, (&mut curvature, &mut downhill));
        }
        let better = |damping: f64| {
            let step = solved(&curvature, &downhill, damping)?;
            let next = stepped(&line, ties, &step, bounds);
            let fewer = bounds.admit(&next.places).then(|| next.squares(sums))?;
            (fewer < squares).then_some((next, fewer, damping))
        };
        let dampings = core::iter::successors(Some(damping), |damping| Some(10.0 * damping));
        let next = dampings
            .take_while(|damping| *damping <= MOST_DAMPING)
            .find_map(better);
        let Some((next, fewer, used)) = next else {
            break;
        };
        let gain = squares - fewer;
        (line, squares) = (next, fewer);
        damping = (0.1 * used).max(LEAST_DAMPING);
        if gain <= LEAST_GAIN * squares {
            break;
        }
    }
    Refined { line, squares }
}

/// Covariance of the parameters of a line, where a number of weight 1 has this variance. What is believed of each knot's place
/// beforehand is a standard deviation for each, above 0: without it a knot that no number speaks of has no limits at all.
pub fn covariance(
    sums: &Sums,
    line: &Broken,
    ties: &Ties,
    (variance, believed): (f64, &[f64]),
) -> Option<DMatrix<f64>> {
    let (mut curvature, _) = local(sums, line, ties);
    for (knot, spread) in believed.iter().enumerate() {
        if let Some(index) = ties.place(knot) {
            curvature[(index, index)] += variance / (spread * spread);
        }
    }
    let diagonal = curvature.diagonal();
    let largest = diagonal.max();
    let scales = diagonal.map(|bend| 1.0 / bend.max(1e-12 * largest).max(f64::MIN_POSITIVE).sqrt());
    let scaled = DMatrix::from_fn(scales.len(), scales.len(), |row, column| {
        let one = curvature[(row, column)] * scales[row] * scales[column];
        if row == column { one + 1e-9 } else { one }
    });
    let inverse = Cholesky::new(scaled)?.inverse();
    Some(DMatrix::from_fn(
        scales.len(),
        scales.len(),
        |row, column| inverse[(row, column)] * scales[row] * scales[column] * variance,
    ))
}
