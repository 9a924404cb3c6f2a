//! The run clock of this page: it counts while the machine runs, in every place, and gives a signal before a stop and at it.
//!
//! What it counts is in the run of the line, in the bench book: so another tab, a reload and a page that slept show the same. Here
//! are only the looks at the device's clocks, what went on between them, and the signals.

mod absence;
mod left_words;
mod settings;
mod signals;

use core::time::Duration;

use leptos::leptos_dom::helpers::{IntervalHandle, set_interval_with_handle};
use leptos::prelude::*;

use super::bench::Bench;
use super::current_line::CurrentLine;
use super::window_events::on_window;
use crate::page::browser::clock;
use crate::plan::Plan;
use crate::plan::run::{Between, Countdown, Now, Pace, Run, Signal, Timed};
use absence::{Absence, SeenRun};
use settings::ClockSettings;
use signals::Signals;

pub(crate) use absence::AbsenceKind;
pub(crate) use left_words::left_words;
pub(crate) use settings::MOST_LEAD;

/// Pause between two looks. Our own choice: a countdown of seconds needs no more.
const PAUSE: Duration = Duration::from_millis(500);

/// The way to the next step of the line at the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Way {
    /// The line's place in the book.
    pub(crate) record: usize,
    /// How many events were done, and how many mishaps there were: of another run it says nothing.
    pub(crate) done: (usize, usize),
    /// Circuits of it.
    pub(crate) wanted: f64,
    /// Circuits a minute as set.
    pub(crate) speed: f64,
}

impl Way {
    /// The way to the next step of a run of the line at this place in the book.
    pub(crate) fn of(record: usize, run: &Run, now: &Now, plan: &Plan) -> Self {
        Self {
            record,
            done: (run.done, run.mishaps.len()),
            wanted: run.wanted(now, plan),
            speed: plan.workload.speed,
        }
    }
}

/// The clock of the line at the machine.
#[derive(Clone, Copy)]
pub(crate) struct RunClocks {
    current_line: CurrentLine,
    /// The moment of the last look.
    now: RwSignal<f64>,
    /// The way to the next step.
    pub(crate) way: RwSignal<Option<Way>>,
    run: Memo<Option<Run>>,
    /// Stretches timed of earlier lines.
    earlier: Memo<Vec<Timed>>,
    /// What count and clock say; nothing while the way to the next step is not known yet.
    pub(crate) countdown: Memo<Option<Countdown>>,
    /// What the last look found.
    at_last_look: StoredValue<Option<(Way, Countdown)>>,
    /// When the page was away, or the clock was set back.
    pub(crate) absence: Absence,
    /// What the maker set.
    pub(crate) settings: ClockSettings,
    /// Sound, shaking and voice.
    pub(crate) signals: Signals,
}

/// The run clock of this page.
pub(crate) fn run_clocks() -> RunClocks {
    expect_context::<RunClocks>()
}

impl RunClocks {
    /// The clock of the line of the drawing on the bench.
    pub(crate) fn open(bench: Bench, current_line: CurrentLine) -> Self {
        let now = RwSignal::new(clock::wall());
        let way = RwSignal::new(None::<Way>);
        let record = current_line.record;
        let run = Memo::new(move |_| record.with(|record| record.as_ref()?.1.run.clone()));
        let earlier = Memo::new(move |_| current_line.earlier_timed());
        let countdown = Memo::new(move |_| {
            let index = record.with(|record| record.as_ref().map(|(index, _)| *index));
            let of = |run: &Run, wanted: f64, speed: f64| {
                let pace = earlier.with(|earlier| Pace::of(&run.clock, earlier, speed));
                let now = if run.clock.is_running() {
                    now.get()
                } else {
                    0.0
                };
                Countdown::of(run, wanted, pace, now)
            };
            run.with(|run| {
                let Some(run) = run else {
                    // Before the line is started: the lead-in of the drawing.
                    let workload = bench.settled_plan.with(|plan| plan.workload);
                    return Some(of(&Run::default(), workload.lead_in, workload.speed));
                };
                let way = way.get()?;
                let is_of_run =
                    index == Some(way.record) && way.done == (run.done, run.mishaps.len());
                is_of_run.then(|| of(run, way.wanted, way.speed))
            })
        });
        let settings = ClockSettings::kept(bench);
        let clocks = Self {
            current_line,
            now,
            way,
            run,
            earlier,
            countdown,
            at_last_look: StoredValue::new(None),
            absence: Absence::none(),
            settings,
            signals: Signals::new(settings),
        };
        clocks.look_while_running();
        clocks
    }

    /// The pace that was timed, whatever the maker insists on.
    pub(crate) fn timed(self) -> Option<Pace> {
        self.run.with(|run| {
            let clock = &run.as_ref()?.clock;
            self.earlier.with(|earlier| Pace::timed(clock, earlier))
        })
    }

