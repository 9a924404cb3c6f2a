//! The rest of a line with other gears, when a check has shown that the take-off draws more or less than its gears should.
//!
//! What is braided never changes, and neither do the changes of thread that are still to do, nor their places. Only gears are chosen
//! again, by [`crate::braid::gearing`] and with the same price of a change: where the machine stands, and at the stops that are
//! there. None is fitted between stops: what the layout did to centre a slow change of the angle is dropped for the rest, since a
//! take-off that is off by some percent is not known well enough for that. Gears that the maker pinned give way: they were
//! chosen for a take-off that draws as its gears should.

use super::AdjustedPlan;
use super::catching_up::LEAST_REST;
use super::drawn::{Drawn, known_from};
use crate::base::units::Length;
use crate::braid::gearing::Interval;
use crate::design::Design;
use crate::plan::contents::Plan;
use crate::plan::event::{Action, Event};
use crate::plan::layout::Ground;

impl Plan {
    /// An adjusted plan when so much is drawn from the last of `done` events on, and nothing is done about it: the gears stay as
    /// they were planned.
    pub(in crate::plan) fn drawing(
        &self,
        design: &Design,
        adjusted: &AdjustedPlan,
        done: usize,
        factor: f64,
    ) -> AdjustedPlan {
        let known = known(adjusted, done, factor);
        if known == adjusted.drawn {
            return adjusted.clone();
        }
        let ground = Ground::of(design);
        self.made_of(&ground, adjusted.events.clone(), done, known)
    }

    /// An adjusted plan when so much is drawn from the last of `done` events on, while the machine stands at a place: with the gears
    /// that then bring the angle nearest to the target. Where that was known already, nothing changes.
    pub(in crate::plan) fn regeared(
        &self,
        design: &Design,
        adjusted: AdjustedPlan,
        (done, at): (usize, Length),
        factor: f64,
    ) -> AdjustedPlan {
        let known = known(&adjusted, done, factor);
        if known == adjusted.drawn {
            return adjusted;
        }
        let ground = Ground::of(design);
        let mut events = adjusted.events;
        if self.length - at >= LEAST_REST {
            let drawing = ground.drawing(factor);
            let rest = events.split_off(done);
            let again = with_gears(&drawing, &events, &rest, (at, self.length));
            events.extend(again);
        }
        self.made_of(&ground, events, done, known)
    }
}

fn known(adjusted: &AdjustedPlan, done: usize, factor: f64) -> Vec<Drawn> {
    let last = done
        .checked_sub(1)
        .and_then(|last| adjusted.events.get(last));
    let from = last.map_or(Length::ZERO, |last| last.at);
    known_from(&adjusted.drawn, from, factor)
}

/// The changes of thread made at one place, none where the machine stands between stops.
struct Changes {
    at: Length,
    events: Vec<Event>,
}

/// What is still to do, with gears chosen again for the stretch from `at` to the end of the line.
fn with_gears(
    ground: &Ground,
    done: &[Event],
    rest: &[Event],
    (at, length): (Length, Length),
) -> Vec<Event> {
    let (Some(last), Some(end)) = (done.last(), rest.last()) else {
        return rest.to_vec();
    };
    let mut stops = vec![Changes {
        at,
        events: Vec::new(),
    }];
    for event in rest.iter().filter(|event| event.action.is_of_threads()) {
        match stops.last_mut().filter(|stop| event.at <= stop.at) {
            Some(stop) => stop.events.push(event.clone()),
            None => stops.push(Changes {
                at: event.at,
                events: vec![event.clone()],
            }),
        }
    }
    let index = |event: &Event| {
        let mut levels = ground.levels.iter();
        levels.position(|&level| level == event.level).unwrap_or(0)
    };
    let mut load = index(last);
    // What is fitted now stands for itself: leaving it costs what every change costs.
    let mut intervals = vec![Interval {
        load,
        length: Length::ZERO,
        pinned: Some(last.wheels),
    }];
    let ends = stops.iter().skip(1).map(|stop| stop.at).chain([length]);
    for (stop, to) in stops.iter().zip(ends) {
        load = stop.events.last().map_or(load, index);
        intervals.push(Interval {
            load,
            length: to - stop.at,
            pinned: None,
        });
    }
    let chosen = ground.wheels_for(&intervals);
    let mut events = Vec::with_capacity(rest.len());
    let (mut fitted, mut level) = (last.wheels, last.level);
    for (stop, wheels) in stops.into_iter().zip(chosen.into_iter().skip(1)) {
        for event in stop.events {
            level = event.level;
            events.push(Event {
                wheels: fitted,
                wheels_pin: None,
                ..event
            });
        }
        if wheels != fitted {
            events.push(Event {
                action: Action::Gear {
                    from: fitted,
                    to: wheels,
                },
                at: stop.at,
                level,
                ends: ground.supply.light,
                wheels,
                pin: None,
                wheels_pin: None,
                carrier_pin: None,
                ..last.clone()
            });
            fitted = wheels;
        }
    }
    events.push(Event {
        wheels: fitted,
        wheels_pin: None,
        ..end.clone()
    });
    events
}
