//! What a tick or a correction takes away, so that taking it back brings it back.

use super::{Mishap, Run, RunClock};
use crate::plan::AdjustedPlan;

/// How far a run was before a tick or a correction.
#[derive(Clone, Debug, PartialEq)]
struct Before {
    done: usize,
    mishaps: usize,
    circuits: u32,
    clock: RunClock,
}

/// The ticks and corrections of a run made lately.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ticks(Vec<Before>);

impl Ticks {
    /// The run with the next step done at a moment; `wanted` are the circuits of the way to it; it may be done early.
    pub fn tick(
        &mut self,
        run: Run,
        adjusted: &AdjustedPlan,
        (wanted, is_early): (f64, bool),
        now: f64,
    ) -> Run {
        self.note(&run);
        run.step_done(adjusted, wanted, is_early, now)
    }

    /// The run with a correction, as [`Run::taking`] has it.
    pub fn take(&mut self, run: Run, correction: Mishap, since: u32, now: f64) -> Run {
        self.note(&run);
        run.taking(correction, since, now)
    }

    /// The run with the last step not done after all, or without the last correction. The circuits counted before it and their time count
    /// again; the maker's own pace stays.
    pub fn take_back(&mut self, run: Run, adjusted: &AdjustedPlan) -> Run {
        let own_pace = run.clock.own_pace;
        let mut back = run.back(adjusted);
        let is_same =
            |before: &mut Before| (before.done, before.mishaps) == (back.done, back.mishaps.len());
        if let Some(before) = self.0.pop_if(is_same) {
            back.circuits = before.circuits;
            back.clock = before.clock;
            back.clock.own_pace = own_pace;
        }
        back
    }

    fn note(&mut self, run: &Run) {
        self.0.push(Before {
            done: run.done,
            mishaps: run.mishaps.len(),
            circuits: run.circuits,
            clock: run.clock.clone(),
        });
    }
}
