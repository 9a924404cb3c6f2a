//! Numbers on a grid, and what is done to all of them.

use super::place::Point;

/// Numbers row by row.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Grid {
    /// Numbers in a row.
    pub(super) width: usize,
    /// Rows.
    pub(super) height: usize,
    values: Vec<f32>,
}

/// Half of the width of a kernel, in standard deviations of the bell curve: what lies beyond is below 1 in 300.
const KERNEL: f64 = 3.0;

impl Grid {
    /// Of values row by row. Missing ones are 0.
    pub(super) fn from_values(width: usize, height: usize, mut values: Vec<f32>) -> Self {
        values.resize(width * height, 0.0);
        Self {
            width,
            height,
            values,
        }
    }

    /// Of a function of column and row.
    pub(super) fn of(
        width: usize,
        height: usize,
        mut value: impl FnMut(usize, usize) -> f32,
    ) -> Self {
        let mut values = Vec::with_capacity(width * height);
        for row in 0..height {
            for column in 0..width {
                values.push(value(column, row));
            }
        }
        Self::from_values(width, height, values)
    }

    /// A number; those beyond the edge are as at the edge.
    pub(super) fn get(&self, column: usize, row: usize) -> f32 {
        let column = column.min(self.width.saturating_sub(1));
        let row = row.min(self.height.saturating_sub(1));
        let place = row * self.width + column;
        self.values.get(place).copied().unwrap_or_default()
    }

    /// A row.
    pub(super) fn row(&self, row: usize) -> &[f32] {
        let start = row.min(self.height) * self.width;
        let end = (start + self.width).min(self.values.len());
        self.values.get(start..end).unwrap_or_default()
    }

    /// All of them.
    pub(super) fn values(&self) -> &[f32] {
        &self.values
    }

