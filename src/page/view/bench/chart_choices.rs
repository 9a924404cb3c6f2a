//! How the reader wants the chart drawn: preferences, kept in this browser.

use leptos::prelude::*;

use super::state::Bench;
use crate::page::browser::storage::preference;
use crate::paper::chart::scale::Manner;
use crate::paper::chart::scale::folds::Folds;

/// Keys under which they are kept.
const FOLD_KEY: &str = "taperwright/fold";
const CORE_KEY: &str = "taperwright/core";
/// What is kept where the reader wants true lengths, or true thickness.
const TRUE: &str = "true";
/// What is kept where not.
const SHORT: &str = "short";

/// How the chart is drawn.
#[derive(Clone, Copy)]
pub(crate) struct ChartChoices {
    /// Whether level stretches are drawn short, and the core not at all.
    pub(crate) manner: RwSignal<Manner>,
    /// The folds of the chart as it stands. The chart sets it; what is brought into sight needs it.
    pub(crate) folds: RwSignal<Folds>,
}

impl ChartChoices {
    /// As chosen at an earlier visit.
    pub(super) fn open() -> Self {
        let is_short = |key| preference(key).as_deref() != Some(TRUE);
        Self {
            manner: RwSignal::new(Manner {
                is_folded: is_short(FOLD_KEY),
                is_cut: is_short(CORE_KEY),
            }),
            folds: RwSignal::new(Folds::NONE),
        }
    }
}

impl Bench {
    /// Draws level stretches short, or as long as they are, now and at the next visit.
    pub(crate) fn set_folded(self, is_folded: bool) {
        self.chart
            .manner
            .update(|manner| manner.is_folded = is_folded);
        // A part in sight is a part of the paper, which is another one now.
        self.sight.set(None);
        self.keep_preference(FOLD_KEY, if is_folded { SHORT } else { TRUE });
    }

    /// Draws thickness from a core on, or all of it, now and at the next visit.
    pub(crate) fn set_cut(self, is_cut: bool) {
        self.chart.manner.update(|manner| manner.is_cut = is_cut);
        self.keep_preference(CORE_KEY, if is_cut { SHORT } else { TRUE });
    }
}
