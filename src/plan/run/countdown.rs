//! What the clock says of the way to the next stop.

use super::{Now, Pace, PaceBasis, Run};
use crate::plan::Plan;

/// A machine that should have reached its stop is believed to run on for so many circuits. After that it is somewhere else, or stopped.
/// Our own choice: half a minute at the usual pace.
const BELIEVED: f64 = 20.0;
/// More than so large a share of the way is not believed either. Our own choice.
const BELIEVED_SHARE: f64 = 0.02;

/// A step ticked before this share of its way is done seems to be ticked by mistake. Our own choice.
const EARLY: f64 = 0.9;
/// The same where the pace was never timed.
const EARLY_UNTIMED: f64 = 0.4;

/// The way to the next stop at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Countdown {
    /// Circuits of the whole way since the last step.
    pub wanted: f64,
    /// Circuits done of it, by count and clock; `None` where that is unknown.
    pub done: Option<f64>,
    /// Whether the machine runs, as far as the maker said.
    pub is_running: bool,
    /// Whether it ran on this way.
    pub has_run: bool,
    /// Its pace.
    pub pace: Pace,
}

impl Run {
    /// Circuits of the way to the next step; at the start those of the lead-in.
    pub fn wanted(&self, now: &Now, plan: &Plan) -> f64 {
        if self.done == 0 {
            plan.workload.lead_in
        } else {
            now.circuits
        }
    }
}

impl Countdown {
    /// What count and clock say at a moment; `wanted` are the circuits of the way.
    pub fn of(run: &Run, wanted: f64, pace: Pace, now: f64) -> Self {
        let counted = f64::from(run.circuits);
        let ran = run.clock.ran_until(now);
        Self {
            wanted,
            done: ran.map(|ran| counted + pace.circuits_in(ran)),
            is_running: run.clock.is_running(),
            has_run: run.clock.is_running() || run.clock.sure.ran > 0.0,
            pace,
        }
    }

    /// Whether there is a way at all.
    pub fn has_way(&self) -> bool {
        self.wanted > 0.0
    }

    /// Circuits still to do; 0 where the stop is reached, `None` where that is unknown: the maker must look.
    pub fn left(&self) -> Option<f64> {
        let left = self.wanted - self.done?;
        (!self.is_long_past()).then_some(left.max(0.0))
    }

    /// Seconds until the stop while the machine runs; `None` where that is unknown.
    pub fn seconds(&self) -> Option<f64> {
        self.left().map(|left| self.pace.seconds_for(left))
    }

    /// The moment of the stop, for a machine that runs from now on without a stop.
    pub fn due(&self, now: f64) -> Option<f64> {
        self.seconds().map(|seconds| now + 1000.0 * seconds)
    }

    /// Whether the pace is more than the speed that is set: it was timed, or the maker insists on it.
    pub fn is_timed(&self) -> bool {
        self.pace.basis != PaceBasis::Settings
    }

    /// Circuits past the stop, if the machine still runs.
    pub fn past(&self) -> f64 {
        self.done.map_or(0.0, |done| (done - self.wanted).max(0.0))
    }

    /// Whether the stop was so long ago that nobody believes the machine to run on.
    pub fn is_long_past(&self) -> bool {
        self.is_running && self.past() > BELIEVED.max(BELIEVED_SHARE * self.wanted)
    }

    /// Whether much less than the whole way is done, by a machine that ran: a step is hardly done then. A speed that nobody timed may be
    /// far off.
    pub fn seems_early(&self) -> bool {
        let share = if self.is_timed() {
            EARLY
        } else {
            EARLY_UNTIMED
        };
        self.has_run && self.done.is_some_and(|done| done < share * self.wanted)
    }

    /// How much of the way is done, as a share; `None` where that is unknown.
    pub fn share(&self) -> Option<f64> {
        let left = self.left()?;
        (self.wanted > 0.0).then(|| 1.0 - left / self.wanted)
    }

    /// What the maker is to hear between two moments: the last of it.
    pub fn signal_since(&self, before: &Self, lead: f64) -> Option<Signal> {
        let (was, is) = (before.done?, self.done?);
        let passed = |circuits: f64| was < circuits && circuits <= is;
        if !self.is_running || !self.has_way() {
            None
        } else if passed(self.wanted) {
            Some(Signal::Stop)
        } else {
            // Where the whole way is shorter, the stop itself is near enough.
            (lead > 0.0 && lead < self.wanted && passed(self.wanted - lead)).then_some(Signal::Soon)
        }
    }
}

/// What the maker hears and feels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signal {
    /// The stop is near.
    Soon,
    /// This is the stop.
    Stop,
}
