//! What is chosen for a new line, and what came of it.

use std::sync::Arc;

use leptos::prelude::*;

use super::source::{self, Source};
use crate::braid::weight::Class;
use crate::design::Design;
use crate::edit::starts::Start;
use crate::page::places::Place;
use crate::page::view::bench::Bench;
use crate::page::view::places::Places;
use crate::plan::Plan;

/// What is chosen so far, and what it makes.
#[derive(Clone, Copy)]
pub(super) struct NewLine {
    pub(super) bench: Bench,
    places: Places,
    pub(super) shape: RwSignal<Option<Start>>,
    pub(super) class: RwSignal<Option<Class>>,
    pub(super) source: RwSignal<Source>,
    /// The machines with their yarn to choose from.
    pub(super) sources: StoredValue<Vec<Source>>,
    pub(super) made: RwSignal<Made>,
}

impl NewLine {
    pub(super) fn open(bench: Bench, places: Places) -> Self {
        let sources = source::all(bench);
        let first = sources[0].clone();
        Self {
            bench,
            places,
            shape: RwSignal::new(None),
            class: RwSignal::new(None),
            source: RwSignal::new(first),
            sources: StoredValue::new(sources),
            made: RwSignal::new(Made::Unasked),
        }
    }

    /// All that is asked for, once it is chosen.
    pub(super) fn asked(self) -> Option<(Start, Class, Source)> {
        Some((self.shape.get()?, self.class.get()?, self.source.get()))
    }

    /// Opens the line that is shown, beside the others.
    pub(super) fn begin(self) {
        if let Made::Line(made) = self.made.get_untracked() {
            self.places.go(Place::Draw);
            self.bench.take_in(made.design.clone());
        }
    }
}

/// What came of the choices.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Made {
    /// Something is not chosen yet.
    Unasked,
    /// It is being calculated.
    Coming,
    /// The line with its plan.
    Line(Arc<MadeLine>),
    /// Why there is none.
    Nothing(String),
}

/// A line that can be begun.
#[derive(Debug, PartialEq)]
pub(super) struct MadeLine {
    pub(super) design: Design,
    pub(super) plan: Plan,
    /// What the maker's ends to a thread became, where the line needs others.
    pub(super) ends: Option<(u32, u32)>,
}

/// The ready drawing as it is chosen: on a machine, of a class.
pub(super) fn line_of(shape: Start, class: Class, source: &Source) -> Result<Design, String> {
    shape
        .on(&source.design, class)
        .map_err(|why| why.to_string())
        .and_then(|design| source.named(&design))
}
