//! The line itself: silhouette, drawing and angle, the breaks in it, and the words about it.

use leptos::html::ElementType;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::Element;

use super::paint::{OUTSIDE, SILK, WEIGHED};
use crate::design::Design;
use crate::page::browser::written::{Text, Texts, Written};
use crate::page::view::bench::{Bench, Ghost, bench};
use crate::paper::chart::breaks::edges;
use crate::paper::chart::notes::{Anchor, Note, Subject};
use crate::paper::chart::paths;
use crate::paper::chart::picture::Picture;
use crate::paper::chart::scale::{LEFT, Scale};
use crate::plan::Plan;

/// Writes what of the picture concerns one element.
type Write = Box<dyn FnMut(&Picture)>;

/// An element that follows the picture.
struct Follower {
    element: Element,
    write: Write,
}

/// What follows the line from move to move. It is calculated once and drawn by chart and loupe alike: an SVG `use` would be made
/// again at each change of what it shows. One effect writes all of it: a move would ask hundreds of effects whether they changed.
#[derive(Clone, Copy)]
pub(super) struct Shapes {
    pub(super) scale: Signal<Scale>,
    pub(super) ghost: Signal<Option<Ghost>>,
    picture: Memo<Picture>,
    followers: StoredValue<Vec<Follower>, LocalStorage>,
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
            ghost: bench.ghost.into(),
            picture,
            followers: StoredValue::new_local(Vec::new()),
        }
    }

    /// Writes each picture to all that follows it.
    pub(super) fn write_each(self) {
        Effect::new(move |_| {
            self.picture.with(|picture| {
                self.followers.update_value(|followers| {
                    followers.retain(|follower| follower.element.is_connected());
                    for follower in followers {
                        (follower.write)(picture);
                    }
                });
            });
        });
    }

    /// Has an element follow the picture while it is on the page.
    pub(super) fn follow<E>(self, node: NodeRef<E>, writer: impl FnOnce(Element) -> Write + 'static)
    where
        E: ElementType + 'static,
        E::Output: JsCast + Clone + 'static,
    {
        node.on_load(move |element| {
            let element: Element = element.unchecked_into();
            let mut write = writer(element.clone());
            self.picture.with_untracked(|picture| write(picture));
            self.followers
                .update_value(|followers| followers.push(Follower { element, write }));
        });
    }

    /// A path of the picture, in a class of style, filled with a pattern or as that class says.
    pub(super) fn path(
        self,
        class: &'static str,
        fill: Option<&'static str>,
        part: fn(&Picture) -> &str,
    ) -> impl IntoView {
        let path = NodeRef::<leptos::svg::Path>::new();
        self.follow(path, move |path| {
            let mut path = Written::of(path);
            Box::new(move |picture| path.set("d", part(picture)))
        });
        view! { <path class=class fill=fill node_ref=path /> }
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

/// The line from the side: silhouette, axis and drawing. All that a loupe at a handle shows.
#[component]
pub(super) fn Profile(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    let middle = Memo::new(move |_| scale.with(|scale| scale.profile().middle()));
    view! {
        {of.path("silhouette", Some(SILK), |picture| &picture.silhouette)}
        {of.path("weighed", Some(WEIGHED), |picture| &picture.weighed)}
        <line class="axis" x1=LEFT x2=move || scale.with(Scale::right) y1=middle y2=middle />
        <GhostPath key="outline" path=paths::silhouette ghost scale />
        <OriginalPath ghost scale />
        {of.path("drawn", None, |picture| &picture.drawn)}
    }
}

/// The angle along the line, in a strip of its own.
#[component]
fn Angles(of: Shapes) -> impl IntoView {
    let scale = of.scale;
    view! {
        <g class:hidden=move || scale.with(|scale| !scale.has_angles())>
            <Tolerance scale />
            {of.path("angle-outside-area", Some(OUTSIDE), |picture| &picture.outside_area)}
            {of.path("angle-one-gear", None, |picture| &picture.one_gear)}
            {of.path("angle-line", None, |picture| &picture.angle)}
            {of.path("angle-outside", None, |picture| &picture.outside)}
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

/// The measured line that the line is a copy of, dashed; nothing while another line is compared with.
#[component]
fn OriginalPath(ghost: Signal<Option<Ghost>>, scale: Signal<Scale>) -> impl IntoView {
    let bench = bench();
    let curve = Memo::new(move |_| {
        ghost.with(Option::is_none).then_some(())?;
        let original = bench.settled.with(Design::original_taper)?;
        Some(scale.with(|scale| paths::edges_of(&original, scale)))
    });
    move || {
        curve
            .get()
            .map(|curve| view! { <path class="ghost" data-ghost="original" d=curve /> })
    }
}

/// What is written about the line, and the bracket over what is weighed. Not clipped to the bands.
#[component]
pub(super) fn Notes(of: Shapes) -> impl IntoView {
    let notes = NodeRef::<leptos::svg::G>::new();
    of.follow(notes, |group| {
        let mut texts = Texts::of(group);
        Box::new(move |picture| texts.show(picture.notes.iter().map(text)))
    });
    view! {
        <g aria-hidden="true">
            {of.path("bracket", None, |picture| picture.bracket.as_deref().unwrap_or_default())}
            <g node_ref=notes></g>
        </g>
    }
}

fn text(note: &Note) -> Text<'_> {
    let subject = match note.subject {
        Subject::Head => "head",
        Subject::Level => "level",
        Subject::Core => "core",
        Subject::Row => "row",
    };
    let anchor = match note.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    Text {
        at: Some((note.x, note.y)),
        attributes: vec![
            ("class", "written"),
            ("data-note", subject),
            ("text-anchor", anchor),
        ],
        words: &note.words,
    }
}
