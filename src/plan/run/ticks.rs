//! What a tick takes away, so that a tick taken back brings it back.

use super::Run;
use crate::plan::AdjustedPlan;

/// The ticks of a run made lately: for each the events done before it, and the circuits counted for it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ticks(Vec<(usize, u32)>);

impl Ticks {
    /// The run with the next step done.
    pub fn tick(&mut self, run: Run, adjusted: &AdjustedPlan) -> Run {
        self.0.push((run.done, run.circuits));
        run.tick(adjusted)
    }

    /// The run with the last step not done after all, or what went otherwise since removed. The circuits counted for that step
    /// count again.
    pub fn take_back(&mut self, run: Run, adjusted: &AdjustedPlan) -> Run {
        let mishaps = run.mishaps.len();
        let mut back = run.back(adjusted);
        if back.mishaps.len() < mishaps {
            return back;
        }
        let last = self.0.pop().filter(|(done, _)| *done == back.done);
        back.circuits = last.map_or(0, |(_, circuits)| circuits);
        back
    }
}
