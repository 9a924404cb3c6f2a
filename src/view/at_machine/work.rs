//! The line on the sheet: what it is braided by, what is done of it, and what comes now.

use leptos::prelude::*;

use crate::browser::storage::LocalStore;
use crate::design::Design;
use crate::plan::{Course, Plan};
use crate::run::{Now, Run};
use crate::shelf::Store as _;
use crate::units::Length;
use crate::view::bench::Bench;
use crate::view::made::{Made, made};

/// Key under which the distance to the rollers is kept, metres.
const ROLLERS_KEY: &str = "taperwright/rollers";

/// The line at the machine.
#[derive(Clone, Copy)]
pub(super) struct Work {
    pub(super) bench: Bench,
    pub(super) made: Made,
    /// The design it is braided by, and its plan.
    pub(super) planned: Memo<Option<(Design, Plan)>>,
    /// What is done of it.
    pub(super) run: Memo<Option<Run>>,
    /// What was done at its real places, and what is to do.
    pub(super) course: Memo<Option<Course>>,
    /// The step to do now.
    pub(super) now: Memo<Option<Now>>,
    /// From where the threads meet to where the maker measures.
    pub(super) rollers: RwSignal<Length>,
}

/// The line on this sheet.
pub(super) fn work() -> Work {
    expect_context::<Work>()
}

impl Work {
    pub(super) fn open(bench: Bench) -> Self {
        let made = made();
        // Reckoned once for the plan it was begun by, not for every tick.
        let frozen = Memo::new(move |_| {
            made.record
                .with(|record| record.as_ref().map(|(_, record)| record.design.clone()))
        });
        let planned = Memo::new(move |_| {
            frozen.with(|frozen| {
                let design = frozen.as_ref()?.design().ok()?;
                Some((design.clone(), Plan::of(design)))
            })
        });
        let run = Memo::new(move |_| made.record.with(|record| record.as_ref()?.1.run.clone()));
        let mishaps =
            Memo::new(move |_| run.with(|run| run.as_ref().map(|run| run.mishaps.clone())));
        let course = Memo::new(move |_| {
            let mishaps = mishaps.get()?;
            planned.with(|planned| {
                let (design, plan) = planned.as_ref()?;
                let run = Run {
                    mishaps,
                    ..Run::default()
                };
                Some(run.course(design, plan))
            })
        });
        let now = Memo::new(move |_| {
            run.with(|run| {
                course.with(|course| {
                    planned.with(|planned| {
                        let (_, plan) = planned.as_ref()?;
                        Some(Now::of(run.as_ref()?, course.as_ref()?, plan))
                    })
                })
            })
        });
        Self {
            bench,
            made,
            planned,
            run,
            course,
            now,
            rollers: RwSignal::new(kept_rollers()),
        }
    }

    /// Takes the line on: from now on it is braided by the plan as it is.
    pub(super) fn begin(self) {
        self.made.begin();
        self.made.change(|record| record.run = Some(Run::default()));
    }

    pub(super) fn change(self, change: impl FnOnce(Run, &Course) -> Run) {
        let run = self.run.get_untracked();
        let after = self
            .course
            .with_untracked(|course| Some(change(run?, course.as_ref()?)));
        if let Some(after) = after {
            self.put(after);
        }
    }

    pub(super) fn put(self, run: Run) {
        self.made.change(|record| record.run = Some(run));
    }

    pub(super) fn set_rollers(self, distance: Length) {
        self.rollers.set(distance);
        let kept = LocalStore.set(ROLLERS_KEY, &distance.metres().to_string());
        if let Err(error) = kept {
            self.bench.say(error.to_string());
        }
    }
}

/// The distance kept at an earlier visit; none where it makes no sense.
fn kept_rollers() -> Length {
    let kept = LocalStore.get(ROLLERS_KEY).ok().flatten();
    let metres = kept.and_then(|text| text.parse::<f64>().ok());
    Length::from_metres(
        metres
            .filter(|metres| (0.0..=10.0).contains(metres))
            .unwrap_or(0.0),
    )
}
