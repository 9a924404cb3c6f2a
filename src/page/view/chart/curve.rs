//! The line itself: silhouette, drawing, staircase, angle, the bracket of the head and the dimension lines.

use std::sync::Arc;

use leptos::prelude::*;

use crate::base::units::{Length, show};
use crate::page::view::bench::{Bench, Ghost};
use crate::page::view::rows::Rows;
use crate::paper::chart::finish::Finish;
use crate::paper::chart::paths;
use crate::paper::chart::scale::{DIMENSION_LINE, LEFT, Scale};
use crate::paper::figures::verdict_title;
use crate::plan::{Plan, SectionWeight};

/// Pixels one character of a label takes at most.
const LABEL_WIDTH: f64 = 7.6;

/// On a chart narrower than this, in pixels, the bracket of the head has few words.
const NARROW_HEAD: f64 = 400.0;

/// The shapes that follow the design from frame to frame, as path data. They are calculated once and drawn by chart and loupe
/// alike: an SVG `use` would be made again at each change of what it shows.
#[derive(Clone, Copy)]
pub(super) struct Shapes {
    scale: Signal<Scale>,
    silhouette: Memo<String>,
    weighed: Memo<String>,
    drawn: Memo<String>,
    threads: Memo<String>,
    threads_area: Memo<String>,
    angle_one_gear: Memo<String>,
    gear_marks: Memo<String>,
    angle: Memo<String>,
    angle_outside: Memo<String>,
    ghost: Signal<Option<Ghost>>,
}

impl Shapes {
    /// Of the line on the bench.
    pub(super) fn of(bench: Bench, scale: Signal<Scale>) -> Self {
        let of_plan = |path: fn(&Plan, &Scale) -> String| {
            Memo::new(move |_| {
                bench
                    .plan
                    .with(|plan| scale.with(|scale| path(plan, scale)))
            })
        };
        let of_finish = |path: fn(&Plan, &Scale, Finish) -> String| {
            Memo::new(move |_| {
                bench
                    .plan
                    .with(|plan| scale.with(|scale| path(plan, scale, bench.finish.get())))
            })
        };
        let threads = of_plan(paths::staircase);
        Self {
            scale,
            silhouette: of_finish(paths::silhouette_at),
            weighed: of_finish(paths::weighed),
            drawn: Memo::new(move |_| {
                bench.drawn(|design| scale.with(|scale| paths::drawing(design, scale)))
            }),
            threads,
            threads_area: Memo::new(move |_| {
                threads.with(|line| scale.with(|scale| paths::area_below(line, scale)))
            }),
            angle_one_gear: of_plan(paths::angle_with_one_gear),
            gear_marks: of_plan(paths::gear_changes),
            angle: of_plan(paths::angle),
            angle_outside: of_plan(paths::angle_outside),
            ghost: bench.ghost.into(),
        }
    }
}

/// The shapes, drawn.
#[component]
pub(super) fn Curves(of: Shapes) -> impl IntoView {
    let Shapes { scale, ghost, .. } = of;
    let has_no_threads = move || scale.with(|scale| !scale.has_threads());
    let has_no_angles = move || scale.with(|scale| !scale.has_angles());
    let shape = |class: &'static str, data: Memo<String>| {
        view! { <path class=class d=move || data.get() /> }
    };
    view! {
        <line
            class="axis"
            x1=LEFT - 10.0
            x2=move || scale.with(|scale| LEFT + scale.band_width())
            y1=move || scale.with(|scale| scale.profile().middle())
            y2=move || scale.with(|scale| scale.profile().middle())
        />
        {shape("silhouette", of.silhouette)}
        {shape("weighed", of.weighed)}
        <GhostPath key="outline" path=paths::silhouette ghost scale />
        {shape("drawn", of.drawn)}
        <g class:hidden=has_no_threads>
            {shape("threads-area", of.threads_area)}
            <GhostPath key="threads" path=paths::staircase ghost scale />
            {shape("threads-line", of.threads)}
        </g>
        <g class:hidden=has_no_angles>
            {shape("angle-one-gear", of.angle_one_gear)}
            {shape("gear-marks", of.gear_marks)}
            {shape("angle-line", of.angle)}
            {shape("angle-outside", of.angle_outside)}
        </g>
    }
}

