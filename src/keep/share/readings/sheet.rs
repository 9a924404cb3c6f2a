//! A text as rows of cells.

use csv_core::{ReadRecordResult, Reader, ReaderBuilder};

use super::blanks;
use super::lines::first_line;
use super::separator::Separator;
use super::table::{MOST_CELLS, MOST_COLUMNS, MOST_ROWS};

/// Most bytes of a row with a cell in quotes that has several lines. What goes on for longer has a quote that nothing closes.
const MOST_OF_LINES: usize = 8_000;

/// More rows or cells than are looked at.
pub(super) struct TooManyCells;

/// The rows of a text that are not blank.
pub(super) struct Sheet<'a> {
    text: &'a str,
    /// The words of all cells, one after the other.
    words: String,
    /// Where each cell ends in `words`.
    ends: Vec<usize>,
    rows: Vec<Stored>,
}

/// Where a row stands.
struct Stored {
    number: usize,
    /// From and to, in the text.
    raw: (usize, usize),
    /// Its first cell, and the one after its last.
    cells: (usize, usize),
}

/// A row.
#[derive(Clone)]
pub(super) struct Row<'a> {
    /// Its number, from 1, blank rows counted.
    pub(super) number: usize,
    /// As it stood.
    pub(super) raw: &'a str,
    /// Its cells without blanks around them; none at the end is empty.
    pub(super) cells: Vec<&'a str>,
}

impl<'a> Sheet<'a> {
    /// All rows of a text.
    ///
    /// # Errors
    /// [`TooManyCells`].
    pub(super) fn whole(text: &'a str, separator: Separator) -> Result<Self, TooManyCells> {
        let mut sheet = Self::empty(text);
        sheet.fill(separator, MOST_ROWS + 1)?;
        if sheet.rows.len() > MOST_ROWS {
            return Err(TooManyCells);
        }
        Ok(sheet)
    }

    /// The first rows of a text.
    pub(super) fn beginning(text: &'a str, separator: Separator, rows: usize) -> Self {
        let mut sheet = Self::empty(text);
        // What was read before there was too much is beginning enough.
        let _ = sheet.fill(separator, rows);
        sheet
    }

    /// The rows, in order.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|stored| {
            let cells = stored.cells.0..stored.cells.1;
            Row {
                number: stored.number,
                raw: &self.text[stored.raw.0..stored.raw.1],
                cells: cells.map(|cell| self.cell(cell)).collect(),
            }
        })
    }

    fn cell(&self, at: usize) -> &str {
        let begin = at.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.words[begin..self.ends[at]]
    }

    fn empty(text: &'a str) -> Self {
        let (words, ends, rows) = (String::new(), Vec::new(), Vec::new());
        Self {
            text,
            words,
            ends,
            rows,
        }
    }

    fn fill(&mut self, separator: Separator, most: usize) -> Result<(), TooManyCells> {
        let mut records = Records::new(separator);
        let (mut at, mut number) = (0, 0);
        while at < self.text.len() && self.rows.len() < most {
            number += 1;
            let rest = &self.text[at..];
            let (line, _) = first_line(rest);
            let length = match separator {
                _ if line.is_empty() => 0,
                Separator::Mark(_) => records.read(rest, line)?,
                Separator::Blanks | Separator::Blank => line.len(),
            };
            let raw = &rest[..length];
            match separator {
                _ if raw.trim().is_empty() => {}
                Separator::Mark(_) => self.push(number, at, raw, records.cells())?,
                Separator::Blanks => self.push(number, at, raw, blanks::wide(raw).into_iter())?,
                Separator::Blank => {
                    let cells = blanks::narrow(raw).ok_or(TooManyCells)?;
                    self.push(number, at, raw, cells.iter().map(String::as_str))?;
                }
            }
            let (_, after) = first_line(&rest[length..]);
            at = self.text.len() - after.len();
        }
        Ok(())
    }

    /// Adds a row, unless all its cells are blank.
    fn push<'c>(
        &mut self,
        number: usize,
        at: usize,
        raw: &str,
        cells: impl Iterator<Item = &'c str>,
    ) -> Result<(), TooManyCells> {
        let first = self.ends.len();
        let mut filled = first;
        for cell in cells {
            self.words.push_str(cell.trim());
            self.ends.push(self.words.len());
            if !cell.trim().is_empty() {
                filled = self.ends.len();
            }
            if self.ends.len() - first > MOST_COLUMNS {
                return Err(TooManyCells);
            }
        }
        self.ends.truncate(filled);
        if self.ends.len() > MOST_CELLS {
            return Err(TooManyCells);
        }
        if filled > first {
            self.rows.push(Stored {
                number,
                raw: (at, at + raw.len()),
                cells: (first, filled),
            });
        }
        Ok(())
    }
}

