//! A new line: its shape, its class, and the machine with its yarn, chosen one after the other. What that makes is shown before
//! the line is begun.

mod choices;
mod outcome;
mod source;

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::braid::weight::Class;
use crate::design::Design;
use crate::edit::starts::Start;
use crate::page::places::Place;
use crate::page::view::places::{Places, places};
use choices::{ClassChoice, ShapeChoice, SourceChoice};
use outcome::{Made, Outcome, watch};
use source::Source;

/// What is chosen so far, and what it makes.
#[derive(Clone, Copy)]
struct NewLine {
    bench: Bench,
    places: Places,
    shape: RwSignal<Option<Start>>,
    class: RwSignal<Option<Class>>,
    source: RwSignal<Source>,
    /// The machines with their yarn to choose from.
    sources: StoredValue<Vec<Source>>,
    made: RwSignal<Made>,
}

impl NewLine {
    fn open(bench: Bench, places: Places) -> Self {
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
    fn asked(self) -> Option<(Start, Class, Source)> {
        Some((self.shape.get()?, self.class.get()?, self.source.get()))
    }

    /// Opens the line that is shown, beside the others.
    fn begin(self) {
        if let Made::Line(made) = self.made.get_untracked() {
            self.places.go(Place::Draw);
            self.bench.take_in(made.design.clone());
        }
    }
}

/// The sheet.
#[component]
pub(crate) fn NewLineSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::NewLine><Form /></Sheet> }
}

#[component]
fn Form() -> impl IntoView {
    let new_line = NewLine::open(bench(), places());
    watch(new_line);
    let is_ready = move || new_line.made.with(|made| matches!(made, Made::Line(_)));
    view! {
        <ShapeChoice new_line />
        <ClassChoice new_line />
        <SourceChoice new_line />
        <Outcome new_line />
        <button
            class="main start-begin"
            data-action="start-begin"
            disabled=move || !is_ready()
            on:click=move |_| new_line.begin()
        >
            "Start drawing"
        </button>
        <p class="hint">"The line open now stays as it is. The shapes are invented examples: change them as you like."</p>
    }
}

/// The ready drawing as it is chosen: on a machine, of a class.
fn line_of(shape: Start, class: Class, source: &Source) -> Result<Design, String> {
    shape
        .on(&source.design, class)
        .map_err(|why| why.to_string())
        .and_then(|design| source.named(&design))
}
