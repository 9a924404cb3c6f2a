//! A plan adjusted to what really happened at the machine: what was done, and what is still to do.
//!
//! After a mishap the rest is not laid out again from the drawing: the levels between two stops are those of the layout, moved
//! for mass and late angles, and a new layout would undo what was just done. Instead what was missed is made up for where the
//! machine stands, without pairs that cancel each other, and the rest keeps its places.

mod catching_up;
mod drawn;
mod regeared;

use super::contents::Plan;
use super::event::{Action, Event, Set, engaged};
use super::schedule;
use crate::base::units::{Length, Mass};
use crate::braid::stretch::BraidedLine;
use crate::braid::threads::Change;
use crate::braid::weight::Verdict;
use crate::design::Design;
use crate::plan::layout::{Done, Ground};
use catching_up::CatchingUp;

pub use drawn::Drawn;

/// The schedule of a line as it is really braided, and the line it makes.
#[derive(Clone, Debug, PartialEq)]
pub struct AdjustedPlan {
    /// What was done, at its real places, and then what is still to do.
    pub events: Vec<Event>,
    /// The line.
    pub line: BraidedLine,
    /// Mass of its first 30 ft, when it is long enough.
    pub head_mass: Option<Mass>,
    /// What class that makes.
    pub verdict: Verdict,
    /// Where the take-off draws more or less than its gears should, in order of place.
    pub drawn: Vec<Drawn>,
}

impl AdjustedPlan {
    /// Length drawn in one circuit at a place over what the gears should draw.
    pub fn drawn_at(&self, at: Length) -> f64 {
        drawn::factor_at(&self.drawn, at)
    }

    /// Carriers engaged once the first `done` events are done.
    pub fn engaged(&self, done: usize) -> Set {
        engaged(self.events.iter().take(done))
    }
}

impl Plan {
    /// This plan with nothing adjusted: the line is braided as planned.
    pub fn unadjusted(&self) -> AdjustedPlan {
        AdjustedPlan {
            events: self.events.clone(),
            line: self.line.clone(),
            head_mass: self.head_mass,
            verdict: self.verdict,
            drawn: Vec::new(),
        }
    }

    /// The plan adjusted to a line of which `done` was done, each event at its real place, while the machine stands at a place, and
    /// `rest` was planned to follow; the last of `rest` is the end of the line. `self` is the plan of `design`, and `drawn` what the
    /// take-off draws.
    ///
    /// What is done never changes. What was due before the machine's place and was not done is made up for there. The rest keeps
    /// its places, unless a stop would come too close.
    pub fn resumed(
        &self,
        design: &Design,
        done: &[Event],
        rest: &[Event],
        at: Length,
        drawn: Vec<Drawn>,
    ) -> AdjustedPlan {
        let ground = Ground::of(design);
        let mut events = done.to_vec();
        let catching_up = CatchingUp {
            at: at.min(self.length),
            fitted: done
                .last()
                .map_or(self.layout.wheels[0], |last| last.wheels),
            spacing: ground.spacing,
            length: self.length,
        };
        events.extend(catching_up.rest(done, rest));
        self.made_of(&ground, events, done.len(), drawn)
    }

    /// The line of these events, the first `new` of which were done before, and what becomes of it.
    fn made_of(
        &self,
        ground: &Ground,
        mut events: Vec<Event>,
        new: usize,
        drawn: Vec<Drawn>,
    ) -> AdjustedPlan {
        let start = (self.layout.first, self.layout.wheels[0]);
        let pieces = ground.pieces_after(start, &done_so_far(ground, &events));
        let line = ground.braid_pieces(&drawn::pieces(pieces, &drawn));
        measure(&mut events, new, &line);
        let missing = self.head.missing(self.length);
        let head_mass = missing
            .is_none()
            .then(|| line.mass(self.head.from, self.head.to));
        AdjustedPlan {
            events,
            line,
            head_mass,
            verdict: Verdict::on(head_mass, missing),
            drawn,
        }
    }
}

/// Events in the terms of the layout.
fn done_so_far(ground: &Ground, done: &[Event]) -> Vec<(Length, Done)> {
    let done_by = |event: &Event| {
        if let Action::Gear { to, .. } = event.action {
            return Some((event.at, Done::Wheels(to)));
        }
        let (lower, rising) = event.change()?;
        let lower = ground.levels.iter().position(|&level| level == lower)?;
        let at = event.at;
        Some((at, Done::Level(Change { lower, rising, at })))
    };
    done.iter().filter_map(done_by).collect()
}

/// Lengths, circuits and outcome of what is still to do; lengths also of what was done elsewhere than planned.
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
    schedule::note_outcome(&mut events[new..], line);
}
