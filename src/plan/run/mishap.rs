//! What did not go as planned, and what the plan becomes then.

use serde::{Deserialize, Serialize};

use crate::base::units::Length;
use crate::design::Design;
use crate::plan::{AdjustedPlan, Event, Plan};

/// Most mishaps in a run.
pub const MOST_MISHAPS: usize = 200;

/// Something that did not go as planned, and where the machine stood then.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mishap {
    /// What it was.
    pub kind: MishapKind,
    /// How many events were done by then.
    pub done: usize,
    /// Where the machine stood, metres from the tip.
    pub at_m: f64,
    /// By how much the last event done was made after its planned place, metres; negative where before it.
    #[serde(default)]
    pub late_m: f64,
    /// Length that was really drawn in one circuit, over what the gears should draw: what a check found, from the last stop on.
    #[serde(default = "as_planned", skip_serializing_if = "is_as_planned")]
    pub drawn: f64,
}

/// A take-off that would draw so many times what its gears should, or so small a part of it, is held there.
const MOST_DRAWN: f64 = super::check::MOST_OFF;

/// The gears draw what they should.
pub(super) const fn as_planned() -> f64 {
    1.0
}

// Serde hands the field over by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_as_planned(drawn: &f64) -> bool {
    *drawn == as_planned()
}

/// Kinds of mishap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MishapKind {
    /// The machine stands elsewhere than thought.
    Elsewhere,
    /// The last change was made late, or early.
    Late,
    /// A thread broke and was joined again.
    Broke,
    /// A change was passed over.
    Skipped,
    /// The take-off draws more or less than its gears should; other gears are fitted.
    TakeOff,
}

impl MishapKind {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Elsewhere => "position corrected",
            Self::Late => "step made late or early",
            Self::Broke => "thread broke and was joined",
            Self::Skipped => "step missed",
            Self::TakeOff => "gears corrected after a check",
        }
    }
}

/// Why a mishap cannot be noted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoMishap {
    /// The place is before what is done already.
    BeforeDone(Length),
    /// The last stop cannot have been made before the one before it, which was made here.
    BeforeStop(Length),
    /// The place is after the end of the line.
    AfterEnd(Length),
    /// The line is not begun.
    NotBegun,
    /// The next step is not due before this place: it cannot have been passed over.
    NotYetDue(Length),
    /// Nothing has been done yet that could have been late.
    NothingDone,
    /// There are already as many mishaps as a run can hold.
    TooMany,
}

impl NoMishap {
    /// The message to the maker; `shown` writes a place.
    pub fn words(&self, shown: impl Fn(Length) -> String) -> String {
        match *self {
            Self::BeforeDone(last) => format!(
                "The last step was made at {}: the machine cannot be before it. Undo that step first.",
                shown(last)
            ),
            Self::BeforeStop(before) => format!(
                "The step before was made at {}: this one cannot have been made before that.",
                shown(before)
            ),
            Self::AfterEnd(length) => {
                format!("The line ends at {}. Type a place on it.", shown(length))
            }
            Self::NotBegun => "The line is not started. Do the first step and tick it.".to_owned(),
            Self::NotYetDue(next) => format!(
                "The next step is not due before {}. If the machine is at another place than you thought, type the place.",
                shown(next)
            ),
            Self::NothingDone => "No step is done yet, so none can have been late.".to_owned(),
            Self::TooMany => {
                format!("There is no room for more than {MOST_MISHAPS} corrections of one line.")
            }
        }
    }
}

impl core::fmt::Display for NoMishap {
    fn fmt(&self, out: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        out.write_str(&self.words(|at| format!("{:.3} m", at.metres())))
    }
}

impl Mishap {
    /// The adjusted plan after this mishap.
    pub(super) fn changing(
        &self,
        adjusted: AdjustedPlan,
        design: &Design,
        plan: &Plan,
    ) -> AdjustedPlan {
        let done = self.done.clamp(1, adjusted.events.len());
        if self.kind == MishapKind::TakeOff {
            return self.correcting(adjusted, design, plan, done);
        }
        let (before, rest) = adjusted.events.split_at(done);
        let mut events = before.to_vec();
        let stop = last_stop(&events);
        let least = stop
            .checked_sub(1)
            .map_or(Length::ZERO, |before| events[before].at);
        let moved = events[stop].at + Length::from_metres(self.late_m);
        let moved = moved.max(least).min(plan.length);
        let at = Length::from_metres(self.at_m).max(moved);
        let is_late = self.late_m != 0.0;
        let is_overdue = rest.first().is_some_and(|next| next.at < at);
        if !is_late && !is_overdue {
            return adjusted;
        }
        if is_late {
            events[stop..].iter_mut().for_each(|event| event.at = moved);
        }
        plan.resumed(design, &events, rest, at, adjusted.drawn)
    }

    /// The adjusted plan after a correction of the gears.
    fn correcting(
        &self,
        adjusted: AdjustedPlan,
        design: &Design,
        plan: &Plan,
        done: usize,
    ) -> AdjustedPlan {
        let (before, rest) = adjusted.events.split_at(done);
        let last = before.last().map_or(Length::ZERO, |last| last.at);
        let at = Length::from_metres(self.at_m).max(last).min(plan.length);
        let is_overdue = rest.first().is_some_and(|next| next.at < at);
        let adjusted = if is_overdue {
            plan.resumed(design, before, rest, at, adjusted.drawn)
        } else {
            adjusted
        };
        plan.regeared(design, adjusted, (done, at), drawn_within(self.drawn))
    }
}

/// What a take-off can draw over what its gears should; a file may hold anything.
pub(super) fn drawn_within(drawn: f64) -> f64 {
    if drawn.is_finite() {
        drawn.clamp(1.0 / MOST_DRAWN, MOST_DRAWN)
    } else {
        as_planned()
    }
}

/// Where among some events those of the last stop begin: all that was done at the same place.
pub(super) fn last_stop(events: &[Event]) -> usize {
    let place = events.last().map(|last| last.at);
    events.partition_point(|event| Some(event.at) < place)
}
