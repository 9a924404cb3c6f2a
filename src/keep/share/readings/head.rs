//! What stands over the numbers of a table: titles, headings, units.

use super::cells::{is_blank, is_number};
use super::grid::{Grid, GridRow};
use super::heading::{Heading, unit_alone};

/// Most numbers of a heading, such as the 1, 2, 3 of several readings.
const MOST_COUNTED: u32 = 20;

/// The rows of a table, sorted by what they are.
pub(super) struct Head<'a> {
    /// What the headings and the row of units say, one for each column; none where there is no heading.
    pub(super) headings: Vec<Heading>,
    /// The words of the headings.
    pub(super) names: Vec<&'a str>,
    /// The rows of headings and units.
    pub(super) heading: Vec<GridRow<'a>>,
    /// Rows without numbers before the heading.
    pub(super) titles: Vec<GridRow<'a>>,
    /// All others.
    pub(super) data: Vec<GridRow<'a>>,
}

impl<'a> Head<'a> {
    /// Sorts the rows of a table.
    pub(super) fn of(grid: Grid<'a>) -> Self {
        let width = grid.width();
        let rows = grid.rows;
        let is_data = |row: &GridRow<'_>| numbers(row) >= 2 && !is_counted_heading(row);
        let end = rows.iter().position(is_data).unwrap_or(rows.len());
        let heading = best_heading(&rows[..end]);
        let units = rows[..end].iter().position(is_unit_row);
        let names = heading.map_or(Vec::new(), |at| rows[at].cells.clone());
        let mut headings = vec![Heading::default(); width];
        for (column, heading) in headings.iter_mut().enumerate() {
            let unit = units.and_then(|at| unit_alone(rows[at].cell(column)));
            *heading = names
                .get(column)
                .map_or(Heading::default(), |name| Heading::of(name));
            if let Some(unit) = unit {
                heading.unit = heading.unit.or(Some(unit));
                heading.role = heading.role.or_else(|| Heading::role_by_unit(unit));
            }
        }
        let repeated = heading.map(|at| rows[at].cells.clone());
        let mut head = Self {
            headings,
            names,
            heading: Vec::new(),
            titles: Vec::new(),
            data: Vec::new(),
        };
        let before = heading.or(units).unwrap_or(0);
        for (at, row) in rows.into_iter().enumerate() {
            let is_repeated = repeated.as_ref() == Some(&row.cells);
            if is_repeated || Some(at) == units {
                head.heading.push(row);
            } else if at < before && numbers(&row) == 0 {
                head.titles.push(row);
            } else {
                head.data.push(row);
            }
        }
        head
    }
}

fn numbers(row: &GridRow<'_>) -> usize {
    row.cells.iter().filter(|cell| is_number(cell)).count()
}

/// Of some rows that are no data, the one whose cells say the most; of several, the last.
fn best_heading(rows: &[GridRow<'_>]) -> Option<usize> {
    let mut best = None;
    for (at, row) in rows.iter().enumerate() {
        let says = |cell: &&&str| !is_number(cell) && Heading::of(cell).says_something();
        let count = row.cells.iter().filter(says).count();
        let may_be =
            count > 0 && !is_unit_row(row) && (numbers(row) == 0 || is_counted_heading(row));
        if may_be && best.is_none_or(|(_, most)| count >= most) {
            best = Some((at, count));
        }
    }
    best.map(|(at, _)| at)
}

/// Whether a row has units and nothing else, but for the counts of several readings: `(m), 1, 2, 3`.
fn is_unit_row(row: &GridRow<'_>) -> bool {
    let filled = || row.cells.iter().filter(|cell| !is_blank(cell));
    let units = filled().filter(|cell| unit_alone(cell).is_some()).count();
    let counts = filled().filter(|cell| is_count(cell)).count();
    units > 0 && units + counts == filled().count()
}

/// Whether a cell is a small whole number.
fn is_count(cell: &str) -> bool {
    matches!(cell.parse(), Ok(1..=MOST_COUNTED))
}

/// Whether a row is a heading over counted readings: `Place, 1, 2, 3`.
fn is_counted_heading(row: &GridRow<'_>) -> bool {
    let first = row.cells.iter().find(|cell| !cell.is_empty());
    first.is_some_and(|cell| !is_number(cell) && Heading::of(cell).role.is_some())
        && row
            .cells
            .iter()
            .filter(|cell| is_number(cell))
            .all(|cell| is_count(cell))
}
