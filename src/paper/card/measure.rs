//! How wide words are, without a font: no narrower than any sans serif a device is likely to put in, which the reader's
//! device chooses. Classes of letters, each as wide as its widest in Helvetica and in `DejaVu` Sans, the widest of the usual
//! ones. Source: the metrics of both fonts, from memory.

use super::sheet::Type;

/// How much wider heavy type is at most.
const BOLD: f64 = 1.14;

/// Most room a text takes, in millimetres.
pub(super) fn width(text: &str, set: Type) -> f64 {
    let ems: f64 = text.chars().map(em).sum();
    ems * set.size * if set.bold { BOLD } else { 1.0 }
}

/// Most room one character takes, as a share of the size of the type.
fn em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | '/' | ' ' | '·' | '’'
        | '\u{202f}' => 0.34,
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '!' | '′' | '″' => 0.44,
        'c' | 's' | 'z' | 'J' | '"' | '“' | '”' | '*' | '°' | '_' => 0.56,
        'a'..='l' | 'n'..='v' | 'x'..='y' | '0'..='9' | '?' | '$' => 0.64,
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
