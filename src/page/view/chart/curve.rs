//! The line itself: silhouette, drawing and angle, the breaks in it, and the words about it.

use leptos::prelude::*;

use super::paint::{OUTSIDE, SILK, WEIGHED};
use crate::page::view::bench::{Bench, Ghost};
use crate::page::view::rows::Rows;
use crate::paper::chart::breaks::edges;
use crate::paper::chart::notes::{Anchor, Note, Subject};
use crate::paper::chart::paths;
use crate::paper::chart::picture::Picture;
use crate::paper::chart::scale::{LEFT, Scale};
use crate::plan::Plan;

/// What follows the line from frame to frame. It is calculated once and drawn by chart and loupe alike: an SVG `use` would be made
/// again at each change of what it shows.
#[derive(Clone, Copy)]
pub(super) struct Shapes {
    pub(super) scale: Signal<Scale>,
    pub(super) picture: Memo<Picture>,
    pub(super) ghost: Signal<Option<Ghost>>,
}

impl Shapes {
    /// Of the line on the bench.
    pub(super) fn of(bench: Bench, scale: Signal<Scale>) -> Self {
        let picture = Memo::new(move |_| {
            let (plan, finish) = (bench.plan.get(), bench.finish.get());
            bench.drawn(|design| scale.with(|scale| Picture::of(design, &plan, scale, finish)))
        });
        Self {
            scale,
            picture,
            ghost: bench.ghost.into(),
        }
    }

    /// A part of the picture.
    pub(super) fn part(self, part: fn(&Picture) -> &String) -> Memo<String> {
        Memo::new(move |_| self.picture.with(|picture| part(picture).clone()))
    }
}

/// The shapes, drawn.
#[component]
pub(super) fn Curves(of: Shapes) -> impl IntoView {
    view! {
        <Profile of />
        <Angles of />
    }
}

/// A path of the picture, in a class of style.
fn shape(of: Shapes, class: &'static str, part: fn(&Picture) -> &String) -> impl IntoView {
    let data = of.part(part);
    view! { <path class=class d=move || data.get() /> }
}

/// The same, filled with a pattern.
fn filled(
    of: Shapes,
    class: &'static str,
    fill: &'static str,
    part: fn(&Picture) -> &String,
) -> impl IntoView {
    let data = of.part(part);
    view! { <path class=class fill=fill d=move || data.get() /> }
}

/// The line from the side: silhouette, axis and drawing. All that a loupe at a handle shows.
#[component]
pub(super) fn Profile(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    let middle = Memo::new(move |_| scale.with(|scale| scale.profile().middle()));
    view! {
        {filled(of, "silhouette", SILK, |picture| &picture.silhouette)}
        {filled(of, "weighed", WEIGHED, |picture| &picture.weighed)}
        <line class="axis" x1=LEFT x2=move || scale.with(Scale::right) y1=middle y2=middle />
        <GhostPath key="outline" path=paths::silhouette ghost scale />
        {shape(of, "drawn", |picture| &picture.drawn)}
    }
}

/// The angle along the line, in a strip of its own.
#[component]
fn Angles(of: Shapes) -> impl IntoView {
    let scale = of.scale;
    view! {
        <g class:hidden=move || scale.with(|scale| !scale.has_angles())>
            <Tolerance scale />
            {filled(of, "angle-outside-area", OUTSIDE, |picture| &picture.outside_area)}
            {shape(of, "angle-one-gear", |picture| &picture.one_gear)}
            {shape(of, "angle-line", |picture| &picture.angle)}
            {shape(of, "angle-outside", |picture| &picture.outside)}
        </g>
    }
}

/// The band of angles within the tolerance, and the target in it.
#[component]
fn Tolerance(scale: Signal<Scale>) -> impl IntoView {
    let y = move |tolerances: f64| {
        scale.with(|scale| scale.y_of_angle_held(scale.target + scale.tolerance * tolerances))
    };
    let right = move || scale.with(Scale::right);
    view! {
        <rect
            class="tolerance"
            x=LEFT
            y=move || y(1.0)
            width=move || scale.with(Scale::band_width)
            height=move || y(-1.0) - y(1.0)
        />
        <line class="target" x1=LEFT x2=right y1=move || y(0.0) y2=move || y(0.0) />
    }
}

/// The edges of the breaks. They stay while a hand drags.
#[component]
pub(super) fn Breaks(scale: Signal<Scale>) -> impl IntoView {
    view! { <path class="break" d=move || scale.with(edges) /> }
}

/// A curve of the line to compare with, dashed; nothing where there is none.
#[component]
pub(super) fn GhostPath(
    /// The key by which tests find it.
    key: &'static str,
    path: fn(&Plan, &Scale) -> String,
    ghost: Signal<Option<Ghost>>,
    scale: Signal<Scale>,
) -> impl IntoView {
    let curve = Memo::new(move |_| {
        let curve = |ghost: &Ghost| scale.with(|scale| path(&ghost.plan, scale));
        ghost.with(|ghost| ghost.as_ref().map(curve))
    });
    move || {
        curve
            .get()
            .map(|curve| view! { <path class="ghost" data-ghost=key d=curve /> })
    }
}

/// What is written about the line, and the bracket over what is weighed. Not clipped to the bands.
#[component]
pub(super) fn Notes(of: Shapes) -> impl IntoView {
    let bracket = Memo::new(move |_| of.picture.with(|picture| picture.bracket.clone()));
    let notes = Signal::derive(move || of.picture.with(|picture| picture.notes.clone()));
    view! {
        <g aria-hidden="true">
            <path class="bracket" d=move || bracket.get() />
            <Rows of=notes row=note />
        </g>
    }
}

fn note(of: Memo<Note>) -> AnyView {
    let subject = Memo::new(move |_| {
        of.with(|note| match note.subject {
            Subject::Head => "head",
            Subject::Level => "level",
            Subject::Core => "core",
            Subject::Row => "row",
        })
    });
    let anchor = Memo::new(move |_| {
        of.with(|note| match note.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        })
    });
    let (x, y) = (
        Memo::new(move |_| of.with(|note| note.x)),
        Memo::new(move |_| of.with(|note| note.y)),
    );
    let words = Memo::new(move |_| of.with(|note| note.words.clone()));
    view! {
        <text class="written" data-note=move || subject.get() text-anchor=move || anchor.get() x=move || x.get() y=move || y.get()>
            {move || words.get()}
        </text>
    }
    .into_any()
}
