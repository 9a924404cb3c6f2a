//! How the reader wants the chart drawn: preferences, kept in this browser.

use leptos::prelude::*;

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

    /// What is kept of a manner: texts by key.
    pub(super) fn kept_of(manner: Manner) -> [(&'static str, &'static str); 2] {
        let word = |is_short| if is_short { SHORT } else { TRUE };
        [
            (FOLD_KEY, word(manner.is_folded)),
            (CORE_KEY, word(manner.is_cut)),
        ]
    }
}
