//! The rows of a sheet without its comments, turned where the table is on its side.

use std::borrow::Cow;

use super::cells::{is_blank, is_number, rough};
use super::heading::{Heading, Role};
use super::sheet::Row;

/// Most rows of a table on its side: places, and a few of diameters.
const MOST_ROWS_ON_SIDE: usize = 8;
/// Least number of places that shows, without headings, that a table is on its side.
const LEAST_PLACES_ON_SIDE: usize = 4;
/// How many times larger than the smallest the largest diameter of one place is at most: two readings of a place differ little.
const MOST_WITHIN_PLACE: f64 = 1.5;

/// The rows of a table.
pub(super) struct Grid<'a> {
    /// Each with its cells.
    pub(super) rows: Vec<GridRow<'a>>,
    /// Of a table on its side, what its columns were: the number of each row, and the row as it stood. Empty for others.
    pub(super) turned: Vec<(usize, &'a str)>,
}

/// A row of a table.
pub(super) struct GridRow<'a> {
    /// The number of the row, from 1; of a turned table, that of its last row.
    pub(super) number: usize,
    /// As it stood.
    pub(super) raw: Cow<'a, str>,
    /// The cells; none at the end is empty.
    pub(super) cells: Vec<&'a str>,
}

impl<'a> Grid<'a> {
    /// The table of some rows.
    pub(super) fn of(rows: Vec<Row<'a>>) -> Self {
        if is_on_side(&rows) {
            return Self::turned(&rows);
        }
        let row = |row: Row<'a>| GridRow {
            number: row.number,
            raw: Cow::Borrowed(row.raw),
            cells: row.cells,
        };
        Self {
            rows: rows.into_iter().map(row).collect(),
            turned: Vec::new(),
        }
    }

    fn turned(rows: &[Row<'a>]) -> Self {
        let columns = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
        let number = rows.last().map_or(1, |row| row.number);
        let column = |at: usize| {
            let cells = rows
                .iter()
                .map(|row| row.cells.get(at).copied().unwrap_or_default());
            let cells: Vec<&str> = cells.collect();
            let filled = cells.iter().rposition(|cell| !cell.is_empty());
            let raw = cells.join(" · ");
            GridRow {
                number,
                raw: Cow::Owned(raw),
                cells: cells[..filled.map_or(0, |last| last + 1)].to_vec(),
            }
        };
        let turned = (0..columns).map(column).filter(|row| !row.cells.is_empty());
        Self {
            rows: turned.collect(),
            turned: rows.iter().map(|row| (row.number, row.raw)).collect(),
        }
    }

    /// The most cells of a row.
    pub(super) fn width(&self) -> usize {
        self.rows
            .iter()
            .map(|row| row.cells.len())
            .max()
            .unwrap_or(0)
    }
}

impl GridRow<'_> {
    /// A cell; empty where the row has none there.
    pub(super) fn cell(&self, column: usize) -> &str {
        self.cells.get(column).copied().unwrap_or_default()
    }
}

/// Whether places and diameters stand in rows instead of columns.
fn is_on_side(rows: &[Row<'_>]) -> bool {
    if !(2..=MOST_ROWS_ON_SIDE).contains(&rows.len()) {
        return false;
    }
    let role = |row: &Row<'_>| {
        let first = row.cells.first().filter(|cell| !is_number(cell));
        first.and_then(|cell| Heading::of(cell).role)
    };
    let roles: Vec<_> = rows.iter().map(role).collect();
    let is_place = |role: &Option<Role>| matches!(role, Some(Role::Place | Role::PerhapsPlace));
    let is_diameter = |role: &Option<Role>| {
        matches!(
            role,
            Some(Role::Diameter | Role::PerhapsDiameter | Role::Calculated)
        )
    };
    let numbers = |row: &Row<'_>| row.cells.iter().filter(|cell| is_number(cell)).count();
    let is_named = roles.iter().any(is_place) && roles.iter().any(is_diameter);
    if is_named {
        // Numbers follow both headings in their rows.
        return rows.iter().filter(|row| numbers(row) >= 1).count() >= 2
            && rows
                .iter()
                .zip(&roles)
                .all(|(row, role)| !(is_place(role) || is_diameter(role)) || numbers(row) >= 1);
    }
    let is_all_numbers = |row: &Row<'_>| {
        let said = row.cells.iter().filter(|cell| !is_blank(cell));
        numbers(row) >= LEAST_PLACES_ON_SIDE && said.count() == numbers(row)
    };
    rows.iter().all(is_all_numbers)
        && rows.len() * 2 <= rows[0].cells.len()
        && is_place_row(&rows[0])
}

/// Whether the numbers of a row rise or fall all along, by so much that they are no diameters of one place.
fn is_place_row(row: &Row<'_>) -> bool {
    let values: Vec<f64> = row.cells.iter().filter_map(|cell| rough(cell)).collect();
    let rises = values.windows(2).all(|pair| pair[0] < pair[1]);
    let falls = values.windows(2).all(|pair| pair[0] > pair[1]);
    let after = values.get(1..).unwrap_or_default();
    let (least, most) = after
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(least, most), value| {
            (least.min(*value), most.max(*value))
        });
    (rises || falls) && most > least * MOST_WITHIN_PLACE
}
