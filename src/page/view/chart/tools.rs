//! Above the chart: undo and redo, how it is drawn, and which part of the line it shows.

use leptos::prelude::*;

use super::zoom::{line, look};
use crate::base::units::Length;
use crate::page::view::bench::bench;
use crate::page::view::icon::{Glyph, Icon};
use crate::paper::chart::scale::folds::Folds;
use crate::paper::chart::scale::{Manner, Scale};

/// How many times closer one press of a button looks.
const TIMES: f64 = 1.6;
/// Share of the chart that one press moves it along.
const STEP_ALONG: f64 = 0.4;

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
        <div class="change" role="group" aria-label="Undo and redo">
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
        <div class="manner-of-chart" role="group" aria-label="Display of the chart">
            <button
                data-action="fold"
                aria-pressed=move || is_folded.get().to_string()
                disabled=has_none
                on:click=move |_| {
                    let now = manner.get_untracked();
                    bench.set_manner(Manner { is_folded: !now.is_folded, ..now });
                }
            >
                <Glyph icon=Icon::Fold />
                <span class="label">"Fold level parts"</span>
            </button>
            <button
                data-action="core"
                aria-pressed=move || is_whole.get().to_string()
                on:click=move |_| {
                    let now = manner.get_untracked();
                    bench.set_manner(Manner { is_cut: !now.is_cut, ..now });
                }
            >
                <Glyph icon=Icon::Core />
                <span class="label">"True thickness"</span>
            </button>
        </div>
    }
}

/// Which part of the line is shown.
#[component]
fn ZoomButtons(scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    let is_whole = move || bench.sight.with(Option::is_none);
    let sight = move || scale.with_untracked(Scale::visible);
    let is_closest = move || scale.with(|scale| scale.visible().is_closest());
    let closer = move |times: f64| {
        let line = line(bench, scale);
        let at = scale.with_untracked(|scale| scale.paper_of(untrack(|| bench.place())));
        look(
            bench,
            scale,
            sight().zoomed(times, at, line).showing(at, line),
        );
    };
    let along = move |share: f64| {
        let sight = sight();
        let moved = sight.moved(sight.length * share, line(bench, scale));
        look(bench, scale, moved);
    };
    let begins_at_tip = move || is_whole() || scale.with(|scale| scale.from <= Length::ZERO);
    let ends_at_end = move || {
        is_whole() || scale.with(|scale| scale.shows(bench.settled_plan.with(|plan| plan.length)))
    };
    view! {
        <div class="zoom" role="group" aria-label="Part of the chart shown">
            <button class="if-closer" data-action="zoom-tipward" aria-label="Towards the tip" disabled=begins_at_tip on:click=move |_| along(-STEP_ALONG)>
                <Glyph icon=Icon::Before />
            </button>
            <button class="if-closer" data-action="zoom-endward" aria-label="Towards the end" disabled=ends_at_end on:click=move |_| along(STEP_ALONG)>
                <Glyph icon=Icon::Next />
            </button>
            <button class="if-closer" data-action="zoom-out" aria-label="Zoom out" disabled=is_whole on:click=move |_| closer(1.0 / TIMES)>
                <Glyph icon=Icon::ZoomOut />
            </button>
            <button data-action="zoom-in" aria-label="Zoom in" disabled=is_closest on:click=move |_| closer(TIMES)>
                <Glyph icon=Icon::ZoomIn />
            </button>
            <button data-action="zoom-whole" aria-label="Show the whole line" disabled=is_whole on:click=move |_| bench.sight.set(None)>
                <Glyph icon=Icon::Whole />
            </button>
        </div>
    }
}
