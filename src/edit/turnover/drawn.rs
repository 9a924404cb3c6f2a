//! Drawings between the steps of a design, how they turn over, and what their heads weigh.

use crate::base::units::{Length, Mass};
use crate::braid::taper::{Point, Taper};
use crate::braid::weight::Head;
use crate::design::Design;
use crate::plan::AsDrawn;
use crate::turnover::{Cast, Surroundings, turn_over};

/// Drawings that are braided alike, in one cast.
pub(super) struct DrawnCasts<'a> {
    lines: AsDrawn,
    cast: &'a Cast,
    air: &'a Surroundings,
}

impl<'a> DrawnCasts<'a> {
    /// Drawings braided as a design says.
    pub(super) fn of(design: &Design, cast: &'a Cast, air: &'a Surroundings) -> Self {
        Self {
            lines: AsDrawn::of(design),
            cast,
            air,
        }
    }

    /// Whether a place of a line is cast.
    pub(super) fn holds(&self, at: Length) -> bool {
        at < self.cast.outside()
    }

    /// Share of the energy that reaches the leader. `None` where the points are out of order.
    pub(super) fn energy_left(&self, points: Vec<Point>) -> Option<f64> {
        let line = self.lines.fly_line(&Taper::new(points)?)?;
        Some(turn_over(&line, self.cast, self.air).energy_left())
    }

    /// What a drawing weighs in a head; in its own where none is named.
    pub(super) fn head(&self, points: Vec<Point>, head: Option<Head>) -> Option<Mass> {
        let taper = Taper::new(points)?;
        let head = head.unwrap_or_else(|| Head::of(&taper.sections()));
        Some(self.lines.mass_between(&taper, (head.from, head.to)))
    }
}

/// The head of a drawing; `None` where it is too short for a class.
pub(super) fn whole_head(taper: &Taper) -> Option<Head> {
    let head = Head::of(&taper.sections());
    head.missing(taper.length()).is_none().then_some(head)
}
