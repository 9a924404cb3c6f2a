//! A text as a table of readings.

use crate::base::units::text::{Unit, with_plain_digits};
use crate::keep::share::envelope::without_mark;
use crate::measured::MOST_READINGS;

use super::cells::is_number;
use super::columns::Columns;
use super::comment;
use super::decimals::Decimals;
use super::find_separator;
use super::grid::{Grid, GridRow};
use super::head::Head;
use super::heading::HeadingUnit;
use super::lines::{shown_cell, shown_row};
use super::row::RowReader;
use super::separator::Separator;
use super::sheet::{Row, Sheet};
use super::size;
use super::table::{AskedUnits, LARGEST, ReadTable, Rows, TableError, UnreadRow};
use super::values::Values;

/// What files begin with that are no text: spreadsheets of today and of before, and pages to print. From memory.
const NO_TEXT: [&str; 2] = ["PK\u{3}\u{4}", "%PDF-"];
/// Most characters in a thousand that could not be read as text.
const MOST_UNREADABLE: usize = 20;
/// How many times farther than the one before it a place is, to be taken for a slip.
const SLIP: f64 = 10.0;
/// Rows shown of a table that gave no reading.
const ROWS_SHOWN: usize = 3;

/// Reads a table of readings; the module says in which forms.
///
/// # Errors
/// [`TableError`] says why there is not one reading, or too many.
///
/// ```
/// use taperwright::keep::share::readings::{self, AskedUnits};
/// let table = readings::read("Place (m);Ø (mm)\n0,5;0,95\n1;abc", &AskedUnits::default())?;
/// assert_eq!(table.readings.len(), 1);
/// assert_eq!(table.unread[0].why, "“abc” is no diameter. Write a number such as 0.95.");
/// # Ok::<(), readings::TableError>(())
/// ```
pub fn read(text: &str, asked: &AskedUnits) -> Result<ReadTable, TableError> {
    if text.len() > LARGEST {
        return Err(TableError::TooLarge);
    }
    let text = without_mark(text);
    if is_binary(text) {
        return Err(TableError::Binary);
    }
    let named = find_separator::named(text);
    let separator = named.unwrap_or_else(|| find_separator::found(text));
    let sheet = Sheet::whole(text, separator).map_err(|_| TableError::TooManyCells)?;
    let (comments, rows): (Vec<Row<'_>>, Vec<Row<'_>>) = sheet
        .rows()
        .partition(|row| named.is_some() && row.number == 1 || comment::is(&row.cells));
    if !rows
        .iter()
        .any(|row| row.cells.iter().any(|cell| is_number(cell)))
    {
        return Err(TableError::NotATable);
    }
    if separator == Separator::Mark(b',') && has_two_kinds_of_comma(&rows) {
        return Err(TableError::TwoKindsOfComma);
    }
    let name = comments.iter().find_map(|row| comment::name(&row.cells));
    let mut table = table(rows, *asked)?;
    table.name = name;
    table.rows.comments = comments.iter().map(|row| row.number).collect();
    Ok(table)
}

/// Whether a text was made of something that is none.
fn is_binary(text: &str) -> bool {
    let is_unreadable =
        |c: &char| *c == '\u{fffd}' || c.is_control() && !('\u{9}'..='\u{d}').contains(c);
    let unreadable = text.chars().filter(is_unreadable).count();
    text.contains('\0')
        || NO_TEXT.iter().any(|begin| text.starts_with(begin))
        || unreadable * 1_000 > text.chars().count() * MOST_UNREADABLE
}

