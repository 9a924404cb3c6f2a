//! What a maker at the machine needs to know at this moment.

use super::{Regearing, Run};
use crate::base::units::{Length, Mass};
use crate::braid::weight::Verdict;
use crate::design::Design;
use crate::plan::{AdjustedPlan, Event, Plan, Set};

/// Most steps shown ahead, the next one left out.
const AHEAD: usize = 2;

/// The step to do now, and the way to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// Its place among all steps, counted from 0; their number when all are done.
    pub index: usize,
    /// How many steps there are.
    pub count: usize,
    /// The step: all that is changed at one place; nothing when all are done.
    pub step: Vec<Event>,
    /// Where the machine is known to stand.
    pub stands: Length,
    /// Line to run until the step; after the start the lead-in is done.
    pub remaining: Length,
    /// Carrier circuits for that.
    pub circuits: f64,
    /// Crossings along one rib in it.
    pub crossings: f64,
    /// Turns of the handle for it; 0 where a motor drives.
    pub turns: f64,
    /// Minutes for it at the maker's speed.
    pub minutes: f64,
    /// Carriers engaged, with their ends; before the start those to be threaded.
    pub engaged: Set,
    /// The steps after it.
    pub ahead: Vec<Vec<Event>>,
}

impl Now {
    /// What is to do in a run.
    pub fn of(run: &Run, adjusted: &AdjustedPlan, plan: &Plan) -> Self {
        let (index, count) = run.steps_of(adjusted);
        let mut steps = run.steps_ahead(adjusted).map(<[Event]>::to_vec);
        let step = steps.next().unwrap_or_default();
        let stands = run.stands_at(adjusted);
        let at = step.first().map_or(stands, |event| event.at);
        let remaining = (at - stands).max(Length::ZERO);
        let is_way = remaining > Length::ZERO;
        let circuits = if is_way {
            adjusted.line.circuits(stands, at)
        } else {
            0.0
        };
        let per_metre = adjusted.line.station_before(at).braid.crossings_per_metre();
        Self {
            index,
            count,
            stands,
            remaining,
            circuits,
            crossings: remaining.metres() * per_metre,
            turns: circuits * plan.workload.handle_turns,
            minutes: circuits / plan.workload.speed,
            engaged: adjusted.engaged(run.done_of(adjusted).max(1)),
            ahead: steps.take(AHEAD).collect(),
            step,
        }
    }

    /// The first thing to do of the step; `None` when all are done.
    pub fn event(&self) -> Option<&Event> {
        self.step.first()
    }

    /// How much of the line is braided, as a share of it.
    pub fn share(&self, line: Length) -> f64 {
        (self.stands / line).clamp(0.0, 1.0)
    }
}

/// What would follow from a mishap, before the maker accepts it.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// The run with it.
    pub run: Run,
    /// The head as it would have been.
    pub before: Option<Mass>,
    /// The head as it would be.
    pub after: Option<Mass>,
    /// Its class then.
    pub verdict: Verdict,
    /// The step that would be next; nothing when all are done.
    pub next: Vec<Event>,
    /// How the gears change, where a check asks for others.
    pub regearing: Option<Regearing>,
}

impl Proposal {
    /// What follows when a run becomes another.
    pub fn of(run: Run, now: &AdjustedPlan, design: &Design, plan: &Plan) -> Self {
        let adjusted = run.adjusted(design, plan);
        Self {
            before: now.head_mass,
            after: adjusted.head_mass,
            verdict: adjusted.verdict,
            next: run
                .steps_ahead(&adjusted)
                .next()
                .unwrap_or_default()
                .to_vec(),
            regearing: None,
            run,
        }
    }
}
