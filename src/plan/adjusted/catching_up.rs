//! What is still to do when the machine stands at a place: what was missed is made up for there, and the rest stays as planned.

use crate::base::units::Length;
use crate::braid::takeoff::Wheels;
use crate::plan::event::{Action, Event, engaged};

/// A remaining length shorter than this is braided to the end as it is.
pub(super) const LEAST_REST: Length = Length::from_millimetres(20.0);

/// Where the machine stands, and the limits of what follows.
pub(super) struct CatchingUp {
    /// Where, from the tip.
    pub(super) at: Length,
    /// The wheels on it.
    pub(super) fitted: Wheels,
    /// Least distance between two stops.
    pub(super) spacing: Length,
    /// Length of the line.
    pub(super) length: Length,
}

impl CatchingUp {
    /// What is still to do: of `rest`, after `done`. The last is the end of the line, with what is then on the machine.
    pub(super) fn rest(&self, done: &[Event], rest: &[Event]) -> Vec<Event> {
        let overdue = rest.iter().take_while(|event| self.is_overdue(event));
        let (overdue, later) = rest.split_at(overdue.count());
        let mut events = Vec::new();
        if self.length - self.at >= LEAST_REST {
            events = self.made_up(done, overdue);
            let has_stop = !events.is_empty() || done.last().is_some_and(|last| last.at == self.at);
            let upcoming = later.split_last().map_or(later, |(_, upcoming)| upcoming);
            events.extend(self.pushed(upcoming, has_stop));
        }
        events.extend(rest.last().map(|end| self.end(done, &events, end)));
        events
    }

    fn is_overdue(&self, event: &Event) -> bool {
        event.at <= self.at && !matches!(event.action, Action::End(_))
    }

    /// What was missed, at the machine's place: threads in their order, without pairs that cancel each other, then the wheels.
    fn made_up(&self, done: &[Event], overdue: &[Event]) -> Vec<Event> {
        let mut events: Vec<Event> = Vec::new();
        for event in overdue.iter().filter(|event| event.action.is_of_threads()) {
            if events.last().is_some_and(|last| undoes(event, last)) {
                events.pop();
            } else {
                events.push(Event {
                    at: self.at,
                    wheels: self.fitted,
                    ..event.clone()
                });
            }
        }
        let is_gear = |event: &&Event| matches!(event.action, Action::Gear { .. });
        let gear = overdue.iter().rfind(is_gear);
        let gear = gear.filter(|gear| gear.wheels != self.fitted);
        let level = events.last().or(done.last()).map(|event| event.level);
        events.extend(gear.map(|gear| Event {
            action: Action::Gear {
                from: self.fitted,
                to: gear.wheels,
            },
            at: self.at,
            level: level.unwrap_or(gear.level),
            ..gear.clone()
        }));
        events
    }

    /// What comes after the machine's place, where it was planned. A stop too close to the one before is made later by as much as
    /// it must, but still on the line.
    fn pushed(&self, upcoming: &[Event], has_stop: bool) -> Vec<Event> {
        let last_place = self.length - LEAST_REST;
        let mut least = if has_stop {
            self.at + self.spacing
        } else {
            self.at
        };
        let mut events = Vec::with_capacity(upcoming.len());
        for stop in upcoming.chunk_by(|a, b| a.at == b.at) {
            let planned = stop[0].at;
            let at = planned.max(least.min(last_place));
            least = if at > planned { at + self.spacing } else { at };
            events.extend(stop.iter().map(|event| Event {
                at,
                ..event.clone()
            }));
        }
        events
    }

    /// The end, with what is then on the machine.
    fn end(&self, done: &[Event], next: &[Event], end: &Event) -> Event {
        let all = done.iter().chain(next);
        let last = all.clone().last();
        Event {
            action: Action::End(engaged(all)),
            level: last.map_or(end.level, |last| last.level),
            wheels: last.map_or(self.fitted, |last| last.wheels),
            at: self.length,
            ..end.clone()
        }
    }
}

/// Whether a change of threads puts back what the one before it did.
fn undoes(event: &Event, before: &Event) -> bool {
    match (&before.action, &event.action) {
        (Action::Add { carrier: one, .. }, Action::Drop { carrier: other, .. })
        | (Action::Drop { carrier: one, .. }, Action::Add { carrier: other, .. }) => one == other,
        (
            Action::Swap {
                carrier: one, from, ..
            },
            Action::Swap {
                carrier: other, to, ..
            },
        ) => one == other && from == to,
        _ => false,
    }
}
