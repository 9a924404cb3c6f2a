//! Above the chart: undo and redo, how it is drawn, and which part of the line it shows.

use leptos::prelude::*;

use super::zoom::ZoomButtons;
use crate::page::view::bench::bench;
use crate::page::view::icon::{Glyph, Icon};
use crate::paper::chart::scale::Scale;
use crate::paper::chart::scale::folds::Folds;

/// All of them.
#[component]
pub(super) fn Tools(scale: Signal<Scale>) -> impl IntoView {
    view! {
        <div class="tools" class:closer=move || bench().sight.with(Option::is_some)>
            <UndoButtons />
            <MannerButtons />
            <ZoomButtons scale />
        </div>
    }
}

/// Undo and redo, always in view.
#[component]
fn UndoButtons() -> impl IntoView {
    let bench = bench();
    view! {
        <div class="change" role="group" aria-label="What was done">
            <button data-action="undo" aria-label="Undo" disabled=move || !bench.can_undo() on:click=move |_| bench.undo()>
                <Glyph icon=Icon::Undo />
            </button>
            <button data-action="redo" aria-label="Redo" disabled=move || !bench.can_redo() on:click=move |_| bench.redo()>
                <Glyph icon=Icon::Redo />
            </button>
        </div>
    }
}

/// Whether level parts are drawn short, and whether all thickness is drawn.
#[component]
fn MannerButtons() -> impl IntoView {
    let bench = bench();
    let manner = bench.chart.manner;
    let is_folded = Memo::new(move |_| manner.with(|manner| manner.is_folded));
    // A line without long level parts has nothing to draw short.
    let has_none = move || is_folded.get() && bench.chart.folds.with(Folds::is_empty);
    let is_whole = Memo::new(move |_| manner.with(|manner| !manner.is_cut));
    view! {
        <div class="manner-of-chart" role="group" aria-label="How the chart is drawn">
            <button
                data-action="fold"
                aria-pressed=move || is_folded.get().to_string()
                disabled=has_none
                on:click=move |_| bench.set_folded(!is_folded.get_untracked())
            >
                <Glyph icon=Icon::Fold />
                <span class="label">"Fold level parts"</span>
            </button>
            <button
                data-action="core"
                aria-pressed=move || is_whole.get().to_string()
                on:click=move |_| bench.set_cut(is_whole.get_untracked())
            >
                <Glyph icon=Icon::Core />
                <span class="label">"True thickness"</span>
            </button>
        </div>
    }
}
