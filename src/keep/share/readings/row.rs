//! A row of a table as readings.

use crate::base::units::Length;
use crate::base::units::text::{Unit, Unread};
use crate::design::settings::{DIAMETER, POSITION};

use super::cells::{is_blank, number};
use super::columns::Columns;
use super::decimals::Decimals;
use super::grid::GridRow;
use super::lines::shown_cell;

/// How a table is read.
pub(super) struct RowReader {
    /// The columns.
    pub(super) columns: Columns,
    /// The unit of places without one.
    pub(super) at_unit: Unit,
    /// The unit of diameters without one.
    pub(super) diameter_unit: Unit,
    /// The decimal mark.
    pub(super) decimals: Decimals,
}

impl RowReader {
    /// The readings of a row, added to a list; what is wrong with it, if anything is.
    pub(super) fn read(
        &self,
        row: &GridRow<'_>,
        readings: &mut Vec<(Length, Length)>,
    ) -> Option<String> {
        let cells: Vec<&str> = self
            .columns
            .diameters
            .iter()
            .map(|at| row.cell(*at))
            .collect();
        let filled: Vec<&str> = cells.into_iter().filter(|cell| !is_blank(cell)).collect();
        let place = row.cell(self.columns.place);
        if is_blank(place) {
            return Some(
                "There is no place in this row. Add how far from the tip it was measured."
                    .to_owned(),
            );
        }
        let at = match self.place(place) {
            Ok(at) => at,
            Err(why) => return Some(why),
        };
        if filled.is_empty() {
            return Some("There is no diameter in this row. Add it, or delete the row.".to_owned());
        }
        let (mut wrong, mut first) = (0, None);
        for cell in &filled {
            match self.diameter(cell) {
                Ok(diameter) => readings.push((at, diameter)),
                Err(why) => {
                    wrong += 1;
                    first.get_or_insert(why);
                }
            }
        }
        let why = first?;
        Some(match (wrong, filled.len()) {
            (wrong, all) if wrong == all && all == 1 => why,
            (wrong, all) => format!(
                "{why} {} of {all} diameters in this row are read.",
                all - wrong
            ),
        })
    }

    fn place(&self, cell: &str) -> Result<Length, String> {
        let (value, unit) = self.number(cell, self.at_unit, "place", "2.5")?;
        let metres = unit.convert(value, POSITION.unit).unwrap_or(f64::NAN);
        let said = said(cell, unit);
        if let Ok(metres) = POSITION.admit(metres) {
            return Ok(Length::from_metres(metres));
        }
        Err(if metres < 0.0 {
            format!("The place {said} is before the tip. Places count from the tip, at 0.")
        } else {
            format!(
                "The place {said} is more than {} m from the tip. Check the number and the unit.",
                POSITION.high
            )
        })
    }

    fn diameter(&self, cell: &str) -> Result<Length, String> {
        let (value, unit) = self.number(cell, self.diameter_unit, "diameter", "0.95")?;
        let millimetres = unit.convert(value, DIAMETER.unit).unwrap_or(f64::NAN);
        let admitted = DIAMETER.admit(millimetres);
        admitted.map(Length::from_millimetres).map_err(|_| {
            format!(
                "The diameter {} is outside {} to {} mm. Check the number and the unit.",
                said(cell, unit),
                DIAMETER.low,
                DIAMETER.high
            )
        })
    }

    fn number(
        &self,
        cell: &str,
        unit: Unit,
        what: &str,
        example: &str,
    ) -> Result<(f64, Unit), String> {
        let shown = shown_cell(cell);
        match number(&self.decimals.plain(cell), unit) {
            Ok((value, written)) => Ok((value, written.unwrap_or(unit))),
            Err(Unread::Ambiguous(digits)) => {
                let (large, small) = (digits.replace(',', ""), digits.replace(',', "."));
                // With one zero more, the small one is no thousand with either mark.
                Err(format!(
                    "“{shown}” can mean two numbers. Write {large} for the large one, or {small}0 for the small one."
                ))
            }
            Err(unread @ (Unread::UnknownUnit { .. } | Unread::WrongUnit { .. })) => {
                let word = match unread {
                    Unread::UnknownUnit { word, .. } => shown_cell(&word),
                    _ => shown,
                };
                Err(format!(
                    "“{word}” is no unit of length. Leave it out, or write m, cm, mm, ft or in."
                ))
            }
            Err(_) => Err(format!(
                "“{shown}” is no {what}. Write a number such as {example}."
            )),
        }
    }
}

/// A cell as a sentence says it, with its unit.
fn said(cell: &str, unit: Unit) -> String {
    let shown = shown_cell(cell);
    let has_unit = shown.ends_with(|c: char| !c.is_numeric());
    if has_unit {
        shown
    } else {
        format!("{shown} {}", unit.symbol())
    }
}
