//! Which column without a name is the place.

use crate::base::units::text::Unit;

use super::grid::GridRow;
use super::values::Values;

/// The share of the largest by which places differ at least, where something else counts the rows. Our own choice: of three
/// places at equal steps it is two thirds.
const LEAST_SPREAD: f64 = 0.65;

/// The column of places among some: the one in metres or feet, the one that rises or falls all along, or the one that
/// differs most.
pub(super) fn find(free: &[usize], rows: &[GridRow<'_>], values: &[Values]) -> Option<usize> {
    let is_long = |column: &&usize| matches!(values[**column].unit, Some(Unit::Metre | Unit::Foot));
    if let Some(long) = free.iter().find(is_long) {
        return Some(*long);
    }
    let steady: Vec<usize> = free
        .iter()
        .copied()
        .filter(|column| is_steady(rows, *column))
        .collect();
    let is_no_counter = |column: &usize| !is_counter(rows, values, *column);
    let far = steady
        .iter()
        .copied()
        .filter(|column| is_no_counter(column) && values[*column].spread() >= LEAST_SPREAD);
    // A column that counts the rows rises too; it is the place only where nothing else can be.
    let far: Vec<usize> = far.collect();
    let widest = |columns: &[usize]| {
        let mut best: Option<usize> = None;
        for column in columns {
            if best.is_none_or(|best| values[*column].spread() > values[best].spread()) {
                best = Some(*column);
            }
        }
        best
    };
    let others: Vec<usize> = free.iter().copied().filter(is_no_counter).collect();
    widest(&far)
        .or_else(|| widest(&steady))
        .or_else(|| widest(&others))
        .or_else(|| widest(free))
}

/// Whether a column counts its rows: 1, 2, 3 … or 0, 1, 2 …
pub(super) fn is_counter(rows: &[GridRow<'_>], values: &[Values], column: usize) -> bool {
    let numbers = plain_numbers(rows, column);
    let begins = matches!(numbers.first(), Some(first) if *first == 0.0 || *first == 1.0);
    begins
        && numbers.len() == values[column].filled
        && numbers.len() > 1
        && numbers.windows(2).all(|pair| pair[1] - pair[0] == 1.0)
}

/// Whether a column rises or falls from row to row, or stays, and does not stay throughout.
fn is_steady(rows: &[GridRow<'_>], column: usize) -> bool {
    let numbers = plain_numbers(rows, column);
    let rises = numbers.windows(2).all(|pair| pair[0] <= pair[1]);
    let falls = numbers.windows(2).all(|pair| pair[0] >= pair[1]);
    (rises || falls) && numbers.first() != numbers.last()
}

/// The numbers of a column in the order of the rows, near enough to compare whatever their decimal mark is.
fn plain_numbers(rows: &[GridRow<'_>], column: usize) -> Vec<f64> {
    let rough = |row: &GridRow<'_>| super::cells::rough(row.cell(column));
    rows.iter().filter_map(rough).collect()
}
