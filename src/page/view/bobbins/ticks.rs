//! Ticking bobbins as wound, and taking all ticks away, which can be taken back.

use leptos::prelude::*;

use crate::base::units::show;
use crate::page::view::bench::Bench;
use crate::page::view::book::open_book;
use crate::plan::bobbins::Bobbin;
use crate::plan::winder::{Winder, WindingWork};
use crate::plan::wound::{Wound, WoundState};

/// The ticks of the line on the page.
#[derive(Clone, Copy)]
pub(super) struct Ticks {
    pub(super) bench: Bench,
    /// What was ticked before all was unticked, until something is ticked again.
    before: RwSignal<Option<Wound>>,
    /// How many of the bobbins needed are wound.
    pub(super) count: Memo<usize>,
    /// The maker's own winder, once a bobbin was timed.
    winder: Memo<Option<Winder>>,
}

impl Ticks {
    /// The ticks of the line on the bench.
    pub(super) fn open(bench: Bench) -> Self {
        let count = Memo::new(move |_| {
            bench
                .plan
                .with(|plan| bench.wound.with(|wound| wound.count(&plan.bobbins)))
        });
        let workshop = open_book().workshop;
        let winder = Memo::new(move |_| {
            workshop
                .with(|workshop| bench.drawn(|design| workshop.machine_notes.winder.winder(design)))
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
            winder,
        }
    }

    /// What it takes to wind a bobbin, once that is known.
    pub(super) fn work(self, bobbin: Option<Bobbin>) -> Option<WindingWork> {
        let bench = self.bench;
        self.winder.with(|winder| {
            bench.plan.with(|plan| {
                bench
                    .wound
                    .with(|wound| winder.as_ref()?.work_of(&bobbin?, &plan.bobbins, wound))
            })
        })
    }

    /// Minutes for all that is still to wind, once that is known.
    pub(super) fn minutes_left(self) -> Option<f64> {
        let bench = self.bench;
        self.winder.with(|winder| {
            bench.plan.with(|plan| {
                bench
                    .wound
                    .with(|wound| winder.as_ref()?.minutes_left(&plan.bobbins, wound))
            })
        })
    }

    /// The weight of the thread on a bobbin in grams, as it is typed; empty where it was not weighed.
    pub(super) fn weight(self, bobbin: Option<Bobbin>) -> String {
        let weight = self
            .bench
            .wound
            .with(|wound| wound.tick_of(&bobbin?)?.mass());
        weight.map_or_else(String::new, |mass| show::trimmed(mass.grams(), 3))
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
        let mut wound = self.bench.wound.get_untracked();
        wound.toggle(bobbin, &plan.bobbins);
        self.set(wound);
    }

    /// Notes what the thread on a bobbin weighs, in milligrams.
    pub(super) fn weigh(self, bobbin: &Bobbin, mg: Option<u32>) {
        let plan = self.bench.settled_plan.get_untracked();
        let mut wound = self.bench.wound.get_untracked();
        wound.weigh(bobbin, &plan.bobbins, mg);
        self.set(wound);
    }

    /// Something else is wound: what was unticked before is not brought back over it.
    pub(super) fn set(self, wound: Wound) {
        self.before.set(None);
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
