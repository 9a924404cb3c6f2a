//! The line at the machine: the plan it is braided by, what is done, and what comes next.

use leptos::prelude::*;

use super::focus::{PROPOSAL, focus_part};
use super::positions::PositionFormat;
use super::taps::Taps;
use crate::base::units::Length;
use crate::design::{Design, Draft};
use crate::page::browser::storage::preference;
use crate::page::view::bench::Bench;
use crate::page::view::current_line::{CurrentLine, current_line};
use crate::page::view::entries::{Entries, Entry};
use crate::page::view::planned::{Planned, planned};
use crate::page::view::run_clock::{RunClocks, run_clocks};
use crate::plan::run::{Mishap, Now, Proposal, Run, Ticks};
use crate::plan::{Action, AdjustedPlan, Event, Plan};

/// Key under which the distance to the rollers is kept, metres.
const ROLLERS_KEY: &str = "taperwright/rollers";

/// The ticks made on this page, of the line that has this place in the book.
pub(crate) type LineTicks = StoredValue<(Option<usize>, Ticks)>;

/// A braiding session: the line at the machine.
#[derive(Clone, Copy)]
pub(super) struct Session {
    pub(super) bench: Bench,
    pub(super) current_line: CurrentLine,
    /// The design it is braided by, and its plan.
    pub(super) planned: Planned,
    /// What is done of it.
    pub(super) run: Memo<Option<Run>>,
    /// What was done at its real places, and what is to do.
    pub(super) adjusted: Memo<Option<AdjustedPlan>>,
    /// The step to do now.
    pub(super) now: Memo<Option<Now>>,
    /// Circuits of the way to that step.
    pub(super) wanted: Memo<f64>,
    /// The run clock of the page.
    pub(super) clocks: RunClocks,
    /// The ticks made on this page.
    ticks: LineTicks,
    /// From where the threads meet to where the maker measures.
    pub(super) rollers: RwSignal<Length>,
    /// What would follow from a mishap, until it is accepted or discarded, or the run moves on.
    pub(super) proposal: RwSignal<Option<Proposal>>,
    /// The tap that started the line.
    pub(super) start_taps: Taps,
    /// Circuits done when it was asked about.
    asked_at: StoredValue<Option<u32>>,
    /// Whether the drawing on the bench has changed since the line was begun.
    pub(super) has_changed: Memo<bool>,
}

/// The session of this sheet.
pub(super) fn session() -> Session {
    expect_context::<Session>()
}

impl Session {
    pub(super) fn open(bench: Bench, ticks: LineTicks) -> Self {
        let current_line = current_line();
        let planned = planned(move || {
            current_line
                .record
                .with(|record| Some(record.as_ref()?.1.design.clone()))
        });
        let run = Memo::new(move |_| {
            current_line
                .record
                .with(|record| record.as_ref()?.1.run.clone())
        });
        let mishaps =
            Memo::new(move |_| run.with(|run| run.as_ref().map(|run| run.mishaps.clone())));
        let adjusted = Memo::new(move |_| {
            let mishaps = mishaps.get()?;
            planned.with(|planned| {
                let (design, plan) = planned.as_ref()?;
                let run = Run {
                    mishaps,
                    ..Run::default()
                };
                Some(run.adjusted(design, plan))
            })
        });
        let now = Memo::new(move |_| {
            run.with(|run| {
                adjusted.with(|adjusted| {
                    planned.with(|planned| {
                        let (_, plan) = planned.as_ref()?;
                        Some(Now::of(run.as_ref()?, adjusted.as_ref()?, plan))
                    })
                })
            })
        });
        let clocks = run_clocks();
        let wanted = Memo::new(move |_| {
            clocks
                .countdown
                .with(|it| it.as_ref().map_or(0.0, |it| it.wanted))
        });
        let has_changed = Memo::new(move |_| {
            planned.with(|planned| {
                planned.as_ref().is_some_and(|(design, _)| {
                    bench.settled.with(|drawing| !is_alike(design, drawing))
                })
            })
        });
        Self {
            bench,
            current_line,
            planned,
            run,
            adjusted,
            now,
            wanted,
            clocks,
            ticks,
            rollers: RwSignal::new(kept_rollers()),
            proposal: RwSignal::new(None),
            start_taps: Taps::new(),
            asked_at: StoredValue::new(None),
            has_changed,
        }
    }

