//! A table and its text.

use crate::base::units::show::trimmed;

/// Ends a record. Source: RFC 4180, section 2, rule 1.
const END: &str = "\r\n";
/// Tells a spreadsheet that the text is UTF-8; without it some take `µ` and `ü` for two letters each.
const MARK: char = '\u{feff}';
/// Decimals of a number at most: a millionth of a metre, of a gram or of a degree.
const DECIMALS: usize = 6;
/// What a formula begins with, and the wide forms of it that some spreadsheets take likewise. From memory.
const FORMULA: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// What stands in one place of a table.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words. Control characters other than a new line are left out of them.
    Text(String),
    /// A number in the unit of the column's head, written with a decimal point and at most six decimals. One that is not
    /// finite leaves the place empty.
    Number(f64),
    /// Nothing to say.
    Empty,
}

/// A table: a head, and rows that each have as many cells.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What each column is called; of a number, with its unit in brackets.
    pub head: &'static [&'static str],
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

impl Table {
    /// The text of the file. Every record ends with CR LF and has as many fields as the head (RFC 4180, section 2, rules 1, 3
    /// and 4).
    pub fn csv(&self) -> String {
        let head = self.head.iter().map(|head| Cell::text(*head)).collect();
        text_of([head].into_iter().chain(self.rows.iter().cloned()))
    }
}

/// The text of rows, all with as many cells.
pub(crate) fn text_of(rows: impl Iterator<Item = Vec<Cell>>) -> String {
    let mut out = String::from(MARK);
    for row in rows {
        record(&mut out, row.iter().map(Cell::field));
    }
    out
}

impl Cell {
    /// A text.
    pub fn text(words: impl Into<String>) -> Self {
        Self::Text(words.into())
    }

    /// A number where there is one.
    pub fn maybe(number: Option<f64>) -> Self {
        number.map_or(Self::Empty, Self::Number)
    }

    fn field(&self) -> String {
        match self {
            Self::Text(words) => quoted(&harmless(words)),
            Self::Number(number) if number.is_finite() => written(*number),
            Self::Number(_) | Self::Empty => String::new(),
        }
    }
}

fn record(out: &mut String, fields: impl Iterator<Item = String>) {
    out.push_str(&fields.collect::<Vec<_>>().join(","));
    out.push_str(END);
}

/// A field, between double quotes where it has a comma, a quote or a break; a quote in it doubled. Source: RFC 4180,
/// section 2, rules 5 to 7.
fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}

/// The words as no spreadsheet takes them for a formula.
fn harmless(words: &str) -> String {
    let is_formula = words.starts_with(['\t', '\r', '\n']) || words.trim().starts_with(FORMULA);
    let is_shown = |c: &char| !c.is_control() || *c == '\n';
    let shown: String = words.chars().filter(is_shown).collect();
    // What was left out may have stood before the sign of a formula.
    if is_formula || shown.trim().starts_with(FORMULA) {
        format!("“{shown}”")
    } else {
        shown
    }
}

/// A number; zero without a sign.
fn written(number: f64) -> String {
    match trimmed(number, DECIMALS) {
        nought if nought == "-0" => "0".to_owned(),
        number => number,
    }
}
