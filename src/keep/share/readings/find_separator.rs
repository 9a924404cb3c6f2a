//! Finding what separates the cells of a row.

use super::cells::is_number;
use super::lines::first_line;
use super::separator::Separator;
use super::sheet::Sheet;

/// Rows looked at to find the separator.
const ROWS_LOOKED_AT: usize = 100;
/// What a first line begins with that names the separator, as some spreadsheets write and read it. From memory.
const NAMED: &str = "sep=";

/// All of them. Of those that do equally well the first is taken: the comma late, since it may be a decimal mark.
const ALL: [Separator; 6] = [
    Separator::Mark(b'\t'),
    Separator::Mark(b';'),
    Separator::Mark(b'|'),
    Separator::Mark(b','),
    Separator::Blanks,
    Separator::Blank,
];

/// The separator that a first line names.
pub(super) fn named(text: &str) -> Option<Separator> {
    let (line, _) = first_line(text);
    let name = line.get(..NAMED.len())?;
    let mark = line.get(NAMED.len()..)?;
    let mark = if mark.starts_with('\t') {
        "\t"
    } else {
        mark.trim()
    };
    match mark.as_bytes() {
        [mark @ (b'\t' | b';' | b'|' | b',')] if name.eq_ignore_ascii_case(NAMED) => {
            Some(Separator::Mark(*mark))
        }
        _ => None,
    }
}

/// The separator that makes the most rows of numbers of the first rows of a text; where there are none, the first mark
/// that is in the text.
pub(super) fn found(text: &str) -> Separator {
    let mut best = (0, None);
    for separator in ALL {
        let sheet = Sheet::beginning(text, separator, ROWS_LOOKED_AT);
        let rows = sheet.rows().filter(|row| is_row_of_numbers(&row.cells));
        let count = rows.count();
        if count > best.0 {
            best = (count, Some(separator));
        }
    }
    let is_there = |separator: &Separator| match separator {
        Separator::Mark(mark) => text.as_bytes().contains(mark),
        Separator::Blanks | Separator::Blank => true,
    };
    let first = || ALL.into_iter().find(is_there);
    best.1.or_else(first).unwrap_or(Separator::Blank)
}

/// Whether two cells at least are numbers, and none is two numbers with a blank between them.
fn is_row_of_numbers(cells: &[&str]) -> bool {
    cells.iter().filter(|cell| is_number(cell)).count() >= 2
        && !cells.iter().any(|cell| is_two_numbers(cell))
}

/// Whether a cell begins with a number, has another one after a blank, and is not one number all the same.
fn is_two_numbers(cell: &str) -> bool {
    let begins_with_digit = |part: &str| part.starts_with(|c: char| c.is_ascii_digit());
    let mut parts = cell.split_whitespace();
    parts.next().is_some_and(begins_with_digit) && parts.any(begins_with_digit) && !is_number(cell)
}
