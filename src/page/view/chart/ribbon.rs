//! The cells of threads and gears. Their outlines are one path a row; each cell has a text of its own, with what it stands for.

use leptos::prelude::*;

use super::curve::{GhostPath, Shapes};
use crate::page::browser::written::{Text, Texts, Written};
use crate::paper::chart::paths;
use crate::paper::chart::picture::Picture;
use crate::paper::chart::ribbon::{Cell, Row};

/// Both rows.
#[component]
pub(super) fn Ribbon(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    view! {
        <g class="ribbon" aria-hidden="true" class:hidden=move || scale.with(|scale| !scale.has_threads())>
            {of.path("threads-cells", None, |picture| &picture.threads.outlines)}
            {of.path("threads-cells most", None, |picture| &picture.threads.highest)}
            <GhostPath key="threads" path=paths::staircase ghost scale />
            <Figures of key="threads" row=|picture| &picture.threads />
            {of.path("gear-cells", None, |picture| &picture.gears.outlines)}
            <Figures of key="gear" row=|picture| &picture.gears />
        </g>
    }
}

/// The figures of a row.
#[component]
fn Figures(
    of: Shapes,
    /// The key by which tests find the row.
    key: &'static str,
    row: fn(&Picture) -> &Row,
) -> impl IntoView {
    let group = NodeRef::<leptos::svg::G>::new();
    of.follow(group, move |group| {
        let (mut texts, mut group) = (Texts::of(group.clone()), Written::of(group));
        Box::new(move |picture| {
            let row = row(picture);
            group.set("data-ends", &row.ends());
            group.set("transform", &format!("translate(0 {:.1})", row.foot));
            texts.show(row.cells.iter().map(figure));
        })
    });
    view! { <g node_ref=group data-ribbon=key></g> }
}

/// Where there is no room for its figure the cell says it by its data alone.
fn figure(cell: &Cell) -> Text<'_> {
    Text {
        // On whole pixels: in a slow drag most of them stay where they are.
        at: cell.label_at.map(|x| (x.round(), 0.0)),
        attributes: vec![("data-value", &cell.value)],
        words: cell.label_at.map_or("", |_| &cell.value),
    }
}