/// Whether commas seem to stand before decimals as well as between cells, `0,5,0,95`: there are only whole numbers, four of them
/// in a row at least once, and all that should be whole millimetres have one digit. Who measures in whole micrometres has more.
fn has_two_kinds_of_comma(rows: &[Row<'_>]) -> bool {
    let numbers = |row: &Row<'_>| -> Vec<String> {
        let numbers = row.cells.iter().filter(|cell| is_number(cell));
        numbers.map(|cell| with_plain_digits(cell)).collect()
    };
    let is_digits = |number: &String| number.bytes().all(|byte| byte.is_ascii_digit());
    let rows: Vec<Vec<String>> = rows.iter().map(numbers).collect();
    let mut full = rows.iter().filter(|numbers| numbers.len() >= 2);
    rows.iter().any(|numbers| numbers.len() == 4)
        && full.all(|numbers| {
            let is_single = numbers[numbers.len() - 2].len() == 1;
            numbers.len() <= 4 && is_single && numbers.iter().all(is_digits)
        })
}

/// The table of rows that are no comments, without its name.
fn table(rows: Vec<Row<'_>>, asked: AskedUnits) -> Result<ReadTable, TableError> {
    let numbers = rows.iter().flat_map(|row| row.cells.iter().copied());
    let decimals = Decimals::of(numbers.filter(|cell| is_number(cell)));
    let grid = Grid::of(rows);
    let (width, turned) = (grid.width(), grid.turned.clone());
    let head = Head::of(grid);
    let values: Vec<Values> = (0..width)
        .map(|column| Values::of(&head.data, column, decimals))
        .collect();
    let Some(columns) = Columns::find(
        &head.data,
        (&head.headings, &head.names),
        &values,
        asked.diameter,
    ) else {
        return Err(TableError::NothingRead {
            first: not_both(&head.data),
        });
    };
    let (diameter_unit, diameter_assumed) = diameter_unit(&head, &columns, &values, asked)?;
    let (at_unit, at_assumed) = place_unit(&head, &columns, &values, asked, diameter_unit)?;
    let passed = passed_by(&head, &columns, &values);
    let reader = RowReader {
        columns,
        at_unit,
        diameter_unit,
        decimals,
    };
    let mut table = ReadTable {
        readings: Vec::new(),
        at_unit,
        diameter_unit,
        at_assumed,
        diameter_assumed,
        unread: head.titles.iter().map(title).collect(),
        passed_by: Vec::new(),
        name: None,
        rows: Rows::default(),
    };
    read_rows(&reader, &head.data, &mut table);
    table.rows.heading = head.heading.iter().map(|row| row.number).collect();
    if turned.is_empty() {
        let named = |(column, name): &(usize, Option<&str>)| {
            name.map_or_else(|| format!("column {}", column + 1), shown_cell)
        };
        table.passed_by = passed.iter().map(named).collect();
    } else {
        of_turned(&turned, &reader.columns, &passed, &mut table);
    }
    table.unread.sort_by_key(|unread| unread.row);
    match table.readings.len() {
        0 => Err(TableError::NothingRead {
            first: table.unread.into_iter().take(ROWS_SHOWN).collect(),
        }),
        readings if readings > MOST_READINGS => Err(TableError::TooMany { readings }),
        _ => Ok(table),
    }
}

