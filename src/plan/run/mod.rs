//! A line at the machine: what is done, where the machine stands, and what did not go as planned.
//!
//! A [`Run`] is plain data, kept in the record of the line at every tick. Together with the design it was begun with it gives the
//! [`AdjustedPlan`]: what was done at its real places, and what is to do. After a mishap what was missed is made up
//! for; what is braided never changes.
//!
//! All that is changed at one place is one step: it is shown, ticked and taken back together.

mod now;
mod steps;
mod ticks;

use serde::{Deserialize, Serialize};

use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::design::Design;
use crate::design::settings::POSITION;
use crate::plan::{AdjustedPlan, Event, Plan};

pub use now::{Now, Proposal};
pub use ticks::Ticks;

/// Most mishaps in a run.
pub const MOST_MISHAPS: usize = 200;

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
}

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
}

impl MishapKind {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Elsewhere => "position corrected",
            Self::Late => "step made late or early",
            Self::Broke => "thread broke and was joined",
            Self::Skipped => "step missed",
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
    fn changing(&self, adjusted: AdjustedPlan, design: &Design, plan: &Plan) -> AdjustedPlan {
        let done = self.done.clamp(1, adjusted.events.len());
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
        plan.resumed(design, &events, rest, at)
    }
}

/// Where among some events those of the last stop begin: all that was done at the same place.
fn last_stop(events: &[Event]) -> usize {
    let place = events.last().map(|last| last.at);
    events.partition_point(|event| Some(event.at) < place)
}

impl Run {
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

    /// The run with `circuits` more counted, or fewer where negative; never below 0.
    #[must_use]
    pub fn count(mut self, circuits: i32) -> Self {
        self.circuits = self.circuits.saturating_add_signed(circuits);
        self
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
        })
    }

    fn with(&self, mishap: Mishap) -> Result<Self, NoMishap> {
        if self.mishaps.len() >= MOST_MISHAPS {
            return Err(NoMishap::TooMany);
        }
        let mut run = self.clone();
        run.circuits = 0;
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
