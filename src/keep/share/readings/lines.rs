//! Lines of a text, whatever ends them, and words taken from it to be shown.

use crate::design::check::is_unseen;
use crate::measured::UNREAD_ROOM;

/// Most characters of a cell that is named in a sentence.
const MOST_OF_CELL: usize = 40;

/// What stands before the first end of a line, and what stands after that end: CR LF, LF or CR.
pub(super) fn first_line(text: &str) -> (&str, &str) {
    let Some(at) = text.find(['\r', '\n']) else {
        return (text, "");
    };
    let rest = &text[at..];
    let rest = rest.strip_prefix("\r\n").unwrap_or_else(|| &rest[1..]);
    (&text[..at], rest)
}

/// A row as it stood, as far as it is shown.
pub(super) fn shown_row(raw: &str) -> String {
    shown(raw, UNREAD_ROOM)
}

/// A cell as a sentence names it.
pub(super) fn shown_cell(raw: &str) -> String {
    shown(raw, MOST_OF_CELL)
}

/// A text without what cannot be seen, shortened to so many characters.
fn shown(raw: &str, most: usize) -> String {
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let mut seen = raw.trim().chars().map(plain).filter(|c| !is_unseen(*c));
    let mut short: String = seen.by_ref().take(most).collect();
    if seen.next().is_some() {
        short.pop();
        short.push('…');
    }
    short
}
