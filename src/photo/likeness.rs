//! How like the rest of the line each piece is: the pattern of one spacing, averaged over the whole line, is laid over every piece.
//! Where a thread is missing or stands out, or dirt lies over it, the piece is less like that pattern.

use core::ops::Range;

use libm::sqrt;

use super::grid::Grid;

/// Parts of a spacing in which the pattern is held.
const PARTS: usize = 24;

/// A piece of the line: its rows, and its spacing in samples.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    /// Rows of the surface.
    pub(super) rows: Range<usize>,
    /// Samples from one crossing to the next.
    pub(super) spacing: f64,
}

/// The pattern of one spacing: for each part the mean brightness in each column.
struct Pattern {
    parts: Vec<Vec<f64>>,
}

/// The part of a spacing in which a row lies, counted from the start of its piece.
fn part(stretch: &Stretch, row: usize) -> usize {
    let place = (row - stretch.rows.start) as f64 / stretch.spacing;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and the count of parts"
    )]
    let part = (place.rem_euclid(1.0) * PARTS as f64) as usize;
    part.min(PARTS - 1)
}

impl Pattern {
    /// Of one piece.
    fn of(relief: &Grid, columns: &Range<usize>, stretch: &Stretch) -> Self {
        let mut parts = vec![vec![0.0; columns.len()]; PARTS];
        let mut counts = [0.0; PARTS];
        for row in stretch.rows.clone() {
            let part = part(stretch, row);
            counts[part] += 1.0;
            for (sum, value) in parts[part].iter_mut().zip(values(relief, columns, row)) {
                *sum += f64::from(*value);
            }
        }
        for (part, count) in parts.iter_mut().zip(counts) {
            for value in part {
                *value /= f64::max(count, 1.0);
            }
        }
        Self { parts }
    }

    /// The value of a part moved by so many parts.
    fn moved(&self, part: usize, by: usize) -> &[f64] {
        &self.parts[(part + by) % PARTS]
    }

    /// By how many parts another one has to be moved to be most like this.
    fn shift_of(&self, other: &Self) -> usize {
        let product = |by: usize| -> f64 {
            (0..PARTS)
                .map(|part| {
                    let pairs = self.parts[part].iter().zip(other.moved(part, by));
                    pairs.map(|(one, two)| one * two).sum::<f64>()
                })
                .sum()
        };
        let best = (0..PARTS).max_by(|one, two| product(*one).total_cmp(&product(*two)));
        best.unwrap_or_default()
    }

    fn add(&mut self, other: &Self, by: usize) {
        for (part, values) in self.parts.iter_mut().enumerate() {
            for (sum, value) in values.iter_mut().zip(other.moved(part, by)) {
                *sum += value;
            }
        }
    }
}

fn values<'a>(relief: &'a Grid, columns: &Range<usize>, row: usize) -> &'a [f32] {
    relief.row(row).get(columns.clone()).unwrap_or_default()
}

/// How like the pattern of all other pieces each piece is, 0 to 1.
pub(super) fn of(relief: &Grid, columns: &Range<usize>, stretches: &[Stretch]) -> Vec<f64> {
    let patterns: Vec<Pattern> = stretches
        .iter()
        .map(|stretch| Pattern::of(relief, columns, stretch))
        .collect();
    let like = |index: usize| {
        let others = patterns
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != index);
        let mut mean = Pattern {
            parts: vec![vec![0.0; columns.len()]; PARTS],
        };
        for (_, other) in others {
            mean.add(other, patterns[index].shift_of(other));
        }
        likeness(relief, columns, &stretches[index], &mean)
    };
    (0..stretches.len()).map(like).collect()
}

/// Correlation of a piece with a pattern that already lies as it does.
fn likeness(relief: &Grid, columns: &Range<usize>, stretch: &Stretch, pattern: &Pattern) -> f64 {
    let (mut product, mut own, mut other) = (0.0, 0.0, 0.0);
    for row in stretch.rows.clone() {
        let expected = pattern.moved(part(stretch, row), 0);
        for (value, expected) in values(relief, columns, row).iter().zip(expected) {
            let value = f64::from(*value);
            product += value * expected;
            own += value * value;
            other += expected * expected;
        }
    }
    let size = sqrt(own * other);
    if size > 0.0 {
        (product / size).max(0.0)
    } else {
        0.0
    }
}
