//! The cells of threads and gears. Their outlines are one path a row; each cell has a text of its own, with what it stands for.

use leptos::prelude::*;

use super::curve::{GhostPath, Shapes};
use crate::page::view::rows::Rows;
use crate::paper::chart::paths;
use crate::paper::chart::ribbon::{Cell, Row};

/// Both rows.
#[component]
pub(super) fn Ribbon(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    let (threads, gears) = (
        of.row(|picture| &picture.threads),
        of.row(|picture| &picture.gears),
    );
    let outline = |class: &'static str, row: Memo<Row>, part: fn(&Row) -> &String| {
        let data = Memo::new(move |_| row.with(|row| part(row).clone()));
        view! { <path class=class d=move || data.get() /> }
    };
    let cells = |row: Memo<Row>| Signal::derive(move || row.with(|row| row.cells.clone()));
    view! {
        <g class="ribbon" aria-hidden="true" class:hidden=move || scale.with(|scale| !scale.has_threads())>
            {outline("threads-cells", threads, |row| &row.outlines)}
            {outline("threads-cells most", threads, |row| &row.highest)}
            <GhostPath key="threads" path=paths::staircase ghost scale />
            <Rows of=cells(threads) row=thread_cell />
            {outline("gear-cells", gears, |row| &row.outlines)}
            <Rows of=cells(gears) row=gear_cell />
        </g>
    }
}

fn thread_cell(of: Memo<Cell>) -> AnyView {
    cell(of, "threads")
}

fn gear_cell(of: Memo<Cell>) -> AnyView {
    cell(of, "gear")
}

fn cell(of: Memo<Cell>, row: &'static str) -> AnyView {
    let value = Memo::new(move |_| of.with(|cell| cell.value.clone()));
    let from = Memo::new(move |_| of.with(|cell| cell.from.metres()));
    let to = Memo::new(move |_| of.with(|cell| cell.to.metres()));
    let label_at = Memo::new(move |_| of.with(|cell| cell.label_at));
    let y = Memo::new(move |_| of.with(|cell| cell.y));
    // Where there is no room for its figure the cell says it by its data alone.
    let figure = Memo::new(move |_| label_at.get().map(|_| value.get()));
    view! {
        <text
            data-ribbon=row
            data-value=move || value.get()
            data-from=move || from.get().to_string()
            data-to=move || to.get().to_string()
            x=move || label_at.get().unwrap_or_default()
            y=move || y.get()
        >
            {move || figure.get()}
        </text>
    }
    .into_any()
}
