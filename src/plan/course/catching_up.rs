//! What is still to do when the machine stands at a place: what was missed, made up for there, and the rest as it was planned.

use crate::base::units::Length;
use crate::braid::takeoff::Wheels;
use crate::plan::{Action, Event, engaged};

/// A rest shorter than this is braided to its end as it is: nothing more could be done on it.
const LEAST_REST: Length = Length::from_millimetres(20.0);

/// Where the machine stands, and what it must heed.
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
            let behind = later.split_last().map_or(later, |(_, behind)| behind);
            events.extend(self.pushed(behind, has_stop));
        }
        events.extend(rest.last().map(|end| self.end(done, &events, end)));
        events
    }

    fn is_overdue(&self, event: &Event) -> bool {
        event.at <= self.at && !matches!(event.action, Action::End(_))
    }

    /// What was missed, at the machine's place: threads in their order, less what undoes itself, then the wheels.
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

    /// What lies behind the machine's place, where it was planned; a stop that would come too close to one before is made as
    /// much later as must be, but still on the line.
    fn pushed(&self, behind: &[Event], has_stop: bool) -> Vec<Event> {
        let last_place = self.length - LEAST_REST;
        let mut least = if has_stop {
            self.at + self.spacing
        } else {
            self.at
        };
        let mut events = Vec::with_capacity(behind.len());
        for stop in behind.chunk_by(|a, b| a.at == b.at) {
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
    fn end(&self, done: &[Event], behind: &[Event], end: &Event) -> Event {
        let all = done.iter().chain(behind);
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
