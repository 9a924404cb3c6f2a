//! The steps of a line at the machine: all that is changed at one place is one, shown, ticked and taken back together.

use super::{Run, RunClock};
use crate::base::units::Length;
use crate::plan::{AdjustedPlan, Event};

impl Run {
    /// Where the steps of an adjusted plan begin, as counts of its events. Where something went otherwise a step begins, also
    /// within a stop.
    fn step_starts(&self, adjusted: &AdjustedPlan) -> Vec<usize> {
        let events = &adjusted.events;
        let is_cut = |at| at == self.done || self.mishaps.iter().any(|mishap| mishap.done == at);
        let is_start = |&at: &usize| at == 0 || is_cut(at) || !events[at - 1].is_with(&events[at]);
        (0..events.len()).filter(is_start).collect()
    }

    /// How many steps of an adjusted plan are done, and how many there are.
    pub fn steps_of(&self, adjusted: &AdjustedPlan) -> (usize, usize) {
        let starts = self.step_starts(adjusted);
        let done = starts.iter().filter(|&&start| start < self.done);
        (done.count(), starts.len())
    }

    /// The steps still to do, the next one first: the events of each.
    pub fn steps_ahead<'a>(
        &self,
        adjusted: &'a AdjustedPlan,
    ) -> impl Iterator<Item = &'a [Event]> + use<'a> {
        let (starts, length) = (self.step_starts(adjusted), adjusted.events.len());
        let ends: Vec<usize> = starts.iter().skip(1).copied().chain([length]).collect();
        let done = self.done;
        let steps = starts.into_iter().zip(ends);
        let ahead = steps.filter(move |(start, _)| *start >= done);
        ahead.map(|(start, end)| &adjusted.events[start..end])
    }

    /// The run with the next step done.
    #[must_use]
    pub fn tick(mut self, adjusted: &AdjustedPlan) -> Self {
        let events = self.steps_ahead(adjusted).next().map_or(0, <[Event]>::len);
        if events > 0 {
            self.done += events;
            self.circuits = 0;
        }
        self
    }

    /// The run with the last step not done after all, or without the last correction since. The machine is taken to stand where it
    /// stood: what was measured after that step is removed with it.
    #[must_use]
    pub fn back(mut self, adjusted: &AdjustedPlan) -> Self {
        let stood = self.stands_at(adjusted);
        let counted = f64::from(self.circuits);
        self.clock = RunClock {
            timed: self.clock.timed,
            own_pace: self.clock.own_pace,
            ..RunClock::default()
        };
        let since = self.mishaps.last().map(|mishap| mishap.done);
        if since == Some(self.done) {
            self.mishaps.pop();
        } else {
            let starts = self.step_starts(adjusted);
            let before = starts.into_iter().rfind(|&start| start < self.done);
            self.done = before.unwrap_or(0);
            self.checks.retain(|check| check.done <= self.done);
        }
        let way = stood - self.stands_at(adjusted);
        let circuits = if way > Length::ZERO && self.done > 0 {
            self.circuits_for(adjusted, way)
        } else {
            0.0
        };
        self.circuits = whole(circuits + counted);
        self.clock.sure.circuits = self.circuits;
        self
    }
}

/// A number of circuits as a whole one.
// No line takes near 2³² of them; the cast holds at the ends.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub(super) const fn whole(circuits: f64) -> u32 {
    circuits.round() as u32
}