    /// How positions are shown and typed.
    pub(super) fn positions(self) -> PositionFormat {
        PositionFormat {
            rollers: self.rollers.get(),
            units: self.bench.units.get(),
        }
    }

    /// Reads the step to do now; `None` where no line is begun.
    pub(super) fn with_now<T>(self, read: impl FnOnce(&Now) -> T) -> Option<T> {
        self.now.with(|now| now.as_ref().map(read))
    }

    /// Reads the first thing that step does; `None` where all is done.
    pub(super) fn with_event<T>(self, read: impl FnOnce(&Event) -> T) -> Option<T> {
        self.with_now(|now| now.event().map(read)).flatten()
    }

    /// Reads the design and the plan that the line is braided by.
    pub(super) fn with_planned<T>(self, read: impl FnOnce(&Design, &Plan) -> T) -> Option<T> {
        let read = |(design, plan): &(Design, Plan)| read(design, plan);
        self.planned.with(|planned| planned.as_ref().map(read))
    }

    /// Reads the run and the plan adjusted to it; `None` where no line is begun.
    pub(super) fn with_run<T>(self, read: impl FnOnce(&Run, &AdjustedPlan) -> T) -> Option<T> {
        self.run.with(|run| {
            self.adjusted
                .with(|adjusted| Some(read(run.as_ref()?, adjusted.as_ref()?)))
        })
    }

    /// Whether the step to do now is the start of the line.
    pub(super) fn is_start(self) -> bool {
        self.with_event(|event| matches!(event.action, Action::Start(_))) == Some(true)
    }

    /// From now on a proposal is answered before anything else is done.
    pub(super) fn ask_first(self) {
        expect_context::<Entries>().add(Entry {
            is_open: Callback::new(move |()| self.proposal.with_untracked(Option::is_some)),
            show: Callback::new(|()| focus_part(PROPOSAL)),
        });
    }

    /// Begins the line, by the plan in its record, or where there is none, by the plan as it is. A run already begun stays.
    pub(super) fn begin(self) {
        self.proposal.set(None);
        self.current_line.begin();
        self.current_line.change(|record| {
            record.run.get_or_insert_with(Run::default);
        });
    }

    /// Ends this line and begins another by the plan as it is.
    pub(super) fn begin_by_new_plan(self) {
        self.current_line.end();
        self.begin();
    }

    /// Ends this line and begins another by the same plan.
    pub(super) fn begin_by_same_plan(self) {
        self.current_line.begin_another();
        self.begin();
    }

    /// Shows what would follow from a correction, until it is taken or not. The machine may run on meanwhile.
    pub(super) fn propose(self, made: Option<Proposal>) {
        self.asked_at.set_value(untrack(|| self.clocks.circuits()));
        self.proposal.set(made);
    }

    /// Takes a correction.
    pub(super) fn take(self, correction: Option<&Mishap>) {
        let Some(correction) = correction.cloned() else {
            return;
        };
        let now = self.clocks.moment();
        let asked_at = self.asked_at.get_value();
        let circuits = untrack(|| self.clocks.circuits()).zip(asked_at);
        let since = circuits.map_or(0, |(now, then)| now.saturating_sub(then));
        self.change_with_ticks(|ticks, run, _| ticks.take(run, correction, since, now));
    }

    /// Gives this line up; its record stays in the book.
    pub(super) fn give_up(self) {
        self.proposal.set(None);
        self.current_line.end();
    }

