//! What to do at the machine, in order of length.

use super::event::{Action, Event, Set};
use crate::base::units::{Angle, Length};
use crate::braid::ladder::Ladder;
use crate::braid::stretch::BraidedLine;
use crate::braid::takeoff::Wheels;
use crate::braid::threads::Level;
use crate::braid::track::Carrier;
use crate::design::pin::Pin;
use crate::plan::layout::stops::{Step, Stop};
use crate::plan::layout::{Ground, Layout};

/// Notes the outcome of each event: the braid that the line has reached before the next stop.
pub(super) fn note_outcome(events: &mut [Event], line: &BraidedLine) {
    let mut next = line.length();
    for event in events.iter_mut().rev() {
        let braid = line.braid_before(next);
        (event.angle, event.crossings) = (braid.angle, braid.crossings_per_metre());
        if event.since > Length::ZERO {
            next = event.at;
        }
    }
}

/// What the schedule is calculated from.
pub(super) struct Schedule<'a> {
    pub(super) ground: &'a Ground,
    pub(super) layout: &'a Layout,
    pub(super) line: &'a BraidedLine,
    pub(super) ladder: &'a Ladder,
    /// The order in which carriers get heavier threads when all are engaged.
    pub(super) heavier: &'a [Carrier],
    /// Pins of carriers that hold: the lower level of the step, and the pin's place in the list.
    pub(super) carrier_pins: &'a [(Level, usize)],
    /// All pins of the design.
    pub(super) pins: &'a [Pin],
}

/// An action and its place, before lengths and outcome are calculated.
struct PlannedAction {
    action: Action,
    at: Length,
    level: usize,
    wheels: Wheels,
    ends: u32,
    pin: Option<usize>,
    wheels_pin: Option<usize>,
    carrier_pin: Option<usize>,
}

impl Schedule<'_> {
    /// The carriers engaged at a level, with their ends.
    pub(super) fn set(&self, level: Level) -> Set {
        let supply = self.ground.supply;
        let heavier = &self.heavier[..(level.heavy as usize).min(self.heavier.len())];
        let ends = |carrier: &Carrier| {
            if heavier.contains(carrier) {
                supply.heavy
            } else {
                supply.light
            }
        };
        let engaged = self.ladder.engaged(level.threads).iter();
        engaged.map(|carrier| (*carrier, ends(carrier))).collect()
    }

    /// The schedule. Where a thread and a change of wheels meet, the thread comes first.
    pub(super) fn events(&self) -> Vec<Event> {
        let mut events: Vec<Event> = Vec::new();
        for planned in self.planned_actions() {
            let before = events.last().map_or(Length::ZERO, |event| event.at);
            let circuits = if before < planned.at {
                self.line.circuits(before, planned.at)
            } else {
                0.0
            };
            events.push(self.event(planned, before, circuits));
        }
        note_outcome(&mut events, self.line);
        events
    }

    fn event(&self, planned: PlannedAction, before: Length, circuits: f64) -> Event {
        Event {
            since: planned.at - before,
            circuits,
            level: self.ground.levels[planned.level],
            ends: planned.ends,
            wheels: planned.wheels,
            angle: Angle::ZERO,
            crossings: 0.0,
            action: planned.action,
            at: planned.at,
            pin: planned.pin,
            wheels_pin: planned.wheels_pin,
            carrier_pin: planned.carrier_pin,
        }
    }

    fn planned_actions(&self) -> Vec<PlannedAction> {
        let (layout, light) = (self.layout, self.ground.supply.light);
        let level_of = |level: usize| self.ground.levels[level];
        let whole = |action, at, level, wheels| PlannedAction {
            action,
            at,
            level,
            wheels,
            ends: light,
            pin: None,
            wheels_pin: None,
            carrier_pin: None,
        };
        let start = Action::Start(self.set(level_of(layout.first)));
        let mut start = whole(start, Length::ZERO, layout.first, layout.wheels[0]);
        start.wheels_pin = layout.pinned_intervals[0];
        let mut actions = vec![start];
        for index in 0..layout.stops.len() {
            self.stop(index, &mut actions);
        }
        let last = layout.stops.last().map_or(layout.first, Stop::after);
        let end = Action::End(self.set(level_of(last)));
        let wheels = layout.wheels[layout.wheels.len() - 1];
        actions.push(whole(end, self.line.length(), last, wheels));
        actions
    }

    /// The changes of one stop, and the change of wheels before, with or after them.
    fn stop(&self, index: usize, actions: &mut Vec<PlannedAction>) {
        let layout = self.layout;
        let stop = &layout.stops[index];
        let (from, to) = (layout.wheels[index], layout.wheels[index + 1]);
        let wheels_at = layout.wheels_at[index];
        let before = stop.steps[0].change.before();
        let gear = |level| PlannedAction {
            action: Action::Gear { from, to },
            at: wheels_at,
            level,
            wheels: to,
            ends: self.ground.supply.light,
            pin: None,
            wheels_pin: layout.pinned_intervals[index + 1],
            carrier_pin: None,
        };
        let is_early = wheels_at < stop.at;
        if from != to && is_early {
            actions.push(gear(before));
        }
        let fitted = if is_early { to } else { from };
        for step in &stop.steps {
            let wheels_pin = layout.pinned_intervals[index + 1].filter(|_| from == to);
            let change = self.change(step, stop.at, fitted);
            actions.extend(change.map(|change| PlannedAction {
                wheels_pin,
                ..change
            }));
        }
        if from != to && !is_early {
            actions.push(gear(stop.after()));
        }
    }

    fn change(&self, step: &Step, at: Length, wheels: Wheels) -> Option<PlannedAction> {
        let supply = self.ground.supply;
        let (lower, upper) = (
            self.ground.levels[step.change.lower],
            self.ground.levels[step.change.lower + 1],
        );
        let (action, ends) = if lower.heavy < upper.heavy {
            let carrier = *self.heavier.get(lower.heavy as usize)?;
            let (from, to) = if step.change.rising {
                (supply.light, supply.heavy)
            } else {
                (supply.heavy, supply.light)
            };
            (Action::Swap { carrier, from, to }, to)
        } else {
            let carrier = self.ladder.step_above(lower.threads)?;
            let ends = supply.light;
            let action = if step.change.rising {
                Action::Add { carrier, ends }
            } else {
                Action::Drop { carrier, ends }
            };
            (action, ends)
        };
        Some(PlannedAction {
            action,
            at,
            level: step.change.after(),
            wheels,
            ends,
            pin: step.pinned,
            wheels_pin: None,
            carrier_pin: self.carrier_pin(lower, upper),
        })
    }

    /// The pin that names the carrier of a step: one of threads for an added carrier, one of swaps for a swapped one.
    fn carrier_pin(&self, lower: Level, upper: Level) -> Option<usize> {
        let is_swap = upper.heavy > lower.heavy;
        let of_step = |&&(level, index): &&(Level, usize)| {
            let is_of_swap = matches!(self.pins[index], Pin::Swap { .. });
            level == lower && is_of_swap == is_swap
        };
        self.carrier_pins
            .iter()
            .find(of_step)
            .map(|&(_, index)| index)
    }
}
