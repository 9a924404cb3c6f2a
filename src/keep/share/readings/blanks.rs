//! Cells with nothing but blanks between them.

use crate::base::units::text::Unit;

use super::table::MOST_COLUMNS;

/// Most words looked at in a line: a cell seldom has more than four.
const MOST_WORDS: usize = 4 * MOST_COLUMNS;

/// What may end a number of feet.
const FEET: [&str; 5] = ["'", "′", "’", "ft", "feet"];
/// What may end a number of inches.
const INCHES: [&str; 6] = ["\"", "″", "”", "in", "inch", "inches"];

/// The cells of a line with two blanks or more between them. Of a line with too many cells, one more than are allowed.
pub(super) fn wide(line: &str) -> Vec<&str> {
    let mut cells = Vec::new();
    let (mut begin, mut blank) = (0, None);
    for (at, c) in line.char_indices() {
        match (c.is_whitespace(), blank) {
            (true, None) => blank = Some((at, 1)),
            (true, Some((from, count))) => blank = Some((from, count + 1)),
            (false, Some((from, count))) => {
                if cells.len() > MOST_COLUMNS {
                    return cells;
                }
                if count > 1 {
                    cells.push(line[begin..from].trim());
                    begin = at;
                }
                blank = None;
            }
            (false, None) => {}
        }
    }
    cells.push(line[begin..].trim());
    cells
}

/// The cells of a line with single blanks between them. What belongs together stays so: a number and its unit, feet and inches,
/// a word of a heading and its unit. `None` where the line has more words than are looked at.
pub(super) fn narrow(line: &str) -> Option<Vec<String>> {
    let words: Vec<&str> = line.split_whitespace().take(MOST_WORDS + 1).collect();
    if words.len() > MOST_WORDS {
        return None;
    }
    let mut cells: Vec<String> = Vec::new();
    for (at, word) in words.iter().enumerate() {
        let next = words.get(at + 1).copied();
        match cells.last_mut() {
            Some(cell) if belongs(cell, word, next) => {
                cell.push(' ');
                cell.push_str(word);
            }
            _ => cells.push((*word).to_owned()),
        }
    }
    Some(cells)
}

fn is_unit(word: &str) -> bool {
    Unit::of_length(&word.to_lowercase()).is_some()
}

/// Whether a word continues a cell.
fn belongs(cell: &str, word: &str, next: Option<&str>) -> bool {
    let last = cell.rsplit(' ').next().unwrap_or_default();
    let ends = |word: &str, with: &[&str]| with.iter().any(|end| word.ends_with(end));
    let begins_with_digit = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    if is_unit(word) {
        // A row of units has a unit in each cell.
        return !is_unit(cell);
    }
    if word.starts_with(['(', '[']) || word == "/" || last == "/" {
        return true;
    }
    let follows_feet = ends(last, &FEET) && begins_with_digit(cell);
    let is_fraction = |word: &str| word.contains('/') && ends(word, &INCHES);
    let is_marked =
        ends(word, &INCHES) || next.is_some_and(|next| INCHES.contains(&next) || is_fraction(next));
    let follows_inches = FEET.iter().any(|mark| cell.contains(mark)) && is_fraction(word);
    (follows_feet && begins_with_digit(word) && is_marked) || follows_inches
}
