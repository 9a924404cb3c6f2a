//! Readings as a table for a spreadsheet.

use crate::base::units::Length;
use crate::keep::share::table::{Cell, text_of};

use super::comment::NAME;
use super::lines::shown_row;

/// The headings: the units stand in them.
const HEADINGS: [&str; 2] = ["place (m)", "diameter (mm)"];

/// Readings as CSV (RFC 4180, in UTF-8): the name of the line in a comment of its own where it has one, headings, and a row for
/// each reading in their order, places in metres and diameters in millimetres with a decimal dot.
///
/// ```
/// use taperwright::base::units::Length;
/// use taperwright::keep::share::readings;
/// let reading = (Length::from_metres(0.5), Length::from_millimetres(0.95));
/// let text = readings::write("Heron Weir", &[reading]);
/// assert_eq!(text, "\u{feff}# Line: Heron Weir,\r\nplace (m),diameter (mm)\r\n0.5,0.95\r\n");
/// ```
pub fn write(name: &str, readings: &[(Length, Length)]) -> String {
    let name = shown_row(name);
    let title = (!name.is_empty()).then(|| vec![Cell::Text(format!("{NAME}{name}")), Cell::Empty]);
    let headings = HEADINGS.map(Cell::text).to_vec();
    let rows = readings.iter().map(|(at, diameter)| {
        vec![
            Cell::Number(at.metres()),
            Cell::Number(diameter.millimetres()),
        ]
    });
    text_of(title.into_iter().chain([headings]).chain(rows))
}
