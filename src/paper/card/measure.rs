//! How wide words are, without a font. Each class of letters is as wide as its widest in the page's own typeface, with figures of
//! one width, and in the sans serif that a saved card names; both were measured in a browser at 1000 px.

use super::sheet::Type;

/// How much wider heavy type is at most than the widths below.
const BOLD: f64 = 1.12;

/// Most room a text takes, in millimetres.
pub(super) fn width(text: &str, set: Type) -> f64 {
    let ems: f64 = text.chars().map(em).sum();
    ems * set.size * if set.bold { BOLD } else { 1.0 }
}

/// Most room one character takes, as a share of the size of the type.
fn em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | ' ' | '·' | '’' | '\u{202f}' => {
            0.29
        }
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '!' | '′' => 0.37,
        'I' | '/' => 0.4,
        '"' | '“' | '”' | '*' | '°' => 0.43,
        '″' => 0.5,
        'c' | 's' | 'z' | 'k' | 'v' | 'y' | 'J' => 0.52,
        'a'..='l' | 'n'..='u' | 'x' | '?' | '_' => 0.58,
        '0'..='9' | '$' => 0.66,
        'M'
        | 'W'
        | 'm'
        | '%'
        | '@'
        | 'Æ'
        | 'æ'
        | 'Œ'
        | 'œ'
        | '\u{370}'..='\u{52f}'
        | '\u{2000}'..='\u{2bff}' => 1.1,
        ' '..='\u{17f}' => 0.84,
        _ => 1.35,
    }
}

/// Words in lines of at most this width, in millimetres. A word too long for a line is broken; what is held together by a
/// space that does not break, a number and its unit, is one word.
pub(super) fn wrapped(text: &str, room: f64, set: Type) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text
        .split([' ', '\n'])
        .filter(|word| !word.is_empty())
        .flat_map(|word| pieces(word, room, set))
    {
        let line = &mut lines[0];
        let gap = if line.is_empty() { "" } else { " " };
        if width(&format!("{line}{gap}{word}"), set) > room && !line.is_empty() {
            lines.insert(0, word);
        } else {
            line.push_str(gap);
            line.push_str(&word);
        }
    }
    lines.reverse();
    lines
}

/// A word in pieces that each fit a line.
fn pieces(word: &str, room: f64, set: Type) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for c in word.chars() {
        let last = pieces.len() - 1;
        let is_full = width(&format!("{}{c}", pieces[last]), set) > room;
        if is_full && !pieces[last].is_empty() {
            pieces.push(c.to_string());
        } else {
            pieces[last].push(c);
        }
    }
    pieces
}

/// The largest of some sizes, given from large to small, at which words take at most this many lines; else the last.
pub(super) fn size_for(text: &str, room: f64, lines: usize, sizes: &[Type]) -> Type {
    let fits = |set: &&Type| wrapped(text, room, **set).len() <= lines;
    let found = sizes.iter().find(fits).or(sizes.last());
    found.copied().unwrap_or(super::sheet::plain(2.0))
}
