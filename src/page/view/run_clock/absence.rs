//! When the page was away, or its clocks do not agree.

use leptos::prelude::*;

use crate::page::browser::clock;
use crate::page::browser::storage::{keep_hint, preference};
use crate::plan::run::{AWAY, Between, Look};

/// Key under which the moment of the last look is kept, while a machine runs.
const SEEN_KEY: &str = "taperwright/run-seen";
/// It is kept once in so many milliseconds. Our own choice.
const KEPT_EVERY: f64 = 5_000.0;
/// What two tabs find differs by less than this, in seconds.
const SAME: f64 = 2.0;
/// A machine started so many milliseconds ago was started on this page.
const FRESH: f64 = 3_000.0;

/// What the page has to say of a time when nobody looked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum AbsenceKind {
    /// The page slept or was closed, and the clock counted on.
    Away {
        /// For how long.
        seconds: f64,
        /// Until which moment.
        until: f64,
        /// Whether a signal was due in that time.
        missed: bool,
    },
    /// The clock of the device was set back by so many seconds; the run clock was moved with it.
    SetBack {
        /// By how much.
        seconds: f64,
    },
}

/// What a run was like when something was seen: of another one, or of the same when it has moved on, nothing is said.
pub(super) type SeenRun = (usize, usize, Option<f64>, f64);

/// The same; nothing where no line is begun.
type Seen = Option<SeenRun>;

/// The looks at the clocks of the device, and what they showed.
#[derive(Clone, Copy)]
pub(crate) struct Absence {
    /// The last look while the page was seen, and the run then.
    last: StoredValue<Option<(Look, Seen)>>,
    /// The moment of the last look of all.
    looked_at: StoredValue<f64>,
    /// When the last look was kept.
    kept_at: StoredValue<f64>,
    /// What is to be said, and of which run.
    shown: RwSignal<Option<(AbsenceKind, Seen)>>,
}

impl Absence {
    pub(super) fn none() -> Self {
        Self {
            last: StoredValue::new(None),
            looked_at: StoredValue::new(0.0),
            kept_at: StoredValue::new(0.0),
            shown: RwSignal::new(None),
        }
    }

    /// What is to be said of a run.
    pub(super) fn of(self, run: Seen) -> Option<AbsenceKind> {
        let shown = self.shown.get().filter(|(_, seen)| *seen == run);
        shown.map(|(kind, _)| kind)
    }

    pub(super) fn show(self, kind: AbsenceKind, run: Seen) {
        self.shown.set(Some((kind, run)));
    }

    /// The maker has seen it.
    pub(crate) fn forget(self) {
        self.shown.set(None);
    }

    pub(super) fn stop_looking(self) {
        self.last.set_value(None);
    }

    /// The first look of this page at a machine that runs since a moment: what happened while the page was closed.
    pub(super) fn first_look(self, run: Seen) -> Option<Between> {
        let look = now();
        self.last.set_value(Some((look, run)));
        self.looked_at.set_value(look.wall);
        let since = run.and_then(|(_, _, since, _)| since)?;
        let seen = preference(SEEN_KEY).and_then(|text| text.parse::<f64>().ok());
        let seen = seen.unwrap_or(since).max(since);
        self.keep(look.wall);
        if (look.wall - since).abs() < FRESH {
            return None;
        }
        // Only the clock that can be set runs while a page is closed.
        let away = look.wall - seen;
        let before = Look {
            wall: seen,
            steady: look.steady - away.max(0.0),
        };
        Some(look.since(&before))
    }

    /// A further look. A page that is hidden leaves it to the one that is seen to say that the clocks do not agree.
    pub(super) fn look(self, run: Seen) -> Option<Between> {
        let look = now();
        let away = look.wall - self.looked_at.get_value();
        self.looked_at.set_value(look.wall);
        if (look.wall - self.kept_at.get_value()).abs() >= KEPT_EVERY {
            self.keep(look.wall);
        }
        let (before, run_before) = self.last.get_value().unwrap_or((look, run));
        if document().hidden() {
            return None;
        }
        self.last.set_value(Some((look, run)));
        match look.since(&before) {
            // It looked all the time, only nobody saw it.
            Between::Away(_) if away < AWAY => None,
            happened if is_in(run_before, run, happened) => None,
            happened => Some(happened),
        }
    }

    fn keep(self, wall: f64) {
        self.kept_at.set_value(wall);
        keep_hint(SEEN_KEY, &format!("{wall:.0}"));
    }
}

/// Whether another tab has put into the run already what happened to the clock.
fn is_in(before: Seen, now: Seen, happened: Between) -> bool {
    let (Some((.., since_before, doubtful_before)), Some((.., since, doubtful))) = (before, now)
    else {
        return false;
    };
    let moved = since
        .zip(since_before)
        .map_or(0.0, |(now, then)| (now - then) / 1000.0);
    match happened {
        Between::SetBack(seconds) => (moved + seconds).abs() < SAME,
        Between::Doubtful(seconds) => (doubtful - doubtful_before - seconds).abs() < SAME,
        Between::Nothing | Between::Away(_) => false,
    }
}

fn now() -> Look {
    Look {
        wall: clock::wall(),
        steady: clock::steady(),
    }
}
