//! A cell as a number with or without a unit.

use crate::base::units::text::{Unit, Unread, read_as_written};

/// What may stand before a diameter.
const DIAMETER_SIGNS: [char; 4] = ['Ø', 'ø', '⌀', '∅'];
/// Longest cell that is taken for a number, in bytes.
const LONGEST_NUMBER: usize = 100;
/// What a cell with nothing to say may hold.
const DASHES: [&str; 4] = ["-", "–", "—", "--"];

/// The number of a cell and the unit after it.
///
/// # Errors
/// [`Unread`], where the cell is no length; units for `column` are suggested.
pub(super) fn number(cell: &str, column: Unit) -> Result<(f64, Option<Unit>), Unread> {
    if cell.len() > LONGEST_NUMBER {
        return Err(Unread::NotANumber(String::new()));
    }
    let (value, unit) = read_as_written(cell.trim_start_matches(DIAMETER_SIGNS), column)?;
    match unit {
        Some(typed) if !typed.is_length() => Err(Unread::WrongUnit {
            typed,
            wanted: column,
        }),
        unit => Ok((value, unit)),
    }
}

/// Whether a cell is a number, even one that can be read in two ways.
pub(super) fn is_number(cell: &str) -> bool {
    let begins = |c: char| c.is_numeric() || "+-−.,".contains(c) || DIAMETER_SIGNS.contains(&c);
    // Most cells that are none are words: no need to read them.
    let may_be = cell
        .trim_start()
        .starts_with(|c: char| begins(c) || !c.is_ascii());
    may_be && matches!(number(cell, Unit::Metre), Ok(_) | Err(Unread::Ambiguous(_)))
}

/// Whether nothing stands in a cell, or only a dash.
pub(super) fn is_blank(cell: &str) -> bool {
    cell.is_empty() || DASHES.contains(&cell)
}

/// The number of a cell, its unit not looked at, with either decimal mark: near enough to compare numbers of one column.
pub(super) fn rough(cell: &str) -> Option<f64> {
    let plain = cell.replace(',', ".");
    number(&plain, Unit::Metre).ok().map(|(value, _)| value)
}