    /// The moment now, which all that is shown then follows.
    pub(crate) fn moment(self) -> f64 {
        let now = clock::wall();
        self.now.set(now);
        now
    }

    /// Circuits done of the way, as whole ones, by count and clock; `None` where that is unknown.
    pub(crate) fn circuits(self) -> Option<u32> {
        match self.countdown.get() {
            // Far below 2³², and the cast holds at the ends.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            Some(countdown) => countdown.left().and(countdown.done).map(|done| done as u32),
            None => Some(self.counted()),
        }
    }

    /// Circuits counted since the last step, without what the clock adds.
    pub(crate) fn counted(self) -> u32 {
        self.run
            .with(|run| run.as_ref().map_or(0, |run| run.circuits))
    }

    /// Whether the clock has much less than the way to the step, where it says anything of it.
    pub(crate) fn seems_early(self) -> bool {
        self.moment();
        self.countdown
            .with_untracked(|it| it.as_ref().is_some_and(Countdown::seems_early))
    }

    /// What there is to say of a time when nobody looked.
    pub(crate) fn away(self) -> Option<AbsenceKind> {
        self.absence.of(self.seen())
    }

    /// Seconds in doubt.
    pub(crate) fn doubtful(self) -> f64 {
        self.run
            .with(|run| run.as_ref().map_or(0.0, |run| run.clock.doubtful))
    }

    /// Changes the run of the line.
    pub(crate) fn change(self, change: impl FnOnce(Run) -> Run) {
        if let Some(run) = self.run.get_untracked() {
            self.current_line
                .change(|record| record.run = Some(change(run)));
        }
    }

    /// The machine was started, or stopped.
    pub(crate) fn toggle(self) {
        self.signals.allow();
        let now = self.moment();
        let is_late = self
            .countdown
            .with_untracked(|it| it.as_ref().is_some_and(Countdown::is_long_past));
        self.change(|run| match (run.clock.is_running(), is_late) {
            (true, true) => run.stopped_late(now),
            (true, false) => run.stopped(now),
            (false, _) => run.started(now),
        });
    }

    /// While the machine runs the clocks are looked at.
    fn look_while_running(self) {
        let is_running = Memo::new(move |_| {
            self.run
                .with(|run| run.as_ref().is_some_and(|run| run.clock.is_running()))
        });
        Effect::new(move |before: Option<Option<IntervalHandle>>| {
            if let Some(Some(before)) = before {
                before.clear();
            }
            if !is_running.get() {
                self.absence.stop_looking();
                return None;
            }
            untrack(|| self.first_look());
            set_interval_with_handle(move || self.look(), PAUSE).ok()
        });
        on_window(leptos::ev::visibilitychange, move |_| {
            if is_running.try_get_untracked() == Some(true) {
                self.look();
            }
        });
    }

    fn first_look(self) {
        let happened = self.absence.first_look(untrack(|| self.seen()));
        self.now.set(clock::wall());
        self.at_last_look.set_value(None);
        self.settle(happened, None, true);
    }

    fn look(self) {
        let happened = self.absence.look(untrack(|| self.seen()));
        self.now.set(clock::wall());
        let after = self.way.get_untracked().zip(self.countdown.get_untracked());
        let before = self.at_last_look.get_value();
        self.at_last_look.set_value(after);
        let signal = before
            .zip(after)
            .and_then(|((way_before, before), (way, after))| {
                let lead = f64::from(self.settings.lead.get_untracked());
                (way_before == way)
                    .then(|| after.signal_since(&before, lead))
                    .flatten()
            });
        if let Some(signal) = signal {
            self.signals.give(signal);
        }
        self.settle(happened, signal, false);
    }

    /// What went on between two looks is put into the run, where it changes it.
    fn settle(self, happened: Option<Between>, missed: Option<Signal>, was_closed: bool) {
        let show = |kind| self.absence.show(kind, untrack(|| self.seen()));
        match happened {
            None | Some(Between::Nothing) => {}
            Some(Between::Away(seconds)) => show(AbsenceKind::Away {
                seconds,
                until: clock::wall(),
                missed: missed.is_some(),
            }),
            // How long the page was closed cannot be known then.
            Some(Between::SetBack(seconds)) if was_closed => {
                self.change(|run| run.in_doubt(-seconds));
            }
            Some(Between::SetBack(seconds)) => {
                self.change(|run| run.set_back(seconds));
                show(AbsenceKind::SetBack { seconds });
            }
            Some(Between::Doubtful(seconds)) => self.change(|run| run.in_doubt(seconds)),
        }
    }

    /// What a question about the run belongs to.
    fn seen(self) -> Option<SeenRun> {
        self.run.with(|run| {
            let run = run.as_ref()?;
            let clock = &run.clock;
            Some((
                run.done,
                run.mishaps.len(),
                clock.running_since,
                clock.doubtful,
            ))
        })
    }
}
