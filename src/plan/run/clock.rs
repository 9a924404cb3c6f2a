//! The clock of a run: since when the machine runs, and for which stretches time and circuits are known.
//!
//! The clock knows only what the maker says: that the machine runs, that it was stopped, that a step is done, what a counter shows.
//! Moments are milliseconds since 1970 in universal time, so that summer time changes nothing.

use serde::{Deserialize, Serialize};

use crate::base::bounded::bounded_list;

/// Most timed stretches kept of a run; the oldest are dropped for new ones.
pub const MOST_TIMED: usize = 200;
/// Shortest stretch from which a pace is learnt, in seconds. Our own choice: a press is late by some seconds.
const LEAST_SECONDS: f64 = 20.0;
/// Fewest circuits from which a pace is learnt. Our own choice: circuits are counted as whole ones.
const FEWEST_CIRCUITS: f64 = 10.0;
/// A stretch cannot be longer than this, in seconds. Our own choice: a line is braided in a day or two.
const MOST_SECONDS: f64 = 200_000.0;

/// When the machine ran.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunClock {
    /// The moment since which the machine runs; nothing while it is stopped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub running_since: Option<f64>,
    /// Seconds it ran before that, since the circuits of the run were last set.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub ran: f64,
    /// The last place that is known for sure: a step, or what a counter showed.
    #[serde(default, skip_serializing_if = "is_step")]
    pub sure: SurePlace,
    /// Seconds in doubt: the clocks of the device do not agree about them. Until the maker says what happened, where the machine
    /// is is unknown.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub doubtful: f64,
    /// Stretches of running of which time and circuits are known, oldest first.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        deserialize_with = "bounded_list::<_, _, MOST_TIMED>"
    )]
    pub timed: Vec<Timed>,
    /// Carrier circuits a minute that the maker insists on, in the place of what is learnt.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own_pace: Option<f64>,
}

/// A place on the way to the next step that is known for sure.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SurePlace {
    /// Circuits from the last step to it.
    pub circuits: u32,
    /// Seconds the machine ran since then, up to the moment since which it runs.
    pub ran: f64,
    /// Whether the machine was said to be stopped long after it should have reached its stop: then more than running is in the time.
    #[serde(default, skip_serializing_if = "is_not")]
    pub is_late: bool,
}

/// A stretch of running of which time and circuits are known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Timed {
    /// Carrier circuits.
    pub circuits: f64,
    /// Seconds the machine ran for them.
    pub seconds: f64,
    /// Whether the work at the stop may be in the time: the step was ticked before the machine was said to be stopped, or that was
    /// said long after.
    #[serde(default, skip_serializing_if = "is_not")]
    pub with_stop: bool,
}

// Serde hands the fields over by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_zero(seconds: &f64) -> bool {
    *seconds == 0.0
}

#[allow(clippy::trivially_copy_pass_by_ref)]
const fn is_not(said: &bool) -> bool {
    !*said
}

fn is_step(place: &SurePlace) -> bool {
    *place == SurePlace::default()
}

/// A number to thousandths, so that it reads back from a file as it is: seconds of a clock have no more.
pub(super) fn in_thousandths(number: f64) -> f64 {
    let number = number.clamp(-MOST_SECONDS, MOST_SECONDS);
    (1000.0 * number).round() / 1000.0
}

impl RunClock {
    /// Whether nothing was ever timed.
    pub fn is_new(&self) -> bool {
        *self == Self::default()
    }

    /// Whether the machine runs, as far as the maker said.
    pub fn is_running(&self) -> bool {
        self.running_since.is_some()
    }

    /// Seconds the machine ran since the circuits of the run were last set; `None` where that cannot be known: the clock of the
    /// device is before the moment the machine was started, or so far after it that no line takes as long, or in doubt.
    pub fn ran_until(&self, now: f64) -> Option<f64> {
        if self.doubtful != 0.0 {
            return None;
        }
        let since = self
            .running_since
            .map_or(0.0, |since| (now.round() - since) / 1000.0);
        let ran = self.ran + since;
        (since >= 0.0 && (0.0..=MOST_SECONDS).contains(&ran)).then_some(ran)
    }

    /// All seconds up to a moment are counted as run. Where they cannot be known they become doubtful.
    pub(super) fn counted_until(&mut self, now: f64) {
        let Some(since) = self.running_since else {
            return;
        };
        let now = now.round();
        self.running_since = Some(now);
        let seconds = (now - since) / 1000.0;
        if (0.0..=MOST_SECONDS).contains(&seconds) {
            self.ran = in_thousandths(self.ran + seconds);
            self.sure.ran = in_thousandths(self.sure.ran + seconds);
        } else {
            self.doubtful = seconds.clamp(-MOST_SECONDS, MOST_SECONDS);
        }
    }

    /// Notes a stretch from the last sure place, where it is long enough and nothing about it is in doubt.
    pub(super) fn note(&mut self, circuits: f64, with_stop: bool) {
        let circuits = circuits - f64::from(self.sure.circuits);
        let seconds = self.sure.ran;
        let is_known = self.doubtful == 0.0 && seconds <= MOST_SECONDS;
        if is_known && seconds >= LEAST_SECONDS && circuits >= FEWEST_CIRCUITS {
            if self.timed.len() >= MOST_TIMED {
                self.timed.remove(0);
            }
            self.timed.push(Timed {
                circuits: in_thousandths(circuits),
                seconds,
                with_stop: with_stop || self.sure.is_late,
            });
        }
    }

    /// From now on time and circuits are counted from a sure place.
    pub(super) fn is_sure_at(&mut self, circuits: u32) {
        self.ran = 0.0;
        self.doubtful = 0.0;
        self.sure = SurePlace {
            circuits,
            ..SurePlace::default()
        };
    }
}
