//! A line at the machine: what is done, where the machine stands, and what did not go as planned.
//!
//! A [`Run`] is plain data, kept in the record of the line at every tick. Together with the design it was begun with it gives the
//! [`AdjustedPlan`]: what was done at its real places, and what is to do. After a mishap what was missed is made up
//! for; what is braided never changes.
//!
//! All that is changed at one place is one step: it is shown, ticked and taken back together.

mod check;
mod check_kind;
mod clock;
mod correction;
mod count;
mod countdown;
mod expected;
mod looks;
mod measured;
mod mishap;
mod now;
mod pace;
mod regearing;
mod setting_up;
mod setup;
mod steps;
mod ticks;
mod timing;

use serde::{Deserialize, Serialize};

use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::design::Design;
use crate::design::settings::POSITION;
use crate::plan::{AdjustedPlan, Event, Plan};
use mishap::{as_planned, last_stop};

pub use check::{Check, CheckLevel, CheckRange, Judgement, MOST_CHECKS, NoCheck};
pub use check_kind::CheckKind;
pub use clock::{MOST_TIMED, RunClock, SurePlace, Timed};
pub use count::{AGREE, CountCause, CountDifference};
pub use countdown::{Countdown, Signal};
pub use expected::Expected;
pub use looks::{AWAY, Between, Look};
pub use measured::{Measured, at_path};
pub use mishap::{MOST_MISHAPS, Mishap, MishapKind, NoMishap};
pub use now::{Now, Proposal};
pub use pace::{PACES, Pace, PaceBasis};
pub use regearing::{OtherGear, Regearing};
pub use setting_up::{LaterBobbin, LeadIn, Setup};
pub use setup::{MOST_SETUP_TICKS, SetupRow};
pub use ticks::Ticks;

/// A line being braided.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// How many events of the adjusted plan are done; the first is the start.
    pub done: usize,
    /// Circuits counted by tap since the last of them.
    #[serde(default)]
    pub circuits: u32,
    /// What did not go as planned, in order.
    #[serde(default, deserialize_with = "bounded_list::<_, _, MOST_MISHAPS>")]
    pub mishaps: Vec<Mishap>,
    /// What of setting up is ticked.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        deserialize_with = "bounded_list::<_, _, MOST_SETUP_TICKS>"
    )]
    pub setup: Vec<SetupRow>,
    /// When the machine ran.
    #[serde(default, skip_serializing_if = "RunClock::is_new")]
    pub clock: RunClock,
    /// What was measured on the way, in order.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        deserialize_with = "bounded_list::<_, _, MOST_CHECKS>"
    )]
    pub checks: Vec<Check>,
}

impl Run {
    /// Whether anything of setting up, clock and checks is in it.
    pub fn has_machine_notes(&self) -> bool {
        let is_corrected = |mishap: &Mishap| mishap.drawn != as_planned();
        !self.setup.is_empty()
            || !self.clock.is_new()
            || !self.checks.is_empty()
            || self.mishaps.iter().any(is_corrected)
    }

    /// The plan adjusted to this run; `plan` is the plan of `design`.
    pub fn adjusted(&self, design: &Design, plan: &Plan) -> AdjustedPlan {
        let mut adjusted = plan.unadjusted();
        for mishap in &self.mishaps {
            adjusted = mishap.changing(adjusted, design, plan);
        }
        adjusted
    }

    /// How many events of an adjusted plan are done: never more than there are.
    pub fn done_of(&self, adjusted: &AdjustedPlan) -> usize {
        self.done.min(adjusted.events.len())
    }

    /// The next event of an adjusted plan.
    pub fn next<'a>(&self, adjusted: &'a AdjustedPlan) -> Option<&'a Event> {
        adjusted.events.get(self.done)
    }

    /// Where the machine is known to stand: at the last event done, or where a later mishap puts it.
    pub fn stands_at(&self, adjusted: &AdjustedPlan) -> Length {
        let done = self.done_of(adjusted);
        let last = done
            .checked_sub(1)
            .map_or(Length::ZERO, |last| adjusted.events[last].at);
        let since = self.mishaps.last().filter(|mishap| mishap.done == done);
        since.map_or(last, |mishap| Length::from_metres(mishap.at_m).max(last))
    }

    /// The run when the machine stands at a place, and what was to be done before it was not.
    ///
    /// # Errors
    /// [`NoMishap`] where it cannot stand there, where the line is not begun, or where nothing was passed over before it.
    pub fn standing_at(
        &self,
        adjusted: &AdjustedPlan,
        kind: MishapKind,
        at: Length,
    ) -> Result<Self, NoMishap> {
        let done = self.done_of(adjusted);
        let last = done.checked_sub(1).ok_or(NoMishap::NotBegun)?;
        let last = adjusted.events[last].at;
        let length = adjusted.line.length();
        if at < last {
            return Err(NoMishap::BeforeDone(last));
        }
        if at > length {
            return Err(NoMishap::AfterEnd(length));
        }
        let next = adjusted.events.get(done).map_or(length, |event| event.at);
        if kind == MishapKind::Skipped && at < next {
            return Err(NoMishap::NotYetDue(next));
        }
        self.with(Mishap {
            kind,
            done,
            at_m: place_on_grid(at),
            late_m: 0.0,
            drawn: as_planned(),
        })
    }

    /// The run when the last stop was really made later than planned: all that was done there together.
    ///
    /// # Errors
    /// [`NoMishap`] where that is before the previous stop, or after the end.
    pub fn made_late(&self, adjusted: &AdjustedPlan, by: Length) -> Result<Self, NoMishap> {
        let done = self.done_of(adjusted);
        let stop = last_stop(&adjusted.events[..done]);
        let before = stop.checked_sub(1).ok_or(NoMishap::NothingDone)?;
        let planned = adjusted.events[stop].at;
        let (at, before) = (planned + by, adjusted.events[before].at);
        if at < before {
            return Err(NoMishap::BeforeStop(before));
        }
        if at > adjusted.line.length() {
            return Err(NoMishap::AfterEnd(adjusted.line.length()));
        }
        // A place entered since then still holds.
        let stands = self.stands_at(adjusted);
        let stands = if stands > planned { stands.max(at) } else { at };
        self.with(Mishap {
            kind: MishapKind::Late,
            done,
            at_m: place_on_grid(stands),
            late_m: on_grid_signed(by),
            drawn: as_planned(),
        })
    }

    fn with(&self, mishap: Mishap) -> Result<Self, NoMishap> {
        if self.mishaps.len() >= MOST_MISHAPS {
            return Err(NoMishap::TooMany);
        }
        // At which moment it is taken is not known yet: the clock is set then.
        let mut run = self.clone();
        if mishap.kind != MishapKind::Late {
            run.circuits = 0;
        }
        run.mishaps.push(mishap);
        Ok(run)
    }
}

/// A length to a tenth of a millimetre, so that text and number are the same.
fn on_grid(at: Length) -> f64 {
    POSITION.value(POSITION.quanta(at.metres()))
}

/// A place to a tenth of a millimetre, never after it: rounding must not run past a step that is due there.
fn place_on_grid(at: Length) -> f64 {
    let steps = POSITION.quanta(at.metres());
    let is_behind = POSITION.value(steps) > at.metres();
    POSITION.value(if is_behind {
        steps.saturating_sub(1)
    } else {
        steps
    })
}

fn on_grid_signed(by: Length) -> f64 {
    on_grid(by.abs()).copysign(by.metres())
}
