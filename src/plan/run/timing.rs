//! What the maker says of the machine, and what that does to the clock of the run: it was started, stopped, a step is done, a counter
//! was read.

use super::clock::in_thousandths;
use super::{Mishap, MishapKind, Run};
use crate::plan::AdjustedPlan;

impl Run {
    /// The run when the machine is started at a moment. One that runs goes on running.
    #[must_use]
    pub fn started(mut self, now: f64) -> Self {
        self.clock.running_since.get_or_insert(now.round());
        self
    }

    /// The run when the machine is stopped at a moment.
    #[must_use]
    pub fn stopped(mut self, now: f64) -> Self {
        self.clock.counted_until(now);
        self.clock.running_since = None;
        self
    }

    /// The run when the machine is said to be stopped, long after it should have reached its stop. Nothing is learnt of its pace.
    #[must_use]
    pub fn stopped_late(mut self, now: f64) -> Self {
        self.clock.sure.is_late = true;
        self.stopped(now)
    }

    /// The run with the next step done at a moment. The machine is stopped for a step; from the time it took, its pace is learnt.
    /// `wanted` are the circuits of the way to the step. Nothing is learnt where it is done earlier than the clock has it.
    #[must_use]
    pub fn step_done(
        mut self,
        adjusted: &AdjustedPlan,
        wanted: f64,
        is_early: bool,
        now: f64,
    ) -> Self {
        let ran_on = self.clock.is_running();
        self = self.stopped(now);
        if !is_early {
            self.clock.note(wanted, ran_on);
        }
        let done = self.done;
        let mut after = self.tick(adjusted);
        if after.done != done {
            after.clock.is_sure_at(0);
        }
        after
    }

    /// The run when a counter shows so many circuits since the last step. The pace is learnt from it.
    #[must_use]
    pub fn counted_in(mut self, circuits: u32, now: f64) -> Self {
        self.clock.counted_until(now);
        // A reading below the last one shows that the last one was wrong.
        let last = self.clock.timed.last();
        if last.is_some_and(|last| {
            circuits < self.clock.sure.circuits
                && last.circuits <= f64::from(self.clock.sure.circuits)
        }) {
            self.clock.timed.pop();
        }
        self.clock.note(f64::from(circuits), false);
        self.clock.is_sure_at(circuits);
        self.circuits = circuits;
        self
    }

    /// The run with some circuits more than `shown`, or fewer: where the clock has them they are corrected, and nothing is learnt. While
    /// the machine stands they are counted for sure.
    #[must_use]
    pub fn nudged(mut self, shown: u32, by: i32, now: f64) -> Self {
        self.clock.counted_until(now);
        self.circuits = shown.saturating_add_signed(by);
        if self.clock.is_running() {
            self.clock.ran = 0.0;
        } else {
            self.clock.is_sure_at(self.circuits);
        }
        self
    }

    /// The run with a correction that was asked about while the machine ran on; it made so many circuits since. Where the correction
    /// says only that the last step was made elsewhere, what was counted since that step still counts.
    #[must_use]
    pub fn taking(mut self, correction: Mishap, since: u32, now: f64) -> Self {
        if correction.kind != MishapKind::Late {
            self.clock.counted_until(now);
            self.clock.is_sure_at(since);
            self.circuits = since;
        }
        self.mishaps.push(correction);
        self
    }

    /// The run some seconds of which were no running.
    #[must_use]
    pub fn without_seconds(mut self, seconds: f64) -> Self {
        // What was counted before the machine was started last comes first: the moment of that cannot be after now.
        let clock = &mut self.clock;
        let counted = if clock.is_running() {
            seconds.clamp(0.0, clock.ran.max(0.0))
        } else {
            seconds
        };
        for ran in [&mut clock.ran, &mut clock.sure.ran] {
            *ran = in_thousandths(*ran - counted).max(0.0);
        }
        if let Some(since) = &mut clock.running_since {
            *since = (*since + 1000.0 * (seconds - counted)).round();
        }
        self
    }

    /// The run when the clock of the device was set back. What it was set forward before, and nobody said of what it was, is taken
    /// back with it.
    #[must_use]
    pub fn set_back(mut self, seconds: f64) -> Self {
        let doubtful = self.clock.doubtful.max(0.0).min(seconds);
        self.clock.doubtful = in_thousandths(self.clock.doubtful - doubtful);
        self.without_seconds(-seconds).without_seconds(doubtful)
    }

    /// The run of which some seconds more are in doubt.
    #[must_use]
    pub fn in_doubt(mut self, seconds: f64) -> Self {
        self.clock.doubtful = in_thousandths(self.clock.doubtful + seconds);
        self
    }

    /// The run when the maker says of the seconds in doubt whether the machine ran.
    #[must_use]
    pub fn without_doubt(mut self, has_run: bool) -> Self {
        let seconds = core::mem::take(&mut self.clock.doubtful);
        if has_run {
            self
        } else {
            self.without_seconds(seconds)
        }
    }

    /// The run with a pace of the maker's own, in circuits a minute; with none it is learnt.
    #[must_use]
    pub fn with_pace(mut self, pace: Option<f64>) -> Self {
        self.clock.own_pace = pace.map(in_thousandths);
        self
    }
}
