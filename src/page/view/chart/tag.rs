//! The label beside the hand, or beside a mouse that hovers.

use leptos::prelude::*;

use super::drawn_handles::DrawnHandles;
use crate::base::units::Length;
use crate::page::browser::written::{Text, Texts, Written};
use crate::page::view::bench::{Cursor, bench};
use crate::paper::chart::drag::Drag;
use crate::paper::chart::grip::ChartPoint;
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

/// The label with its place on the chart.
#[derive(Clone, PartialEq)]
struct Placed {
    tag: Tag,
    corner: ChartPoint,
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
        let (spot, _) = handles.spot(drag.index())?;
        let point = bench.drawn(|design| design.draft().points.get(drag.index()).copied())?;
        Some(Pointed {
            at: Length::from_metres(point.at_m),
            size: Length::from_millimetres(point.diameter_mm),
            spot,
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
    let placed = Memo::new(move |_| {
        let pointed = match now.get() {
            Some(drag) => Some(drag).filter(Drag::is_held).and_then(held),
            None => hovered(),
        }?;
        let units = bench.units.get();
        let tag = bench
            .plan
            .with(|plan| Tag::of(plan, pointed.at, pointed.size, units));
        let chart = scale.with(|scale| (scale.width, scale.height));
        let corner = place(pointed.spot, tag.size(), chart, pointed.is_covered);
        Some(Placed { tag, corner })
    });
    let is_there = Memo::new(move |_| placed.with(Option::is_some));
    view! {
        <Show when=move || is_there.get()>
            <Label of=placed />
        </Show>
    }
}

/// The label as it is seen. While it is removed, it says what it said last.
#[component]
fn Label(of: Memo<Option<Placed>>) -> impl IntoView {
    let (label, frame, lines) = (
        NodeRef::<leptos::svg::G>::new(),
        NodeRef::<leptos::svg::Rect>::new(),
        NodeRef::<leptos::svg::G>::new(),
    );
    Effect::new(move |parts: Option<Option<Parts>>| {
        let mut parts = parts.flatten().or_else(|| {
            Some(Parts {
                label: Written::of(label.get()?.into()),
                frame: Written::of(frame.get()?.into()),
                lines: Texts::of(lines.get()?.into()),
            })
        });
        of.with(|placed| {
            if let (Some(parts), Some(placed)) = (&mut parts, placed) {
                parts.show(placed);
            }
        });
        parts
    });
    view! {
        <g node_ref=label class="hand-tag" data-tag="" aria-hidden="true">
            <rect node_ref=frame rx="10" />
            <g node_ref=lines></g>
        </g>
    }
}

/// The parts of the label that follow the line.
struct Parts {
    label: Written,
    frame: Written,
    lines: Texts,
}

impl Parts {
    fn show(&mut self, Placed { tag, corner }: &Placed) {
        let (width, height) = tag.size();
        self.label.set(
            "transform",
            &format!("translate({:.1} {:.1})", corner.0, corner.1),
        );
        self.frame.set("width", &format!("{width:.1}"));
        self.frame.set("height", &format!("{height:.1}"));
        self.lines
            .show(tag.lines.iter().enumerate().map(|(index, words)| Text {
                at: Some((INDENT, FEET[index])),
                attributes: vec![("class", if index < 2 { "own" } else { "" })],
                words,
            }));
    }
}