    /// The number at a place between the middles of four, by both shares.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within the grid before it is cut"
    )]
    pub(super) fn at(&self, place: Point) -> f32 {
        let (last_x, last_y) = (
            self.width.saturating_sub(1) as f64,
            self.height.saturating_sub(1) as f64,
        );
        let (x, y) = (
            (place.x - 0.5).clamp(0.0, last_x),
            (place.y - 0.5).clamp(0.0, last_y),
        );
        let (column, row) = (x as usize, y as usize);
        let (right, down) = ((x - column as f64) as f32, (y - row as f64) as f32);
        let mix = |first: f32, second: f32, share: f32| first + (second - first) * share;
        let upper = mix(self.get(column, row), self.get(column + 1, row), right);
        let lower = mix(
            self.get(column, row + 1),
            self.get(column + 1, row + 1),
            right,
        );
        mix(upper, lower, down)
    }

    /// The same at half the size: each number the mean of four.
    pub(super) fn halved(&self) -> Self {
        Self::of(self.width / 2, self.height / 2, |column, row| {
            let (column, row) = (2 * column, 2 * row);
            let rows = [row, row + 1].map(|row| self.get(column, row) + self.get(column + 1, row));
            0.25 * (rows[0] + rows[1])
        })
    }

    /// A function of each number.
    pub(super) fn map(&self, of: impl Fn(f32) -> f32) -> Self {
        let values = self.values.iter().map(|value| of(*value)).collect();
        Self::from_values(self.width, self.height, values)
    }

    /// A function of each number and that of another grid of the same size.
    pub(super) fn with(&self, other: &Self, of: impl Fn(f32, f32) -> f32) -> Self {
        let pairs = self.values.iter().zip(&other.values);
        let values = pairs.map(|(one, two)| of(*one, *two)).collect();
        Self::from_values(self.width, self.height, values)
    }

    /// Smoothed by a bell curve of this standard deviation in both directions.
    pub(super) fn smoothed(&self, deviation: f64) -> Self {
        let bell = bell(deviation);
        self.along_rows(&bell).along_columns(&bell)
    }

    /// Each column smoothed by two running means, whose standard deviation together is near this one. What is beyond the ends counts
    /// as not there.
    pub(super) fn smoothed_along(&self, deviation: f64) -> Self {
        // A running mean over n has the variance (n² − 1)/12; two of them have twice that. Analytic.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held within the grid"
        )]
        let reach = (0.5 * libm::sqrt(6.0 * deviation * deviation)).clamp(0.0, 1e5) as usize;
        self.running_means(reach).running_means(reach)
    }

    /// Each column averaged over so many rows to both sides.
    fn running_means(&self, reach: usize) -> Self {
        let mut sums = vec![0.0_f64; self.width];
        let mut values = Vec::with_capacity(self.values.len());
        let add = |sums: &mut [f64], row: usize, sign: f64| {
            for (sum, value) in sums.iter_mut().zip(self.row(row)) {
                *sum += sign * f64::from(*value);
            }
        };
        for row in 0..reach.min(self.height) {
            add(&mut sums, row, 1.0);
        }
        for row in 0..self.height {
            if row + reach < self.height {
                add(&mut sums, row + reach, 1.0);
            }
            if row > reach {
                add(&mut sums, row - reach - 1, -1.0);
            }
            let first = row.saturating_sub(reach);
            let last = (row + reach).min(self.height - 1);
            let count = (last - first + 1) as f64;
            #[expect(
                clippy::cast_possible_truncation,
                reason = "brightness needs no more digits"
            )]
            values.extend(sums.iter().map(|sum| (sum / count) as f32));
        }
        Self::from_values(self.width, self.height, values)
    }

    /// Its slopes along rows and along columns, smoothed by a bell curve of this standard deviation.
    pub(super) fn slopes(&self, deviation: f64) -> [Self; 2] {
        let (bell, slope) = (bell(deviation), slope(deviation));
        [
            self.along_columns(&bell).along_rows(&slope),
            self.along_columns(&slope).along_rows(&bell),
        ]
    }

    /// Each row folded with a kernel of odd length.
    fn along_rows(&self, kernel: &[f32]) -> Self {
        let reach = kernel.len() / 2;
        let mut values = Vec::with_capacity(self.values.len());
        let mut padded = Vec::with_capacity(self.width + 2 * reach);
        for row in 0..self.height {
            let row = self.row(row);
            let (Some(first), Some(last)) = (row.first(), row.last()) else {
                continue;
            };
            padded.clear();
            padded.extend(core::iter::repeat_n(*first, reach));
            padded.extend_from_slice(row);
            padded.extend(core::iter::repeat_n(*last, reach));
            let folded = padded.windows(kernel.len()).map(|window| {
                let terms = window.iter().zip(kernel);
                terms.map(|(value, weight)| value * weight).sum::<f32>()
            });
            values.extend(folded);
        }
        Self::from_values(self.width, self.height, values)
    }

    /// Each column folded with a kernel of odd length.
    fn along_columns(&self, kernel: &[f32]) -> Self {
        let reach = kernel.len() / 2;
        let mut values = vec![0.0; self.values.len()];
        for (row, sums) in values.chunks_exact_mut(self.width.max(1)).enumerate() {
            for (offset, weight) in kernel.iter().enumerate() {
                let source = (row + offset)
                    .saturating_sub(reach)
                    .min(self.height.saturating_sub(1));
                for (sum, value) in sums.iter_mut().zip(self.row(source)) {
                    *sum += value * weight;
                }
            }
        }
        Self::from_values(self.width, self.height, values)
    }
}

/// Offsets of a kernel from its middle.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a kernel has some dozens of weights"
)]
fn offsets(deviation: f64) -> impl Iterator<Item = f64> {
    let reach = (KERNEL * deviation).ceil().clamp(1.0, 200.0) as i32;
    (-reach..=reach).map(f64::from)
}

/// A bell curve whose weights have the sum 1.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a weight needs no more digits"
)]
fn bell(deviation: f64) -> Vec<f32> {
    let deviation = deviation.max(0.05);
    let raw: Vec<f64> = offsets(deviation)
        .map(|offset| libm::exp(-0.5 * (offset / deviation) * (offset / deviation)))
        .collect();
    let sum: f64 = raw.iter().sum();
    raw.into_iter()
        .map(|weight| (weight / sum) as f32)
        .collect()
}

/// The slope of a bell curve; folded with a straight line it gives its slope.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a weight needs no more digits"
)]
fn slope(deviation: f64) -> Vec<f32> {
    let deviation = deviation.max(0.05);
    let raw: Vec<f64> = offsets(deviation)
        .map(|offset| offset * libm::exp(-0.5 * (offset / deviation) * (offset / deviation)))
        .collect();
    let sum: f64 = raw
        .iter()
        .zip(offsets(deviation))
        .map(|(weight, offset)| weight * offset)
        .sum();
    raw.into_iter()
        .map(|weight| (weight / sum) as f32)
        .collect()
}
