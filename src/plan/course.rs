//! A line while it is braided: what was done, and what is still to do.

use super::outcome;
use super::schedule::Schedule;
use super::{Action, Event, Plan, Set};
use crate::design::Design;
use crate::layout::pins::{self, Pin};
use crate::layout::{Done, Entry, Ground, Layout};
use crate::stretch::BraidedLine;
use crate::takeoff::Wheels;
use crate::threads::Change;
use crate::units::{Length, Mass};
use crate::weight::Verdict;

/// The schedule of a line as it is really braided, and the line it makes.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// What was done, at its real places, and behind it what is to do.
    pub events: Vec<Event>,
    /// The line.
    pub line: BraidedLine,
    /// Mass of its first 30 ft, when it is long enough.
    pub head_mass: Option<Mass>,
    /// What class that makes.
    pub verdict: Verdict,
}

impl Course {
    /// Carriers engaged once so many events are done.
    pub fn engaged(&self, done: usize) -> Set {
        super::engaged(self.events.iter().take(done))
    }
}

impl Plan {
    /// The course of a line braided as planned.
    pub fn course(&self) -> Course {
        Course {
            events: self.events.clone(),
            line: self.line.clone(),
            head_mass: self.head_mass,
            verdict: self.verdict,
        }
    }

    /// The course of a line of which `done` was done, each event at its real place, and whose rest is laid out anew from where
    /// the machine stands. `self` is the plan of `design`: carriers keep their order. What is done never changes.
    pub fn resumed(&self, design: &Design, done: &[Event], at: Length) -> Course {
        let ground = Ground::of(design);
        let start = (self.layout.first, self.layout.wheels[0]);
        let (level, wheels) = fitted(&ground, start, done);
        let at = at.min(self.length);
        let pinned = behind(&design.pins(), at);
        let rest = ground.behind(at).map(|rest| {
            let entry = Entry {
                level,
                wheels,
                range: self.layout.level_range(),
            };
            let layout = rest.lay_out_from(&entry, &pinned);
            (rest, layout)
        });
        let layout = rest.as_ref().map(|(_, layout)| (at, layout));
        let pieces = ground.pieces_after(start, &deeds(&ground, done), layout);
        let line = ground.making.braid(&pieces);
        let mut events = done.to_vec();
        let events_behind = match &rest {
            Some((rest, layout)) => self.events_behind(rest, layout, &pinned, at),
            None => vec![self.end(&ground, (level, wheels))],
        };
        events.extend(events_behind);
        measure(&mut events, done.len(), &line);
        let missing = self.head.missing(self.length);
        let head_mass = missing
            .is_none()
            .then(|| line.mass(self.head.from, self.head.to));
        Course {
            events,
            line,
            head_mass,
            verdict: Verdict::on(head_mass, missing),
        }
    }

    /// The schedule of the rest, its places counted from the tip of the whole line.
    fn events_behind(
        &self,
        rest: &Ground,
        layout: &Layout,
        pinned: &[Pin],
        at: Length,
    ) -> Vec<Event> {
        let most = rest.levels[self.layout.level_range().1].threads;
        let schedule = Schedule {
            ground: rest,
            layout,
            line: &rest.braid(layout),
            ladder: &self.ladder,
            heavier: &self.heavier,
            carrier_pins: &outcome::carrier_pins(pinned, layout, most),
            pins: pinned,
        };
        let behind = schedule.events().into_iter().skip(1);
        behind
            .map(|event| Event {
                // The sum may miss the end of the line by a rounding.
                at: match event.action {
                    Action::End(_) => self.length,
                    _ => (event.at + at).min(self.length),
                },
                pin: None,
                wheels_pin: None,
                carrier_pin: None,
                ..event
            })
            .collect()
    }

    fn end(&self, ground: &Ground, (level, wheels): (usize, Wheels)) -> Event {
        let mut end = self.events[self.events.len() - 1].clone();
        end.level = ground.levels[level];
        end.wheels = wheels;
        end.action = Action::End(self.set_of(ground, level));
        end
    }

    /// The carriers engaged at a level, with their ends.
    fn set_of(&self, ground: &Ground, level: usize) -> Set {
        let schedule = Schedule {
            ground,
            layout: &self.layout,
            line: &self.line,
            ladder: &self.ladder,
            heavier: &self.heavier,
            carrier_pins: &[],
            pins: &[],
        };
        schedule.set(ground.levels[level])
    }
}

/// Level and wheels on the machine once this is done.
fn fitted(ground: &Ground, start: (usize, Wheels), done: &[Event]) -> (usize, Wheels) {
    let Some(last) = done.last() else {
        return start;
    };
    let level = ground.levels.iter().position(|&level| level == last.level);
    (level.unwrap_or(start.0), last.wheels)
}

/// What was done, as the layout knows it.
fn deeds(ground: &Ground, done: &[Event]) -> Vec<(Length, Done)> {
    let deed = |event: &Event| {
        if let Action::Gear { to, .. } = event.action {
            return Some((event.at, Done::Wheels(to)));
        }
        let (lower, rising) = event.change()?;
        let lower = ground.levels.iter().position(|&level| level == lower)?;
        let at = event.at;
        Some((at, Done::Level(Change { lower, rising, at })))
    };
    done.iter().filter_map(deed).collect()
}

/// Pins of what lies behind a place, counted from there. Pins of carriers are the ladder's business.
fn behind(all: &[Pin], from: Length) -> Vec<Pin> {
    let behind = |pin: &Pin| match *pin {
        Pin::Place { lower, rising, at } => (at > from).then_some(Pin::Place {
            lower,
            rising,
            at: at - from,
        }),
        Pin::Wheels {
            level,
            near,
            wheels,
        } => (near > from).then_some(Pin::Wheels {
            level,
            near: near - from,
            wheels,
        }),
        pins::Pin::Carrier { .. } | pins::Pin::Swap { .. } => None,
    };
    all.iter().filter_map(behind).collect()
}

/// Lengths and circuits between one event and the next: of those that are new, and of what was done elsewhere than planned.
fn measure(events: &mut [Event], new: usize, line: &BraidedLine) {
    for index in 1..events.len() {
        let (before, at) = (events[index - 1].at, events[index].at);
        if index < new && events[index].since == at - before {
            continue;
        }
        events[index].since = at - before;
        events[index].circuits = if before < at {
            line.circuits(before, at)
        } else {
            0.0
        };
    }
}
