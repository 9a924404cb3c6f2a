//! The whole pieces of a damaged file of everything, and what is left of the others.
//!
//! A piece is flat: names with texts, numbers, words. Within a text every quote has a backslash before it. So a brace with a
//! quote after it can only begin a piece, whatever happened to the text before: there the reader finds its way again. Each byte
//! is looked at a few times at most, and nothing is copied.

use serde::Deserialize;
use serde_json::value::RawValue;

use super::outcome::{FORMAT, MOST_PIECES};
use super::piece::{BackupFile, BackupItem, BackupText, JsonText, Remains};
use crate::keep::book::file::FORMAT as BOOK;
use crate::keep::share::measured_file::FORMAT as MEASURED;
use crate::keep::share::shape::end_of_text;

/// What stands between pieces in a file that is as it should be.
const BETWEEN: [&str; 6] = [
    "format",
    "version",
    "lines",
    "workshops",
    "measured",
    "unreadable",
];
/// More bytes than this between pieces, beside the words that belong there, are what is left of a piece.
const LEAST_OF_A_PIECE: usize = 40;

/// Any piece: whatever of it is there.
#[derive(Deserialize)]
struct AnyPiece<'a> {
    #[serde(borrow)]
    id: Option<&'a RawValue>,
    #[serde(borrow)]
    revision: Option<&'a RawValue>,
    #[serde(borrow)]
    changed: Option<&'a RawValue>,
    #[serde(borrow)]
    binned: Option<&'a RawValue>,
    #[serde(borrow)]
    file: Option<&'a RawValue>,
    #[serde(borrow)]
    key: Option<&'a RawValue>,
    #[serde(borrow)]
    text: Option<&'a RawValue>,
}

/// The pieces of a file; `None` where not one is whole, or there are more than there is room for.
pub(super) fn salvaged(text: &str) -> Option<BackupFile<'_>> {
    let mut file = BackupFile::default();
    // The first brace is the file's own.
    let mut at = text.find('{')? + 1;
    let (mut gap, mut begun) = (at, 0);
    while let Some(start) = next_start(text.as_bytes(), at) {
        let end = end_of_piece(text.as_bytes(), start);
        if let Some(end) = end.filter(|end| file.take(&text[start..*end])) {
            file.keep_remains(&text[gap..start], begun);
            (at, gap, begun) = (end, end, 0);
        } else {
            // A text that ends in a brace looks like a beginning too; only after these does one stand.
            let before = text[..start].trim_end();
            begun += usize::from(before.ends_with(['[', ',']));
            at = start + 1;
        }
        if file.pieces() > MOST_PIECES {
            return None;
        }
    }
    file.keep_remains(&text[gap..], begun);
    (file.pieces() > 0).then_some(file)
}

impl<'a> BackupFile<'a> {
    fn pieces(&self) -> usize {
        self.lines.len() + self.workshops.len() + self.measured.len() + self.unreadable.len()
    }

    /// Adds a piece, if this is one: by what it holds, since the name of its list may be what was damaged.
    fn take(&mut self, raw: &'a str) -> bool {
        let Ok(any) = serde_json::from_str::<AnyPiece<'a>>(raw) else {
            return false;
        };
        let sound = |value: Option<&'a RawValue>| {
            let text = value.and_then(JsonText::of);
            text.filter(|text| text.is_sound())
        };
        if let Some(file) = sound(any.file) {
            let item = BackupItem {
                id: sound(any.id),
                revision: any
                    .revision
                    .and_then(|count| count.get().parse().ok())
                    .unwrap_or(1),
                changed: sound(any.changed),
                binned: any.binned.is_some_and(|word| word.get() == "true"),
                file,
            };
            let list = if file.begins_with(BOOK) {
                &mut self.workshops
            } else if file.begins_with(MEASURED) {
                &mut self.measured
            } else {
                &mut self.lines
            };
            list.push(item);
            return true;
        }
        let (Some(key), Some(text)) = (sound(any.key), sound(any.text)) else {
            return false;
        };
        self.unreadable.push(BackupText { key, text });
        true
    }

    /// Keeps what stands between whole pieces, if it is what is left of others; so many begin in it.
    fn keep_remains(&mut self, gap: &'a str, begun: usize) {
        if begun > 0 || strange(gap) > LEAST_OF_A_PIECE {
            let text = gap.trim_matches(|c: char| c == ',' || c.is_whitespace());
            let pieces = begun.max(1);
            self.remains.push(Remains { text, pieces });
        }
    }
}

/// How many bytes of a gap are none of those that belong there.
fn strange(gap: &str) -> usize {
    let belongs = |c: char| c.is_whitespace() || c.is_ascii_digit() || "{}[],:\"".contains(c);
    let (mut rest, mut strange) = (gap, 0);
    while let Some(next) = rest.chars().next() {
        let mut words = BETWEEN.iter().chain([&FORMAT]);
        let word = words.find(|word| rest.starts_with(**word));
        let length = word.map_or(next.len_utf8(), |word| word.len());
        strange += if word.is_some() || belongs(next) {
            0
        } else {
            length
        };
        rest = &rest[length..];
    }
    strange
}

/// Where the next piece may begin: a brace, and a quote after it.
fn next_start(bytes: &[u8], from: usize) -> Option<usize> {
    let mut at = from;
    loop {
        at += bytes.get(at..)?.iter().position(|byte| *byte == b'{')?;
        if bytes.get(past_blanks(bytes, at + 1)) == Some(&b'"') {
            return Some(at);
        }
        at += 1;
    }
}

/// Where the piece that begins here ends; `None` where it is damaged.
fn end_of_piece(bytes: &[u8], start: usize) -> Option<usize> {
    let mut at = start + 1;
    loop {
        at = past_text(bytes, past_blanks(bytes, at))?;
        at = past_blanks(bytes, at);
        (bytes.get(at) == Some(&b':')).then_some(())?;
        at = past_blanks(bytes, past_value(bytes, past_blanks(bytes, at + 1))?);
        match bytes.get(at)? {
            b',' => at += 1,
            b'}' => return Some(at + 1),
            _ => return None,
        }
    }
}

fn past_blanks(bytes: &[u8], from: usize) -> usize {
    let rest = bytes.get(from..).unwrap_or_default();
    from + rest.len() - rest.trim_ascii_start().len()
}

fn past_text(bytes: &[u8], from: usize) -> Option<usize> {
    (bytes.get(from) == Some(&b'"')).then_some(())?;
    let end = end_of_text(bytes, from + 1);
    (end < bytes.len()).then_some(end + 1)
}

/// Where a text, a number or a word ends.
fn past_value(bytes: &[u8], from: usize) -> Option<usize> {
    if bytes.get(from) == Some(&b'"') {
        return past_text(bytes, from);
    }
    let is_of_value = |byte: &u8| byte.is_ascii_alphanumeric() || b"+-.".contains(byte);
    let length = bytes
        .get(from..)?
        .iter()
        .take_while(|byte| is_of_value(byte));
    let length = length.count();
    (length > 0).then_some(from + length)
}
