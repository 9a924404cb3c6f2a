//! The days of the dressing: when it begins, what is done, what follows. They belong to a line in the bench book.

use leptos::prelude::*;
use web_sys::Event;

use crate::braid::recipe::{DraftStep, StepKind};
use crate::design::Design;
use crate::keep::book::Frozen;
use crate::keep::book::record::LineRecord;
use crate::keep::share::calendar;
use crate::page::browser::clock;
use crate::page::browser::focus::is_unfolded;
use crate::page::view::bench::Bench;
use crate::page::view::book::OpenBook;
use crate::page::view::current_line::{CurrentLine, current_line};
use crate::page::view::saving::save;
use crate::plan::days::dates::{DatedStep, StepTime, dates};
use crate::plan::days::{Day, Diary};

/// A row of the list: two are the same row as long as the same is done at the same place.
pub(super) type RowKey = (usize, StepKind);

/// The line in dressing: its diary, and its steps on the calendar.
#[derive(Clone, Copy)]
pub(crate) struct Days {
    bench: Bench,
    open_book: OpenBook,
    current_line: CurrentLine,
    /// The line in progress, once its dressing has begun.
    pub(super) record: Memo<Option<(usize, LineRecord)>>,
    /// The steps whose rows are open, also while another place is shown.
    pub(super) unfolded: RwSignal<Vec<RowKey>>,
    /// Whether it is dressed by the steps now in the plan.
    pub(super) fits: Memo<bool>,
    /// The steps on the calendar; empty where nothing has begun or other steps are followed.
    dated: Memo<Vec<DatedStep>>,
}

/// The days of this page.
pub(crate) fn days() -> Days {
    expect_context::<Days>()
}

impl Days {
    /// The days of the line on the bench.
    pub(crate) fn open(bench: Bench, open_book: OpenBook) -> Self {
        let current_line = current_line();
        let record = Memo::new(move |_| {
            current_line
                .record
                .get()
                .filter(|(_, record)| record.diary.is_some())
        });
        let fits = Memo::new(move |_| {
            let steps_of = |design: &Design| design.draft().recipe.clone();
            let followed = record.with(|record| {
                let made = record.as_ref()?.1.design.design();
                made.ok().map(steps_of)
            });
            bench
                .settled
                .with(|design| followed == Some(steps_of(design)))
        });
        let dated = Memo::new(move |_| {
            let diary = record.with(|record| record.as_ref()?.1.diary.clone());
            let Some(diary) = diary.filter(|_| fits.get()) else {
                return Vec::new();
            };
            let legs = bench.settled.with(legs);
            dates(diary.start, &legs, &diary.ticks, clock::today())
        });
        Self {
            bench,
            open_book,
            current_line,
            record,
            unfolded: RwSignal::new(Vec::new()),
            fits,
            dated,
        }
    }

    /// The maker opened or closed the row of a step.
    pub(super) fn follow(self, row: RowKey, toggled: &Event) {
        let is_open = is_unfolded(toggled);
        if is_open != self.unfolded.with_untracked(|open| open.contains(&row)) {
            self.unfolded.update(|open| {
                open.retain(|other| *other != row);
                if is_open {
                    open.push(row);
                }
            });
        }
    }

    /// A step on the calendar.
    pub(super) fn of(self, index: usize) -> Option<DatedStep> {
        self.dated.with(|dated| dated.get(index).copied())
    }

    /// All steps on the calendar.
    pub(super) fn all(self) -> Vec<DatedStep> {
        self.dated.get()
    }

    /// The same with what is done in each.
    pub(super) fn of_kinds(self) -> Vec<(StepKind, DatedStep)> {
        let kinds = self.bench.settled.with(|design| {
            let steps = design.draft().recipe.iter();
            steps.map(|step| step.kind).collect::<Vec<_>>()
        });
        self.dated
            .with(|dated| kinds.into_iter().zip(dated.iter().copied()).collect())
    }

    /// Whether days are shown.
    pub(super) fn are_shown(self) -> bool {
        self.dated.with(|dated| !dated.is_empty())
    }

    /// Notes the day a step was done, or that it was not.
    pub(super) fn tick(self, index: usize, day: Option<Day>) {
        self.change(|diary| diary.tick(index, day));
    }

    fn change(self, change: impl FnOnce(&mut Diary)) {
        self.current_line.change(|record| {
            if let Some(diary) = &mut record.diary {
                change(diary);
            }
        });
    }

    /// Begins the dressing of the line in progress on a day; where it has begun, moves its start.
    pub(super) fn begin(self, start: Day) {
        self.current_line.begin();
        self.current_line.change(|record| match &mut record.diary {
            Some(diary) => diary.start = start,
            None => record.diary = Some(Diary::new(start)),
        });
    }

    /// Begins another line of the same plan; the last one ends.
    pub(super) fn begin_another(self) {
        if let Some(today) = clock::today() {
            self.current_line.end();
            self.begin(today);
        }
    }

    /// Dresses the line in the book by the steps now in the plan; its drawing stays as it was braided.
    pub(super) fn follow_plan(self) {
        let Some(record) = self.current_line.record_untracked() else {
            return;
        };
        let Ok(made) = record.design.design() else {
            return;
        };
        let mut draft = made.draft().clone();
        draft.recipe = self
            .bench
            .settled
            .with_untracked(|design| design.draft().recipe.clone());
        match Design::parse(draft) {
            Ok(design) => self
                .current_line
                .change(|record| record.design = Frozen::of(&design)),
            Err(refusal) => self.bench.say(refusal.to_string()),
        }
    }

    pub(super) fn save_calendar(self) {
        let entries = self.bench.settled.with_untracked(|design| {
            let key = self
                .record
                .with_untracked(|record| record.as_ref().map_or(0, |(index, _)| *index));
            let place = self.open_book.number.get_untracked().unwrap_or_default();
            let name = format!(
                "{place}-{key}-{}",
                untrack(|| self.start()).map(Day::iso).unwrap_or_default()
            );
            calendar::of_dressing(design, &self.dated.get_untracked(), &name)
        });
        let text = calendar::write(&entries, &clock::stamp());
        let name = self.bench.settled.with_untracked(calendar::name);
        save(self.bench, &name, &text, "text/calendar");
    }

    pub(super) fn start(self) -> Option<Day> {
        self.record
            .with(|record| Some(record.as_ref()?.1.diary.as_ref()?.start))
    }
}

/// The steps of a design on the calendar, begun on a day.
pub(super) fn steps_from(design: &Design, start: Option<Day>) -> Vec<DatedStep> {
    start.map_or_else(Vec::new, |start| dates(start, &legs(design), &[], None))
}

fn legs(design: &Design) -> Vec<StepTime> {
    let leg = |step: &DraftStep| StepTime {
        hours: step.hours,
        hands: step.kind.takes_hands(),
    };
    design.draft().recipe.iter().map(leg).collect()
}
