//! The covariance of all that is not known: the parameters, and the scatter of each line that is being made.

use nalgebra::{DMatrix, DVector};

use super::line_rows::LineRows;
use crate::base::estimate::{Group, narrowed};
use crate::design::parameters::COUNT;

/// All that is not known, with its covariance: the parameters in the units of their settings, then for each of some lines of the
/// book by how much it came out heavier than others of the same hand, in spreads of that.
pub(super) struct Known {
    covariance: DMatrix<f64>,
    /// The places of these lines in the book.
    lines: Vec<usize>,
}

/// Numbers not measured yet: their errors, and a row of slopes by all that is not known for each.
pub(super) struct Rows {
    group: Group,
    slopes: DMatrix<f64>,
}

/// What a line's own numbers say of its scatter.
struct Own {
    /// The variance left of it where the parameters are known.
    left: f64,
    /// How it moves with the parameters.
    by: DVector<f64>,
}

impl Own {
    /// Analytic: given the parameters `θ`, numbers `y = f(θ) + u ε + e` leave of `ε`, normal of spread 1 before, the variance
    /// `1/(1 + Σ u²/σ²)`, and its mean moves with `θ` by `−Σ u J/σ²` times that. Each number counts in full here, one beyond the
    /// bend of Huber's loss too.
    fn of(line: &LineRows, measured: &[usize]) -> Self {
        let mut precision = 1.0;
        let mut pull = DVector::zeros(COUNT);
        for &row in measured {
            let (shared, error) = (line.group.shared[row], line.group.errors[row]);
            precision += (shared / error).powi(2);
            pull -= line.slopes.row(row).transpose() * (shared / (error * error));
        }
        Self {
            left: 1.0 / precision,
            by: pull / precision,
        }
    }
}

impl Known {
    /// What is known of parameters with this covariance, and of these lines, each with the rows that are in it already.
    pub(super) fn of(parameters: &DMatrix<f64>, lines: &[(&LineRows, Vec<usize>)]) -> Self {
        let kept = lines.iter().filter_map(|(line, measured)| {
            line.index.map(|index| (index, Own::of(line, measured)))
        });
        let (indices, own): (Vec<usize>, Vec<Own>) = kept.unzip();
        let size = COUNT + own.len();
        // All that is not known, as it follows from the parameters, with what is left beside them.
        let mut follows = DMatrix::identity(size, COUNT);
        let mut left = DMatrix::zeros(size, size);
        for (place, own) in own.iter().enumerate() {
            follows.set_row(COUNT + place, &own.by.transpose());
            left[(COUNT + place, COUNT + place)] = own.left;
        }
        Self {
            covariance: &follows * parameters * follows.transpose() + left,
            lines: indices,
        }
    }

    fn scatter_of(&self, line: Option<usize>) -> Option<usize> {
        let place = self.lines.iter().position(|&of| Some(of) == line)?;
        Some(COUNT + place)
    }

    /// Some rows of numbers with these slopes by the parameters. What they share is the scatter of this line; of one that is not
    /// among those known it is part of the error.
    pub(super) fn rows(
        &self,
        (group, slopes): (&Group, &DMatrix<f64>),
        line: Option<usize>,
        rows: &[usize],
    ) -> Rows {
        let scatter = self.scatter_of(line);
        let mut chosen = Rows {
            group: Group::default(),
            slopes: DMatrix::zeros(rows.len(), self.covariance.nrows()),
        };
        for (at, &row) in rows.iter().enumerate() {
            let shared = group.shared[row];
            let own = if scatter.is_some() { 0.0 } else { shared };
            chosen
                .group
                .push(group.measured[row], group.errors[row], own);
            chosen
                .slopes
                .view_mut((at, 0), (1, COUNT))
                .copy_from(&slopes.row(row));
            if let Some(column) = scatter {
                chosen.slopes[(at, column)] = shared;
            }
        }
        chosen
    }