/// Reads records with a mark between their cells, which may stand in quotes: by the library `csv-core` (RFC 4180 and what is
/// usual around it).
struct Records {
    quoted: Reader,
    unquoted: Reader,
    out: Vec<u8>,
    ends: Vec<usize>,
    count: usize,
}

impl Records {
    fn new(separator: Separator) -> Self {
        let mark = match separator {
            Separator::Mark(mark) => mark,
            Separator::Blanks | Separator::Blank => b'\t',
        };
        let reader = |quoting| {
            let mut builder = ReaderBuilder::new();
            builder.delimiter(mark).quoting(quoting).build()
        };
        Self {
            quoted: reader(true),
            unquoted: reader(false),
            out: Vec::new(),
            ends: vec![0; MOST_COLUMNS + 1],
            count: 0,
        }
    }

    /// Reads the record at the beginning of a text, whose first line is not empty, and gives its length without its end.
    fn read(&mut self, text: &str, line: &str) -> Result<usize, TooManyCells> {
        let window = text.len().min(MOST_OF_LINES.max(line.len() + 1));
        self.out.resize(self.out.len().max(window + 1), 0);
        let window = &text.as_bytes()[..window];
        let is_all = window.len() == text.len();
        let out = (&mut self.out[..], &mut self.ends[..]);
        let read = record(&mut self.quoted, window, is_all, out)?;
        let (length, count) = if let Some(read) = read {
            read
        } else {
            // A quote that nothing closes is a letter, and the record one line.
            let out = (&mut self.out[..], &mut self.ends[..]);
            let line = line.as_bytes();
            record(&mut self.unquoted, line, true, out)?.unwrap_or((line.len(), 0))
        };
        self.count = count;
        let ends = text[..length].ends_with(['\r', '\n']);
        Ok(length - usize::from(ends))
    }

    fn cells(&self) -> impl Iterator<Item = &str> {
        (0..self.count).map(|at| {
            let begin = at.checked_sub(1).map_or(0, |before| self.ends[before]);
            let cell = self.out.get(begin..self.ends[at]).unwrap_or_default();
            core::str::from_utf8(cell).unwrap_or_default()
        })
    }
}

/// Reads one record: how many bytes it takes, its end included, and how many cells it has. `None` where it does not end.
fn record(
    reader: &mut Reader,
    window: &[u8],
    is_all: bool,
    (out, ends): (&mut [u8], &mut [usize]),
) -> Result<Option<(usize, usize)>, TooManyCells> {
    reader.reset();
    let (result, taken, written, count) = reader.read_record(window, out, ends);
    match result {
        ReadRecordResult::Record => Ok(Some((taken, count))),
        // The end of the text ends a record, but not a cell in quotes.
        ReadRecordResult::InputEmpty if is_all => {
            let (result, _, _, more) =
                reader.read_record(b"\n", &mut out[written..], &mut ends[count..]);
            let is_record = matches!(result, ReadRecordResult::Record);
            Ok(is_record.then_some((taken, count + more)))
        }
        ReadRecordResult::InputEmpty | ReadRecordResult::End => Ok(None),
        ReadRecordResult::OutputFull | ReadRecordResult::OutputEndsFull => Err(TooManyCells),
    }
}
