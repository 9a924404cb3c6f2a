//! What the numbers of a column are like.

use crate::base::units::text::Unit;

use super::cells::{is_blank, number};
use super::decimals::Decimals;
use super::grid::GridRow;

/// What the numbers of a column are like.
pub(super) struct Values {
    /// Cells with a number.
    pub(super) count: usize,
    /// Cells that are not blank.
    pub(super) filled: usize,
    /// The unit written in most cells that have one; of two as frequent, the first.
    pub(super) unit: Option<Unit>,
    /// The number in the middle of those without a unit, sorted; 0 where there is none. Those with a unit count where all have one.
    pub(super) middle: f64,
    /// The largest and the smallest number.
    pub(super) most: f64,
    /// See `most`.
    pub(super) least: f64,
    /// The numbers without a unit, sorted.
    pub(super) plain: Vec<f64>,
}

impl Values {
    /// What the numbers of a column are like.
    pub(super) fn of(rows: &[GridRow<'_>], column: usize, decimals: Decimals) -> Self {
        let cells = rows.iter().map(|row| row.cell(column));
        let filled = cells.filter(|cell| !is_blank(cell)).count();
        let read = |row: &GridRow<'_>| number(&decimals.plain(row.cell(column)), Unit::Metre).ok();
        let numbers: Vec<(f64, Option<Unit>)> = rows.iter().filter_map(read).collect();
        let sorted = |wanted: fn(&(f64, Option<Unit>)) -> bool| {
            let wanted = numbers.iter().filter(|number| wanted(number));
            let mut sorted: Vec<f64> = wanted.map(|number| number.0).collect();
            sorted.sort_by(f64::total_cmp);
            sorted
        };
        let (plain, all) = (sorted(|number| number.1.is_none()), sorted(|_| true));
        let shown = if plain.is_empty() { &all } else { &plain };
        Self {
            count: numbers.len(),
            filled,
            unit: most_frequent(&numbers),
            middle: shown.get(shown.len() / 2).copied().unwrap_or(0.0),
            most: all.last().copied().unwrap_or(0.0),
            least: all.first().copied().unwrap_or(0.0),
            plain,
        }
    }

    /// Whether half of what stands in the column at least is numbers.
    pub(super) fn is_numbers(&self) -> bool {
        self.count > 0 && self.count * 2 >= self.filled
    }

    /// How much the numbers differ, as a share of the largest.
    pub(super) fn spread(&self) -> f64 {
        if self.most > 0.0 {
            (self.most - self.least) / self.most
        } else {
            0.0
        }
    }
}

fn most_frequent(numbers: &[(f64, Option<Unit>)]) -> Option<Unit> {
    let mut counts: Vec<(Unit, usize)> = Vec::new();
    for unit in numbers.iter().filter_map(|number| number.1) {
        match counts.iter_mut().find(|(known, _)| *known == unit) {
            Some((_, count)) => *count += 1,
            None => counts.push((unit, 1)),
        }
    }
    let mut best = None;
    for (unit, count) in counts {
        if best.is_none_or(|(_, most)| count > most) {
            best = Some((unit, count));
        }
    }
    best.map(|(unit, _)| unit)
}
