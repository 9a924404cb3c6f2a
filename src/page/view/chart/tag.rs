//! The label beside the hand, or beside a mouse that hovers.

use leptos::prelude::*;

use super::drawn_handles::DrawnHandles;
use crate::base::units::Length;
use crate::page::view::bench::{Cursor, bench};
use crate::paper::chart::drag::Drag;
use crate::paper::chart::grip::{ChartPoint, spot};
use crate::paper::chart::scale::Scale;
use crate::paper::chart::tag::{FEET, INDENT, Tag, place};

/// What the label is about: a place of the line, its drawn size, where that is on the chart, whether a hand covers it.
#[derive(Clone, Copy, PartialEq)]
struct Pointed {
    at: Length,
    size: Length,
    spot: ChartPoint,
    is_covered: bool,
}

/// The label, while a hand holds a point or a mouse hovers over the line.
#[component]
pub(super) fn HandTag(
    scale: Signal<Scale>,
    handles: DrawnHandles,
    now: RwSignal<Option<Drag>>,
) -> impl IntoView {
    let bench = bench();
    let held = move |drag: Drag| {
        let edge = handles.edge(drag.index())?;
        let point = bench.drawn(|design| design.draft().points.get(drag.index()).copied())?;
        Some(Pointed {
            at: Length::from_metres(point.at_m),
            size: Length::from_millimetres(point.diameter_mm),
            spot: scale.with(|scale| spot(&point, edge, scale)),
            is_covered: drag.is_covered(),
        })
    };
    let hovered = move || {
        let Cursor::Place(_) = bench.cursor.get() else {
            return None;
        };
        let at = bench.place();
        let size = bench.drawn(|design| design.taper().diameter_at(at));
        let spot = scale.with(|scale| {
            let y = scale.profile().middle() - scale.half_thickness(size);
            (scale.x_of(at), y)
        });
        Some(Pointed {
            at,
            size,
            spot,
            is_covered: false,
        })
    };
    let pointed = Memo::new(move |_| match now.get() {
        Some(drag) => Some(drag).filter(Drag::is_held).and_then(held),
        None => hovered(),
    });
    // What it says; while it is removed, what it said last.
    let shown = Memo::new(move |before: Option<&Option<(Tag, Pointed)>>| {
        let fresh = pointed.get().map(|pointed| {
            let tag = bench
                .plan
                .with(|plan| Tag::of(plan, pointed.at, pointed.size, bench.units.get()));
            (tag, pointed)
        });
        fresh.or_else(|| before.cloned().flatten())
    });
    let size = Memo::new(move |_| shown.with(|shown| shown.as_ref().map(|(tag, _)| tag.size())));
    let size = move || size.get().unwrap_or_default();
    let corner = Memo::new(move |_| {
        let (spot, is_covered) = shown.with(|shown| {
            shown
                .as_ref()
                .map(|(_, pointed)| (pointed.spot, pointed.is_covered))
        })?;
        let chart = scale.with(|scale| (scale.width, scale.height));
        Some(place(spot, size(), chart, is_covered))
    });
    let transform = move || {
        let (x, y) = corner.get().unwrap_or_default();
        format!("translate({x:.1} {y:.1})")
    };
    let line = move |index: usize| {
        let words = Memo::new(move |_| {
            shown.with(|shown| shown.as_ref().map(|(tag, _)| tag.lines[index].clone()))
        });
        let class = if index < 2 { "own" } else { "" };
        view! { <text class=class x=INDENT y=FEET[index]>{move || words.get()}</text> }
    };
    view! {
        <Show when=move || pointed.with(Option::is_some)>
            <g class="hand-tag" data-tag="" aria-hidden="true" transform=transform>
                <rect rx="10" width=move || size().0 height=move || size().1 />
                {core::array::from_fn::<_, { FEET.len() }, _>(line).into_iter().collect_view()}
            </g>
        </Show>
    }
}