fn read_rows(reader: &RowReader, rows: &[GridRow<'_>], table: &mut ReadTable) {
    for row in rows {
        let before = table.readings.len();
        let why = reader.read(row, &mut table.readings);
        if table.readings.len() > before {
            table.rows.read.push(row.number);
        }
        table.unread.extend(why.map(|why| unread(row, why)));
    }
}

/// Of a table on its side: its rows are those that were turned to columns.
fn of_turned(
    turned: &[(usize, &str)],
    columns: &Columns,
    passed: &[(usize, Option<&str>)],
    table: &mut ReadTable,
) {
    let used = turned
        .iter()
        .enumerate()
        .filter(|(column, _)| columns.has(*column));
    table.rows.read = used.map(|(_, (number, _))| *number).collect();
    table.rows.heading.clear();
    for (column, (number, raw)) in turned.iter().enumerate() {
        if columns.has(column) {
            continue;
        }
        let name = passed.iter().find(|(passed, _)| *passed == column);
        let name = name.and_then(|(_, name)| *name);
        table
            .passed_by
            .push(name.map_or_else(|| format!("row {number}"), shown_cell));
        table.unread.push(UnreadRow {
            row: *number,
            text: shown_row(raw),
            why: "This row is neither the places nor diameters, so it was not used.".to_owned(),
        });
    }
}

fn unread(row: &GridRow<'_>, why: String) -> UnreadRow {
    UnreadRow {
        row: row.number,
        text: shown_row(&row.raw),
        why,
    }
}

fn title(row: &GridRow<'_>) -> UnreadRow {
    let why =
        "This row has no number and is before the heading. If it is a title, nothing is missing.";
    unread(row, why.to_owned())
}

/// The first rows of a table in which there are not both places and diameters.
fn not_both(rows: &[GridRow<'_>]) -> Vec<UnreadRow> {
    let why = "A place and a diameter are needed in each row. Check the headings, and what separates the cells.";
    let first = rows.iter().take(ROWS_SHOWN);
    first.map(|row| unread(row, why.to_owned())).collect()
}

/// The unit of a column: as it was asked for, as the heading says, or as the cells say that have one.
///
/// # Errors
/// [`TableError::UnknownUnit`] where the heading names one that is not known.
fn written_unit(
    head: &Head<'_>,
    column: usize,
    values: &Values,
    asked: Option<Unit>,
) -> Result<Option<(Unit, bool)>, TableError> {
    if let Some(unit) = asked.filter(|unit| unit.is_length()) {
        return Ok(Some((unit, false)));
    }
    match head.headings.get(column).and_then(|heading| heading.unit) {
        Some(HeadingUnit::Length(unit)) => Ok(Some((unit, false))),
        Some(HeadingUnit::Unknown) => {
            let heading = head.names.get(column).copied().unwrap_or_default();
            Err(TableError::UnknownUnit {
                heading: shown_cell(heading),
            })
        }
        // Cells without a unit are taken for the same as those with one.
        None => Ok(values.unit.map(|unit| (unit, !values.plain.is_empty()))),
    }
}

fn diameter_unit(
    head: &Head<'_>,
    columns: &Columns,
    values: &[Values],
    asked: AskedUnits,
) -> Result<(Unit, bool), TableError> {
    let mut plain = Vec::new();
    for column in &columns.diameters {
        if let Some(written) = written_unit(head, *column, &values[*column], asked.diameter)? {
            return Ok(written);
        }
        plain.extend_from_slice(&values[*column].plain);
    }
    Ok((size::diameter_unit(&plain, asked.system), true))
}

fn place_unit(
    head: &Head<'_>,
    columns: &Columns,
    values: &[Values],
    asked: AskedUnits,
    diameter: Unit,
) -> Result<(Unit, bool), TableError> {
    let values = &values[columns.place];
    let written = written_unit(head, columns.place, values, asked.place)?;
    Ok(written.unwrap_or_else(|| (size::place_unit(largest(&values.plain), diameter), true)))
}

/// The largest of some sorted numbers. One far beyond all others is a slip, and listed as such later.
fn largest(sorted: &[f64]) -> f64 {
    match sorted {
        [.., before, last] if sorted.len() > 2 && *last > before * SLIP => *before,
        [.., last] => *last,
        [] => 0.0,
    }
}

/// The columns that hold something and are not used, each with its heading.
fn passed_by<'a>(
    head: &Head<'a>,
    columns: &Columns,
    values: &[Values],
) -> Vec<(usize, Option<&'a str>)> {
    let passed = (0..values.len()).filter(|column| !columns.has(*column));
    let named = passed.map(|column| {
        let name = head.names.get(column).copied();
        (column, name.filter(|name| !name.is_empty()))
    });
    named
        .filter(|(column, name)| name.is_some() || values[*column].filled > 0)
        .collect()
}
