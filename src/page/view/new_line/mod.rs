//! A new line: its shape, its class, and the machine with its yarn, chosen one after the other. What that makes is shown before
//! the line is begun.

mod choices;
mod outcome;
mod source;
mod state;

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::places::places;
use super::sheet::Sheet;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use crate::design::Design;
use choices::{ClassChoice, ShapeChoice, SourceChoice};
use outcome::{Outcome, watch};
use state::{Made, NewLine};

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
        <p class="hint">"Or copy a line that you own: measure it, and its taper is found."</p>
        <SheetButton kind=SheetKind::Measured>{SheetKind::Measured.title()}</SheetButton>
        <p class="hint">"The open line is not changed. The shapes are invented examples: change them as you like."</p>
    }
}

/// Machines with their yarn to choose from: what each is called, and a design with its settings, which belongs to its workshop.
pub(crate) fn sources(bench: Bench) -> Vec<(String, Design)> {
    let sources = source::all(bench).into_iter();
    sources
        .filter_map(|source| {
            let design = source.named(&source.design).ok()?;
            Some((source.name, design))
        })
        .collect()
}
