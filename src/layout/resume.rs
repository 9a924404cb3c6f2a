//! Laying out the rest of a line from a place where the machine stands.
//!
//! What is braided stays as it is. The rest is a line of its own: it begins with the threads and wheels that are on the
//! machine, first makes up for what was not done, and then follows the drawing.

use super::pieces::Deed;
use super::pins::Pin;
use super::stops::Step;
use super::{Ground, Layout};
use crate::stretch::Piece;
use crate::takeoff::Wheels;
use crate::taper::{Point, Taper};
use crate::threads::Change;
use crate::units::Length;

/// A rest shorter than this is braided to its end as it is: nothing more could be done on it.
const LEAST_REST: Length = Length::from_millimetres(20.0);

/// What is on the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry {
    /// Place of the level on the ladder of levels.
    pub level: usize,
    /// The wheels fitted.
    pub wheels: Wheels,
    /// Lowest and highest level there are carriers for.
    pub range: (usize, usize),
}

/// Something done at the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Done {
    /// The level changed.
    Level(Change),
    /// Wheels were fitted.
    Wheels(Wheels),
}

impl Ground {
    /// The drawing behind a place, which becomes its tip; `None` where hardly anything of it is left.
    pub fn behind(&self, at: Length) -> Option<Self> {
        (self.taper.length() - at >= LEAST_REST).then_some(())?;
        let first = Point {
            at: Length::ZERO,
            diameter: self.taper.diameter_at(at),
        };
        let behind = self.taper.points().iter().filter(|point| point.at > at);
        let shifted = behind.map(|point| Point {
            at: point.at - at,
            ..*point
        });
        let taper = Taper::new(core::iter::once(first).chain(shifted).collect())?;
        Some(Self {
            taper,
            ..self.clone()
        })
    }

    /// Lays out a line that begins with what is on the machine. What the drawing asks for beyond the carriers there are is
    /// left out.
    pub fn lay_out_from(&self, entry: &Entry, pins: &[Pin]) -> Layout {
        let (low, high) = entry.range;
        let (wanted, changes) = self.staircase.changes(self.taper.points());
        let catching_up = catch_up(entry.level, wanted.clamp(low, high));
        let within = |change: &Change| low <= change.lower && change.lower < high;
        let changes = catching_up
            .into_iter()
            .chain(changes.into_iter().filter(within));
        let steps = changes.map(Step::of).collect();
        self.lay_out_steps(entry.level, steps, Some(entry.wheels), pins)
    }

    /// The pieces of a line that begins with this level and these wheels: what was done on it, and behind a place the layout
    /// of the rest.
    pub fn pieces_after(
        &self,
        start: (usize, Wheels),
        done: &[(Length, Done)],
        rest: Option<(Length, &Layout)>,
    ) -> Vec<Piece> {
        let mut deeds = Vec::new();
        for (at, done) in done {
            match done {
                Done::Level(change) => self.change(&mut deeds, *at, change),
                Done::Wheels(wheels) => deeds.push((*at, Deed::Fit(*wheels))),
            }
        }
        if let Some((from, layout)) = rest {
            let behind = self.deeds(&layout.stops, &layout.wheels, &layout.wheels_at);
            deeds.extend(behind.into_iter().map(|(at, deed)| (from + at, deed)));
        }
        self.sweep(start, deeds)
    }
}

/// The changes from one level to another, all at once where the machine stands.
fn catch_up(from: usize, to: usize) -> Vec<Change> {
    let change = |lower, rising| Change {
        lower,
        rising,
        at: Length::ZERO,
    };
    if from < to {
        (from..to).map(|lower| change(lower, true)).collect()
    } else {
        (to..from).rev().map(|lower| change(lower, false)).collect()
    }
}
