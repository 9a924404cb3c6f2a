//! Stops that are not worth their work, and are left out.
//!
//! A stop must put right as much of the line as it is worth: its threads times the length over which they would be wrong
//! without it, against [`Ground::stop_price`]. Where one stop undoes another the length is that between the two, and where
//! the line begins or ends soon it is that to the tip or to the end. Within the least distance nothing is worth its stops.

use super::ground::Ground;
use super::stops::{self, Crowding, HAIR, Step, Stop};
use crate::base::units::Length;
use crate::braid::threads::Change;

/// What is not worth its stops.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Worthless {
    /// So many changes of a stop, which the next stop undoes.
    Pair {
        first: usize,
        count: usize,
        places: [Length; 2],
    },
    /// The first stop: the line begins with what comes after it.
    First(Length),
    /// The last stop: the line ends with what comes before it.
    Last(Length),
}

impl Ground {
    /// Whether every stop is worth its work.
    ///
    /// A stop stays where the maker insists on a change of it, or on the wheels of an interval that would be gone or become
    /// one with another whose wheels are insisted on.
    ///
    /// # Errors
    /// What is not worth its stops, pairs last first; a stop takes part in one of them at most.
    pub(super) fn check_worth(
        &self,
        first: usize,
        stops: &[Stop],
        pinned_intervals: &[Option<usize>],
    ) -> Result<(), Vec<Worthless>> {
        let mut worthless = self.worthless_pairs(stops, pinned_intervals);
        if worthless.is_empty() {
            worthless.extend(self.worthless_end(first, stops, pinned_intervals));
        }
        if worthless.is_empty() {
            Ok(())
        } else {
            Err(worthless)
        }
    }

    fn worthless_pairs(
        &self,
        stops: &[Stop],
        pinned_intervals: &[Option<usize>],
    ) -> Vec<Worthless> {
        let is_held = |interval: usize| pinned_intervals[interval].is_some();
        let mut pairs: Vec<Worthless> = Vec::new();
        let mut next = stops.len();
        for first in (1..stops.len()).rev().map(|second| second - 1) {
            let is_kept = is_held(first + 1) || (is_held(first) && is_held(first + 2));
            let pair = [&stops[first], &stops[first + 1]];
            let is_free = next > first + 1 && !is_kept && pair.iter().all(|stop| !stop.is_pinned());
            if is_free && let Some(count) = self.worthless_changes(pair) {
                let places = pair.map(|stop| stop.at);
                pairs.push(Worthless::Pair {
                    first,
                    count,
                    places,
                });
                next = first;
            }
        }
        pairs
    }

    /// How many changes of two stops, of which one undoes the other, are not worth making, from the innermost on.
    fn worthless_changes(&self, pair: [&Stop; 2]) -> Option<usize> {
        let apart = pair[1].at - pair[0].at;
        let undone = pair[0].steps.len().min(pair[1].steps.len());
        if pair[0].is_rising() == pair[1].is_rising() {
            return None;
        }
        if apart < self.spacing - HAIR {
            return Some(1);
        }
        let steps = &pair[1].steps[..undone];
        let saved = pair.iter().filter(|stop| stop.steps.len() == undone);
        let price = self.stop_price * saved.count() as f64;
        let threads =
            self.threads_between(steps[0].change.before(), steps[undone - 1].change.after());
        (apart * threads < price).then_some(undone)
    }

    fn worthless_end(
        &self,
        first: usize,
        stops: &[Stop],
        pinned_intervals: &[Option<usize>],
    ) -> Option<Worthless> {
        let is_worthless = |stop: &Stop, before: usize, length: Length, interval: usize| {
            let threads = self.threads_between(before, stop.after());
            let is_free = !stop.is_pinned() && pinned_intervals[interval].is_none();
            is_free && length * threads < self.stop_price
        };
        let (last, before) = stops.split_last()?;
        let start = &stops[0];
        if is_worthless(start, first, start.at, 0) {
            return Some(Worthless::First(start.at));
        }
        let level = before.last().map_or(first, Stop::after);
        let left = self.taper.length() - last.at;
        is_worthless(last, level, left, stops.len()).then_some(Worthless::Last(last.at))
    }

    /// Yarn between two levels, in standard threads.
    pub(super) fn threads_between(&self, one: usize, other: usize) -> f64 {
        (self.loads[one].yarn - self.loads[other].yarn).abs()
    }
}

/// Leaves out what is not worth its stops. It is said where it would be made, which may be far from where the drawing asks for
/// it: a level belly may be thick enough for one more thread, but not as the wheels make it.
pub(super) fn leave_out(
    first: &mut usize,
    stops: &mut Vec<Stop>,
    worthless: &[Worthless],
    crowdings: &mut Vec<Crowding>,
) {
    let known = crowdings.len();
    for one in worthless {
        match *one {
            Worthless::Pair {
                first,
                count,
                places,
            } => leave_out_pair(stops, crowdings, (first, count), places),
            Worthless::First(at) => {
                let stop = stops.remove(0);
                *first = stop.after();
                crowdings.extend(alone(&stop, at));
            }
            Worthless::Last(at) => {
                let stop = stops.pop();
                crowdings.extend(stop.iter().flat_map(|stop| alone(stop, at)));
            }
        }
    }
    stops.retain(|stop| !stop.steps.is_empty());
    crowdings[known..].reverse();
}

fn leave_out_pair(
    stops: &mut [Stop],
    crowdings: &mut Vec<Crowding>,
    (first, count): (usize, usize),
    places: [Length; 2],
) {
    let known = crowdings.len();
    stops::undo(stops, crowdings, first, count);
    for crowding in &mut crowdings[known..] {
        if let Crowding::LeftOut { into, out_of } = crowding {
            into.change.at = places[0];
            if let Some(out_of) = out_of {
                out_of.change.at = places[1];
            }
        }
    }
}

/// The changes of a stop that no other undoes, left out.
fn alone(stop: &Stop, at: Length) -> impl Iterator<Item = Crowding> {
    let left_out = move |step: &Step| {
        let change = Change { at, ..step.change };
        let into = Step { change, ..*step };
        Crowding::LeftOut { into, out_of: None }
    };
    stop.steps.iter().map(left_out)
}
