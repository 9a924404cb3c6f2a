//! The place where the taper is drawn: the chart, the chosen point, and what the line becomes.

use leptos::prelude::*;

use super::bench::bench;
use super::chart::Chart;
use super::intro::Hint;
use super::point::PointBar;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use crate::base::units::show::Units;
use crate::page::browser::element_size;
use crate::paper::figures::{summary, verdict_detail, verdict_title};
use crate::plan::Plan;

/// The place.
#[component]
pub(crate) fn Draw() -> impl IntoView {
    view! {
        <div class="draw">
            <section class="sight" aria-label="Drawing of the taper">
                <Chart />
                <Hint />
                <ShapeGuide />
            </section>
            <div class="draw-side">
                <PointBar />
                <ClassCard />
                <Summary />
            </div>
        </div>
    }
}

/// What the arrows on the handles mean, while they are there.
#[component]
fn ShapeGuide() -> impl IntoView {
    let bench = bench();
    let is_shown = Memo::new(move |_| bench.wish.with(Option::is_some));
    view! {
        <Show when=move || is_shown.get()>
            <div class="shape-guide" data-shape-guide="">
                <p>{move || bench.guide.get()}</p>
                <SheetButton kind=SheetKind::Turnover>"Details"</SheetButton>
                <button data-action="turnover-hide" on:click=move |_| bench.wish.set(None)>"Hide arrows"</button>
            </div>
        </Show>
    }
}

/// How far the line is from its class, where there is room beside the chart.
#[component]
fn ClassCard() -> impl IntoView {
    let bench = bench();
    let (card, is_seen) = (
        NodeRef::<leptos::html::Section>::new(),
        RwSignal::new(false),
    );
    // Where the style leaves it out it has no size, and says nothing.
    card.on_load(move |card| {
        element_size::watch(&card, move |(width, _)| is_seen.set(width > 0.0));
    });
    let said = move |say: fn(&Plan, Units) -> String| {
        let seen = is_seen.get();
        seen.then(|| {
            bench
                .shown
                .with(|shown| say(&shown.plan, bench.units.get()))
        })
    };
    let title = move || said(|plan, _| verdict_title(&plan.verdict));
    let detail = move || said(verdict_detail);
    view! {
        <section class="card class-card" aria-hidden="true" node_ref=card>
            <h2>{title}</h2>
            <p>{detail}</p>
        </section>
    }
}

/// The figures looked at most while drawing, and the way to all others.
#[component]
fn Summary() -> impl IntoView {
    let bench = bench();
    let rows = Memo::new(move |_| {
        bench
            .shown
            .with(|shown| summary(&shown.plan, bench.units.get()))
    });
    let row = move |index: usize| {
        let value = move || rows.with(|rows| rows[index].1.clone());
        let name = rows.with_untracked(|rows| rows[index].0);
        view! { <div><dt>{name}</dt><dd>{value}</dd></div> }
    };
    let count = rows.with_untracked(|rows| rows.len());
    view! {
        <section class="card summary" aria-label="Result">
            <dl>{(0..count).map(row).collect_view()}</dl>
            <div class="buttons">
                <SheetButton kind=SheetKind::Numbers>"Type all points"</SheetButton>
                <SheetButton kind=SheetKind::Compare>"Compare"</SheetButton>
                <SheetButton kind=SheetKind::Turnover>"Turnover"</SheetButton>
            </div>
        </section>
    }
}
