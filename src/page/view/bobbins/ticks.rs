//! Ticking bobbins as wound, and taking all ticks away, which can be taken back.

use leptos::prelude::*;

use crate::page::view::bench::Bench;
use crate::plan::bobbins::Bobbin;
use crate::plan::wound::{Wound, WoundState};

/// The ticks of the line on the page.
#[derive(Clone, Copy)]
pub(super) struct Ticks {
    bench: Bench,
    /// What was ticked before all was unticked, until something is ticked again.
    before: RwSignal<Option<Wound>>,
    /// How many of the bobbins needed are wound.
    pub(super) count: Memo<usize>,
}

impl Ticks {
    /// The ticks of the line on the bench.
    pub(super) fn open(bench: Bench) -> Self {
        let count = Memo::new(move |_| {
            bench
                .plan
                .with(|plan| bench.wound.with(|wound| wound.count(&plan.bobbins)))
        });
        let before = RwSignal::new(None);
        // Ticks of one line are never brought back on another.
        Effect::watch(
            move || bench.number(),
            move |now, last, _| {
                if last.is_some_and(Option::is_some) && last != Some(now) {
                    before.set(None);
                }
            },
            false,
        );
        Self {
            bench,
            before,
            count,
        }
    }

    /// What there is to do about a bobbin.
    pub(super) fn state(self, bobbin: Option<Bobbin>) -> WoundState {
        let bench = self.bench;
        bobbin.map_or(WoundState::ToWind, |bobbin| {
            bench.plan.with(|plan| {
                bench
                    .wound
                    .with(|wound| wound.state(&bobbin, &plan.bobbins))
            })
        })
    }

    /// Whether anything is ticked.
    pub(super) fn any(self) -> bool {
        self.bench.wound.with(|wound| !wound.is_empty())
    }

    /// Whether ticks can be brought back.
    pub(super) fn can_restore(self) -> bool {
        self.before.with(Option::is_some)
    }

    /// Ticks the bobbin of this place in the list, or unticks it.
    pub(super) fn toggle(self, index: usize) {
        let plan = self.bench.settled_plan.get_untracked();
        let Some(bobbin) = plan.bobbins.get(index) else {
            return;
        };
        self.before.set(None);
        let mut wound = self.bench.wound.get_untracked();
        wound.toggle(bobbin, &plan.bobbins);
        self.bench.set_wound(wound);
    }

    /// Unticks all.
    pub(super) fn untick_all(self) {
        self.before.set(Some(self.bench.wound.get_untracked()));
        self.bench.set_wound(Wound::default());
    }

    /// Brings back what was unticked.
    pub(super) fn restore(self) {
        if let Some(before) = self.before.get_untracked() {
            self.before.set(None);
            self.bench.set_wound(before);
        }
    }
}
