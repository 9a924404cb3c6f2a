//! A line laid out: the outcome of a layout.

use super::pins::DroppedPin;
use super::stops::{Crowding, Stop, levels};
use crate::base::units::Length;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Staircase;

/// A line laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// What the levels weigh as they are made: the drawing calls for levels by this.
    pub staircase: Staircase,
    /// The level at the tip.
    pub first: usize,
    /// Where threads are changed, in order.
    pub stops: Vec<Stop>,
    /// The wheels of every interval: one more than there are stops.
    pub wheels: Vec<Wheels>,
    /// The wheels that would do best were they never changed.
    pub one_throughout: Wheels,
    /// Where the wheels of the interval after each stop are fitted.
    pub wheels_at: Vec<Length>,
    /// For every interval the pin that holds its wheels, by its place in the design's list.
    pub pinned_intervals: Vec<Option<usize>>,
    /// Changes made at one stop since they would come too close, and swellings left out.
    pub crowdings: Vec<Crowding>,
    /// Pins that no longer make sense.
    pub dropped_pins: Vec<DroppedPin>,
}

impl Layout {
    /// The level of a interval.
    pub(super) fn level(&self, interval: usize) -> usize {
        match interval.checked_sub(1) {
            Some(stop) => self.stops[stop].after(),
            None => self.first,
        }
    }

    /// Fewest and most yarn: the lowest and the highest level of any interval.
    pub fn level_range(&self) -> (usize, usize) {
        levels(self.first, &self.stops).fold((usize::MAX, 0), |(low, high), level| {
            (low.min(level), high.max(level))
        })
    }
}
