//! The cells of threads and gears. Their outlines are one path a row; each cell has a text of its own, with what it stands for.

use leptos::prelude::*;
use web_sys::Element;

use super::curve::{GhostPath, Shapes};
use crate::page::browser::texts::{Text, Texts};
use crate::paper::chart::paths;
use crate::paper::chart::picture::Picture;
use crate::paper::chart::ribbon::{Cell, Row};

/// Both rows.
#[component]
pub(super) fn Ribbon(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    let outline = |class: &'static str, part: fn(&Picture) -> &String| {
        let data = of.part(part);
        view! { <path class=class d=move || data.get() /> }
    };
    view! {
        <g class="ribbon" aria-hidden="true" class:hidden=move || scale.with(|scale| !scale.has_threads())>
            {outline("threads-cells", |picture| &picture.threads.outlines)}
            {outline("threads-cells most", |picture| &picture.threads.highest)}
            <GhostPath key="threads" path=paths::staircase ghost scale />
            <Figures of key="threads" row=|picture| &picture.threads />
            {outline("gear-cells", |picture| &picture.gears.outlines)}
            <Figures of key="gear" row=|picture| &picture.gears />
        </g>
    }
}

/// The figures of a row. One effect keeps them in step: with one for each attribute of each cell, a move would ask hundreds
/// whether they changed.
#[component]
fn Figures(
    of: Shapes,
    /// The key by which tests find the row.
    key: &'static str,
    row: fn(&Picture) -> &Row,
) -> impl IntoView {
    let group = NodeRef::<leptos::svg::G>::new();
    Effect::new(move |texts: Option<Texts>| {
        let mut texts = texts.unwrap_or_default();
        if let Some(group) = group.get() {
            let group: &Element = &group;
            of.picture
                .with(|picture| texts.show(group, row(picture).cells.iter().map(figure)));
        }
        texts
    });
    let ends = Memo::new(move |_| of.picture.with(|picture| row(picture).ends()));
    let foot = Memo::new(move |_| of.picture.with(|picture| row(picture).foot));
    view! {
        <g
            node_ref=group
            data-ribbon=key
            data-ends=move || ends.get()
            transform=move || format!("translate(0 {:.1})", foot.get())
        ></g>
    }
}

/// Where there is no room for its figure the cell says it by its data alone.
fn figure(cell: &Cell) -> Text<'_> {
    Text {
        x: cell.label_at,
        words: &cell.value,
    }
}