/// What is written about the line: the bracket of the head and the dimension lines. Not clipped to the bands.
#[component]
pub(super) fn Captions(plan: Signal<Arc<Plan>>, scale: Signal<Scale>) -> impl IntoView {
    view! {
        <HeadBracket plan scale />
        <g class:hidden=move || scale.with(|scale| !scale.has_threads())>
            <Dimensions plan scale />
        </g>
    }
}

/// A curve of the line to compare with, dashed; nothing where there is none.
#[component]
fn GhostPath(
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

/// Over the profile: which part of the line is weighed, and what it weighs.
#[component]
fn HeadBracket(plan: Signal<Arc<Plan>>, scale: Signal<Scale>) -> impl IntoView {
    let ends = Memo::new(move |_| {
        plan.with(|plan| {
            let (from, to) = (plan.head.from, plan.head.to.min(plan.length));
            scale.with(|scale| held_in_sight(scale, from, to))
        })
    });
    let y = Memo::new(move |_| scale.with(|scale| scale.profile().top - 14.0));
    let bracket = move || {
        let ends = ends.get();
        ends.map(|(from, to)| paths::dimension_line(from, to, y.get()))
    };
    let label = Memo::new(move |_| {
        plan.with(|plan| match plan.head_mass {
            Some(mass) => {
                let class = verdict_title(&plan.verdict).to_lowercase();
                let head = if scale.with(|scale| scale.width < NARROW_HEAD) {
                    "30 ft:"
                } else {
                    "first 30 ft weigh"
                };
                format!("{head} {}, {class}", show::grains(mass))
            }
            None => "shorter than 30 ft".to_owned(),
        })
    });
    // It begins with the bracket, but never runs off the paper.
    let x = move || {
        let room = label.with(|label| label.chars().count() as f64 * LABEL_WIDTH);
        let right = scale.with(|scale| LEFT + scale.band_width());
        let left = ends.get().map_or(LEFT, |ends| ends.0);
        left.min(right - room).max(LEFT)
    };
    view! {
        <path class="dimension" d=bracket />
        <text class="dimension-label head" x=x y=move || y.get() - 10.0>{move || label.get()}</text>
    }
}

/// Under the profile: the parts of the line with their lengths, as on a workshop drawing.
#[component]
fn Dimensions(plan: Signal<Arc<Plan>>, scale: Signal<Scale>) -> impl IntoView {
    let dimensions = Signal::derive(move || {
        plan.with(|plan| {
            let sections = plan.sections.iter();
            scale.with(|scale| {
                sections
                    .filter_map(|weight| Dimension::of(weight, scale))
                    .collect()
            })
        })
    });
    view! { <Rows of=dimensions row=dimension /> }
}

/// Where a part of the line begins and ends on the chart, cut off at its edges; `None` where it is out of view.
fn held_in_sight(scale: &Scale, from: Length, to: Length) -> Option<(f64, f64)> {
    let (left, right) = (LEFT, LEFT + scale.band_width());
    let (from, to) = (scale.x_of(from), scale.x_of(to));
    (to > left && from < right).then(|| (from.max(left), to.min(right)))
}

/// The dimension line of a part of the line.
#[derive(Clone, PartialEq)]
struct Dimension {
    line: String,
    /// What is written below it, where there is room, and where.
    label: Option<String>,
    at: (f64, f64),
}

impl Dimension {
    /// `None` where the part is out of view.
    fn of(weight: &SectionWeight, scale: &Scale) -> Option<Self> {
        let section = weight.section;
        let (from, to) = held_in_sight(scale, section.from, section.to)?;
        let y = scale.profile().bottom() + DIMENSION_LINE;
        let length = scale.units.show_position(section.to - section.from);
        let label = [format!("{} {length}", section.part.name()), length]
            .into_iter()
            .find(|label| label.chars().count() as f64 * LABEL_WIDTH <= to - from);
        // Near the edges a centred label would run off the paper.
        let middle = f64::midpoint(from, to).max(LEFT);
        Some(Self {
            line: paths::dimension_line(from, to, y),
            label,
            at: (middle, y + 18.0),
        })
    }
}

fn dimension(of: Memo<Dimension>) -> AnyView {
    view! {
        <path class="dimension" d=move || of.read().line.clone() />
        <text class="dimension-label" x=move || of.read().at.0 y=move || of.read().at.1>
            {move || of.read().label.clone()}
        </text>
    }
    .into_any()
}