    pub(super) fn change(self, change: impl FnOnce(Run, &AdjustedPlan) -> Run) {
        let run = self.run.get_untracked();
        let after = self
            .adjusted
            .with_untracked(|adjusted| Some(change(run?, adjusted.as_ref()?)));
        if let Some(after) = after {
            self.put(after);
        }
    }

    /// How far the machine was known to stand from the last stop: 0 but after a correction.
    pub(super) fn since_stop(self) -> Length {
        let since = |run: &Run, adjusted: &AdjustedPlan| {
            let last = run.done_of(adjusted).checked_sub(1)?;
            Some(run.stands_at(adjusted) - adjusted.events[last].at)
        };
        let since = untrack(|| self.with_run(since)).flatten();
        since.unwrap_or(Length::ZERO)
    }

    /// Circuits for a length from where the machine was known to stand.
    ///
    /// # Errors
    /// Where the line is not as long.
    pub(super) fn circuits_for(self, length: Length) -> Result<f64, String> {
        let circuits = |run: &Run, adjusted: &AdjustedPlan| {
            let is_on_line = run.stands_at(adjusted) + length <= adjusted.line.length();
            is_on_line.then(|| run.circuits_for(adjusted, length))
        };
        let circuits = untrack(|| self.with_run(circuits)).flatten();
        circuits.ok_or_else(|| {
            "The line is not so long. Type the length since the last stop.".to_owned()
        })
    }

    /// A counter, or a rule, shows that so many circuits are done since the last step.
    pub(super) fn count_in(self, circuits: f64) {
        let now = self.clocks.moment();
        // Within the range of both.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        self.change(|run, _| run.counted_in(circuits.round() as u32, now));
        self.clocks.absence.forget();
    }

    /// Ticks the step.
    pub(super) fn tick(self) {
        let wanted = self.wanted.get_untracked();
        let now = self.clocks.moment();
        self.clocks.signals.allow();
        let is_early = self.clocks.seems_early();
        self.change_with_ticks(|ticks, run, adjusted| {
            ticks.tick(run, adjusted, (wanted, is_early), now)
        });
    }

    /// Takes the last tick back, or what went otherwise since.
    pub(super) fn take_back(self) {
        self.change_with_ticks(Ticks::take_back);
    }

    fn change_with_ticks(self, change: impl FnOnce(&mut Ticks, Run, &AdjustedPlan) -> Run) {
        let record = self.current_line.record;
        let line = record.with_untracked(|record| record.as_ref().map(|(index, _)| *index));
        let (of, ticks) = self.ticks.get_value();
        let mut ticks = if of == line { ticks } else { Ticks::default() };
        self.change(|run, adjusted| change(&mut ticks, run, adjusted));
        self.ticks.set_value((line, ticks));
    }

    /// Stores the run: the one way it moves on. A proposal from before no longer holds and is dropped.
    pub(super) fn put(self, run: Run) {
        self.proposal.set(None);
        self.current_line.change(|record| record.run = Some(run));
    }

    pub(super) fn set_rollers(self, distance: Length) {
        self.rollers.set(distance);
        self.bench
            .keep_preference(ROLLERS_KEY, &distance.metres().to_string());
    }
}

/// Whether two drawings make the same line; their names, notes and workshops may differ.
fn is_alike(one: &Design, other: &Design) -> bool {
    let nameless = |design: &Design| Draft {
        name: String::new(),
        notes: String::new(),
        workshop: String::new(),
        ..design.draft().clone()
    };
    nameless(one) == nameless(other)
}

/// The distance stored at an earlier visit; zero where that is impossible.
fn kept_rollers() -> Length {
    let metres = preference(ROLLERS_KEY).and_then(|text| text.parse::<f64>().ok());
    let distance = metres.map(Length::from_metres);
    distance
        .filter(|&distance| can_be_rollers(distance))
        .unwrap_or(Length::ZERO)
}

/// Whether rollers can be so far from where the threads meet.
pub(super) fn can_be_rollers(distance: Length) -> bool {
    (0.0..=10.0).contains(&distance.metres())
}
