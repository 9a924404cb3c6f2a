//! Which part of the line the chart shows, as lengths of paper: where level stretches are drawn short
//! ([`super::scale::folds`]), that is less than their own.

use crate::base::units::Length;

/// The shortest part shown across the whole chart: some changes of thread.
const SHORTEST: Length = Length::from_metres(0.25);
/// Share of the whole from which all of it counts as seen: sums round.
const ALMOST: f64 = 0.999;
/// Length shown beyond the line's end, so that it can be drawn longer.
const SPARE_LENGTH: f64 = 1.03;

/// A part of the line, as wide as the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VisibleRange {
    /// Paper from the tip to the left edge.
    pub from: Length,
    /// Paper shown.
    pub length: Length,
}

impl VisibleRange {
    /// A whole line of this length.
    pub fn whole(line: Length) -> Self {
        Self {
            from: Length::ZERO,
            length: line * SPARE_LENGTH,
        }
    }

    /// The line that is wholly visible in a range so long.
    pub fn line_of(length: Length) -> Length {
        length / SPARE_LENGTH
    }

    /// Whether all of a line of this length is visible.
    pub fn is_whole(self, line: Length) -> bool {
        self.from <= Length::ZERO && self.length >= Self::whole(line).length * ALMOST
    }

    /// Whether nothing shorter is shown.
    pub fn is_closest(self) -> bool {
        self.length <= SHORTEST
    }

    /// So many times larger (or, below 1, smaller); the place `about` stays where it is on the chart. Held within a line
    /// of this length.
    #[must_use]
    pub fn zoomed(self, times: f64, about: Length, line: Length) -> Self {
        // The paper may show more than the line: room for another one, or for what was longer before.
        let start = self.within(line);
        let longest = Self::whole(line).length;
        let length = (start.length / times).max(SHORTEST).min(longest);
        let share = (about - start.from) / start.length;
        Self {
            from: about - length * share,
            length,
        }
        .within(line)
    }

    /// Moved along the line, and held within a line of this length.
    #[must_use]
    pub fn moved(self, by: Length, line: Length) -> Self {
        Self {
            from: self.from + by,
            ..self
        }
        .within(line)
    }

    /// Moved no farther than it must to show a place, with a tenth of the chart between it and the edge.
    #[must_use]
    pub fn showing(self, at: Length, line: Length) -> Self {
        let margin = self.length * 0.1;
        let (low, high) = (at + margin - self.length, at - margin);
        Self {
            from: self.from.max(low).min(high),
            ..self
        }
        .within(line)
    }

    /// Held within a line of this length.
    #[must_use]
    pub fn within(self, line: Length) -> Self {
        let longest = Self::whole(line).length;
        let length = self.length.min(longest);
        Self {
            from: self.from.min(longest - length).max(Length::ZERO),
            length,
        }
    }
}