    /// The same with these numbers measured.
    pub(super) fn with(&self, rows: &Rows) -> Self {
        Self {
            covariance: narrowed(&self.covariance, &rows.slopes, &rows.group),
            lines: self.lines.clone(),
        }
    }

    /// The variance of what a number will really be, without its own error of measuring.
    pub(super) fn variance(&self, number: &Rows) -> f64 {
        let slopes = &number.slopes;
        let known = (slopes * &self.covariance * slopes.transpose())[(0, 0)];
        known.max(0.0) + number.group.shared[0].powi(2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::keep::book::model::Source;
    use crate::keep::book::record::{LineField, LineStage};

    const LINE: usize = 3;

    /// A line with three invented numbers: one bare, two dressed.
    fn line() -> LineRows {
        let mut group = Group::default();
        for (error, shared) in [(0.1, 0.0), (0.2, 0.5), (0.3, 0.4)] {
            group.push(10.0, error, shared);
        }
        let source = |stage| Source::Line(LINE, stage, LineField::Mass);
        let sources = [LineStage::Bare, LineStage::Coat(0), LineStage::Finished].map(source);
        let slope = |row: usize, column: usize| ((3 * row + 2 * column) as f64).sin();
        LineRows::invented(
            Some(LINE),
            sources.to_vec(),
            group,
            DMatrix::from_fn(3, COUNT, slope),
        )
    }

    fn believed() -> DMatrix<f64> {
        let root = DMatrix::from_fn(COUNT, COUNT, |row, column| {
            ((row * column) as f64).cos() + if row == column { 2.0 } else { 0.0 }
        });
        &root * root.transpose()
    }

    /// Numbers measured, and learnt with a scatter that is part of their errors; or with one that is unknown like all else.
    /// Analytic: both say the same of the parameters, and what follows from the first of the scatter is what the second says.
    #[test]
    fn what_is_known_of_a_scatter_follows_from_what_was_measured() {
        let (line, rows) = (line(), [0, 1]);
        let slopes = line.slopes.select_rows(&rows);
        let mut shared = Group::default();
        for row in rows {
            shared.push(10.0, line.group.errors[row], line.group.shared[row]);
        }
        let learnt = narrowed(&believed(), &slopes, &shared);
        let found = Known::of(&learnt, &[(&line, rows.to_vec())]);
        let nothing = Known::of(&believed(), &[(&line, Vec::new())]);
        let wanted = nothing.with(&nothing.rows((&line.group, &line.slopes), Some(LINE), &rows));
        let off = (&found.covariance - &wanted.covariance).abs().max();
        assert!(off < 1e-9, "{off}");
        assert_eq!(found.lines, [LINE]);
        let before = nothing.covariance[(COUNT, COUNT)];
        assert!((before - 1.0).abs() < 1e-12 && found.covariance[(COUNT, COUNT)] < 0.9);
    }

    /// A line weighed after oil is known better when it is finished than another of the same hand; weighed bare, as well as that.
    #[test]
    fn only_a_dressed_weight_shows_a_lines_own_scatter() {
        let line = line();
        let believed = DMatrix::identity(COUNT, COUNT) * 1e-6;
        let variance = |measured: &[usize], of: Option<usize>| {
            let known = Known::of(&believed, &[(&line, Vec::new())]);
            let rows = known.rows((&line.group, &line.slopes), Some(LINE), measured);
            let known = known.with(&rows);
            known.variance(&known.rows((&line.group, &line.slopes), of, &[2]))
        };
        let (own, another) = (Some(LINE), None);
        assert!((variance(&[0], own) - variance(&[0], another)).abs() < 1e-9);
        // Analytic: a scatter of 1 seen at 0.5 with an error of 0.2 leaves 1/(1 + 6.25) of its variance.
        let left = 0.4_f64.powi(2) / (1.0 + 0.5_f64.powi(2) / 0.2_f64.powi(2));
        assert!(
            (variance(&[1], own) - left).abs() < 1e-4,
            "{}",
            variance(&[1], own)
        );
        assert!((variance(&[1], another) - 0.16).abs() < 1e-4);
    }
}
