//! A line at the machine: what is done, where the machine stands, and what went otherwise than planned.
//!
//! A [`Run`] is plain data, kept in the record of the line at every tick. Together with the design it was begun by it gives the
//! [`Course`]: what was done at its real places, and what is to do. After a mishap what was missed is made up
//! for; what is braided never changes.

mod now;

use serde::{Deserialize, Serialize};

use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::design::Design;
use crate::design::settings::POSITION;
use crate::plan::{Course, Event, Plan};

pub use now::{Now, Proposal};

/// Most mishaps in a run.
pub const MOST_MISHAPS: usize = 200;

/// A line being braided.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// How many events of the course are done; the first is the start.
    pub done: usize,
    /// Circuits counted by tap since the last of them.
    #[serde(default)]
    pub circuits: u32,
    /// What went otherwise than planned, in order.
    #[serde(default, deserialize_with = "bounded_list::<_, _, MOST_MISHAPS>")]
    pub mishaps: Vec<Mishap>,
}

/// Something that went otherwise, and where the machine stood then.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mishap {
    /// What it was.
    pub kind: MishapKind,
    /// How many events were done by then.
    pub done: usize,
    /// Where the machine stood, metres from the tip.
    pub at_m: f64,
    /// By how much the last event done was made behind its planned place, metres; negative where before it.
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
            Self::Late => "made late or early",
            Self::Broke => "thread broke and was joined",
            Self::Skipped => "passed over",
        }
    }
}

/// Why a run cannot go on as told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoMishap {
    /// The place lies before what is done already.
    BeforeDone(Length),
    /// The last stop cannot have been made before the one before it, which was made here.
    BeforeStop(Length),
    /// The place lies behind the end of the line.
    BehindEnd(Length),
    /// The line is not begun.
    NotBegun,
    /// The next step is not due before this place: it cannot have been passed over.
    NotYetDue(Length),
    /// Nothing has been done yet that could have been late.
    NothingDone,
    /// More has gone wrong than there is room to note.
    TooMany,
}

impl NoMishap {
    /// What to tell the maker; places as `told` tells them.
    pub fn words(&self, told: impl Fn(Length) -> String) -> String {
        match *self {
            Self::BeforeDone(last) => format!(
                "The last step is done at {}: the machine cannot stand before it. Take the step back first.",
                told(last)
            ),
            Self::BeforeStop(before) => format!(
                "The step before it was done at {}: this one cannot have been made before that.",
                told(before)
            ),
            Self::BehindEnd(length) => {
                format!("The line ends at {}. Type a place on it.", told(length))
            }
            Self::NotBegun => "The line is not begun: do the first step, and tick it.".to_owned(),
            Self::NotYetDue(next) => format!(
                "The next step is not due before {}. If you stand elsewhere than you thought, say where you are.",
                told(next)
            ),
            Self::NothingDone => "Nothing is done yet that could have been late.".to_owned(),
            Self::TooMany => {
                format!("There is no room to note more than {MOST_MISHAPS} mishaps of one line.")
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
    /// The course as it goes on from it.
    fn changing(&self, course: Course, design: &Design, plan: &Plan) -> Course {
        let done = self.done.clamp(1, course.events.len());
        let (before, rest) = course.events.split_at(done);
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
            return course;
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
    /// The course of a line of this design, whose plan is given.
    pub fn course(&self, design: &Design, plan: &Plan) -> Course {
        let mut course = plan.course();
        for mishap in &self.mishaps {
            course = mishap.changing(course, design, plan);
        }
        course
    }

    /// How many events of a course are done: never more than there are.
    pub fn done_of(&self, course: &Course) -> usize {
        self.done.min(course.events.len())
    }

    /// The next event of a course.
    pub fn next<'a>(&self, course: &'a Course) -> Option<&'a Event> {
        course.events.get(self.done)
    }

    /// Where the machine is known to stand: at the last event done, or where a mishap behind it said.
    pub fn stands_at(&self, course: &Course) -> Length {
        let done = self.done_of(course);
        let last = done
            .checked_sub(1)
            .map_or(Length::ZERO, |last| course.events[last].at);
        let told = self.mishaps.last().filter(|mishap| mishap.done == done);
        told.map_or(last, |mishap| Length::from_metres(mishap.at_m).max(last))
    }

    /// The run with the next event done.
    #[must_use]
    pub fn tick(mut self, course: &Course) -> Self {
        if self.done < course.events.len() {
            self.done += 1;
            self.circuits = 0;
        }
        self
    }

    /// The run with the last event not done after all. What was told since then is forgotten.
    #[must_use]
    pub fn back(mut self) -> Self {
        self.circuits = 0;
        let told = self.mishaps.last().map(|mishap| mishap.done);
        if told == Some(self.done) {
            self.mishaps.pop();
        } else {
            self.done = self.done.saturating_sub(1);
        }
        self
    }

    /// The run with so many circuits more counted, or fewer where negative; never below none.
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
        course: &Course,
        kind: MishapKind,
        at: Length,
    ) -> Result<Self, NoMishap> {
        let done = self.done_of(course);
        let last = done.checked_sub(1).ok_or(NoMishap::NotBegun)?;
        let last = course.events[last].at;
        let length = course.line.length();
        if at < last {
            return Err(NoMishap::BeforeDone(last));
        }
        if at > length {
            return Err(NoMishap::BehindEnd(length));
        }
        let next = course.events.get(done).map_or(length, |event| event.at);
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

    /// The run when the last stop was really made so much behind its place: all that was done there together.
    ///
    /// # Errors
    /// [`NoMishap`] where that lies before the stop before, or behind the end.
    pub fn made_late(&self, course: &Course, by: Length) -> Result<Self, NoMishap> {
        let done = self.done_of(course);
        let stop = last_stop(&course.events[..done]);
        let before = stop.checked_sub(1).ok_or(NoMishap::NothingDone)?;
        let planned = course.events[stop].at;
        let (at, before) = (planned + by, course.events[before].at);
        if at < before {
            return Err(NoMishap::BeforeStop(before));
        }
        if at > course.line.length() {
            return Err(NoMishap::BehindEnd(course.line.length()));
        }
        // A place told since then still holds.
        let stands = self.stands_at(course);
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

/// A place to a tenth of a millimetre, never behind it: rounding must not run past a step that is due there.
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
