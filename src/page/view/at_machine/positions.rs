//! Positions as they are shown and typed: where the threads meet, and at the maker's own mark where one is set.

use crate::base::units::Length;
use crate::base::units::show::Units;
use crate::base::units::text::{Unit, read};

/// How positions are shown and typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PositionFormat {
    /// From where the threads meet to the mark; 0 where there is none.
    pub(super) rollers: Length,
    pub(super) units: Units,
}

impl PositionFormat {
    /// Whether the maker measures at a mark.
    pub(super) fn has_mark(self) -> bool {
        self.rollers > Length::ZERO
    }

    /// A position; where there is a mark, both.
    pub(super) fn show(self, at: Length) -> String {
        let meeting = self.units.show_position(at);
        if !self.has_mark() {
            return meeting;
        }
        let mark = at - self.rollers;
        let there = self.units.show_position(mark.abs());
        if mark < Length::ZERO {
            format!("{there} short of your mark ({meeting} where the threads meet)")
        } else {
            format!("{there} at your mark ({meeting} where the threads meet)")
        }
    }

    /// A place typed at the mark, as the one where the threads meet.
    pub(super) fn read(self, text: &str) -> Result<Length, String> {
        let typed = metres(text, self.units.position())?;
        Ok(typed + self.rollers)
    }

    /// A length since the last stop, typed in the unit of positions, more than nothing.
    pub(super) fn read_length(self, text: &str) -> Result<Length, String> {
        let length = metres(text, self.units.position())?;
        if length > Length::ZERO {
            Ok(length)
        } else {
            Err("Type the length since the last stop, more than 0.".to_owned())
        }
    }

    /// A short length typed in centimetres or inches.
    pub(super) fn read_short(self, text: &str) -> Result<Length, String> {
        metres(text, self.short())
    }

    /// The unit of short lengths.
    pub(super) const fn short(self) -> Unit {
        match self.units {
            Units::Metric => Unit::Centimetre,
            Units::Imperial => Unit::Inch,
        }
    }
}

fn metres(text: &str, unit: Unit) -> Result<Length, String> {
    let typed = read(text, unit).map_err(|unread| unread.to_string())?;
    let metres = unit.convert(typed, Unit::Metre).unwrap_or(0.0);
    Ok(Length::from_metres(metres))
}
