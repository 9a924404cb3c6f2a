//! How the line on the bench differs from the other, also while it is dragged. A difference is one's own less the other's.

use leptos::prelude::*;

use crate::base::units::show::Units;
use crate::page::view::bench::{Bench, Ghost, bench};
use crate::paper::compare::{Amount, Compared, ComparedPlace, ComparedWords, Comparison};

/// A row: what tests look for, and the words. As text, so that only changed texts are written again.
#[derive(Clone, Debug, Default, PartialEq)]
struct ComparisonRow {
    key: &'static str,
    name: &'static str,
    mine: Option<f64>,
    other: Option<f64>,
    words: ComparedWords,
}

impl ComparisonRow {
    fn of(compared: &Compared, units: Units) -> Self {
        let number = |amount: Option<Amount>| amount.and_then(Amount::si);
        Self {
            key: compared.key,
            name: compared.name,
            mine: number(compared.mine),
            other: number(compared.other),
            words: compared.words(units),
        }
    }
}

/// Both tables.
#[component]
pub(super) fn Tables() -> impl IntoView {
    let bench = bench();
    let comparison = Memo::new(move |_| compared(bench));
    let title = move || {
        let title = |ghost: &Ghost| ghost.title.clone();
        bench
            .ghost
            .with(|ghost| ghost.as_ref().map(title).unwrap_or_default())
    };
    let figures = Memo::new(move |_| comparison.with(|one| one.figures.len()));
    let stations = Memo::new(move |_| comparison.with(|one| one.places.len()));
    view! {
        <table>
            <caption>"This line and " <b>{title}</b></caption>
            <Head first="weights, sizes" />
            <tbody>
                <For each=move || 0..figures.get() key=|index| *index let:index>
                    <FigureRow comparison index />
                </For>
            </tbody>
        </table>
        <table>
            <caption>"At the control points of both lines"</caption>
            <Head first="place" />
            <For each=move || 0..stations.get() key=|index| *index let:index>
                <StationRows comparison index />
            </For>
        </table>
    }
}

/// Nothing to compare is an empty comparison: the tables are about to go.
fn compared(bench: Bench) -> Comparison {
    let against = |ghost: &Ghost| {
        let other = (&ghost.design, &ghost.plan);
        bench
            .plan
            .with(|plan| bench.drawn(|design| Comparison::of((design, plan), other)))
    };
    let nothing = Comparison {
        figures: Vec::new(),
        places: Vec::new(),
    };
    bench
        .ghost
        .with(|ghost| ghost.as_ref().map_or(nothing, against))
}

#[component]
fn Head(first: &'static str) -> impl IntoView {
    view! {
        <thead>
            <tr>
                <th scope="col">{first}</th>
                <th scope="col">"yours"</th>
                <th scope="col">"other"</th>
                <th scope="col">"difference"</th>
            </tr>
        </thead>
    }
}

#[component]
fn FigureRow(comparison: Memo<Comparison>, index: usize) -> impl IntoView {
    let units = bench().units;
    let row = Memo::new(move |_| {
        let row = |compared: &Compared| ComparisonRow::of(compared, units.get());
        comparison.with(|one| one.figures.get(index).map(row).unwrap_or_default())
    });
    view! {
        <tr
            data-compared=move || row.with(|row| row.key)
            data-mine=move || number(row.with(|row| row.mine))
            data-other=move || number(row.with(|row| row.other))
        >
            <Cells row />
        </tr>
    }
}

/// A place, and below it a row for each thing compared there.
#[component]
fn StationRows(comparison: Memo<Comparison>, index: usize) -> impl IntoView {
    let units = bench().units;
    let station = Memo::new(move |_| comparison.with(|one| one.places.get(index).copied()));
    let at = move || station.get().map(|station| station.at);
    let place = move || at().map(|at| units.get().show_position(at));
    let rows = Memo::new(move |_| {
        let row = |compared: Compared| ComparisonRow::of(&compared, units.get());
        let rows = |station: ComparedPlace| station.rows().map(row);
        station.get().map(rows).unwrap_or_default()
    });
    let line = move |which: usize| {
        let row = Memo::new(move |_| rows.with(|rows| rows[which].clone()));
        view! {
            <tr
                data-quantity=move || row.with(|row| row.key)
                data-mine=move || number(row.with(|row| row.mine))
                data-other=move || number(row.with(|row| row.other))
            >
                <Cells row />
            </tr>
        }
    };
    view! {
        <tbody data-compared-station=index.to_string() data-at=move || at().map(|at| at.metres().to_string())>
            <tr class="place">
                <th colspan="4" scope="rowgroup">{place}</th>
            </tr>
            {[0, 1, 2].map(line).into_iter().collect_view()}
        </tbody>
    }
}

#[component]
fn Cells(row: Memo<ComparisonRow>) -> impl IntoView {
    view! {
        <th scope="row">{move || row.with(|row| row.name)}</th>
        <td>{move || row.with(|row| row.words.mine.clone())}</td>
        <td>{move || row.with(|row| row.words.other.clone())}</td>
        <td class="difference">{move || row.with(|row| row.words.difference.clone())}</td>
    }
}

/// A number as tests read it; empty where there is none.
fn number(si: Option<f64>) -> String {
    si.map_or_else(String::new, |si| si.to_string())
}
