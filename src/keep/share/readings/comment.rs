//! Rows that are no readings: comments, and the name of a line in one.

use super::lines::shown_row;

/// What a comment begins with.
pub(super) const COMMENT: char = '#';
/// What stands before the name of the line in a comment that was written here.
pub(super) const NAME: &str = "# Line: ";
/// Least length of a rule in a cell.
const LEAST_OF_RULE: usize = 3;

/// Whether a row is a comment, or a rule drawn with strokes. A sign alone or before a number counts rows: it is no comment
/// where two cells at least follow it.
pub(super) fn is(cells: &[&str]) -> bool {
    let Some(first) = cells.first() else {
        return false;
    };
    let counts = |rest: &str| rest.chars().all(|c| c.is_ascii_digit());
    let follow = cells.iter().skip(1).filter(|cell| !cell.is_empty()).count();
    match first.strip_prefix(COMMENT) {
        Some(rest) => !(counts(rest) && follow >= 2),
        None => is_rule(cells),
    }
}

fn is_rule(cells: &[&str]) -> bool {
    let is_stroke = |c: char| "-=_:+–—".contains(c);
    let is_rule = |cell: &&str| cell.len() >= LEAST_OF_RULE && cell.chars().all(is_stroke);
    let mut filled = cells.iter().copied().filter(|cell| !cell.is_empty());
    filled.clone().count() > 0 && filled.all(|cell| is_rule(&cell))
}

/// The name of the line in a comment.
pub(super) fn name(cells: &[&str]) -> Option<String> {
    let name = cells.first()?.strip_prefix(NAME)?;
    let name = shown_row(name);
    (!name.is_empty()).then_some(name)
}
