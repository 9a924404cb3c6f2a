//! The line itself: silhouette, drawing, staircase, angle, the bracket of the head and the dimension lines.

use leptos::prelude::*;

use crate::chart::heft::Finish;
use crate::chart::paths;
use crate::chart::scale::{DIMENSION_LINE, LEFT, Scale};
use crate::design::Design;
use crate::figures::verdict_title;
use crate::plan::{Plan, SectionWeight};
use crate::units::{Length, show};
use crate::view::bench::Ghost;
use crate::view::words;

/// Pixels one character of a label takes at most.
const LABEL_WIDTH: f64 = 7.6;

/// On a chart narrower than this, in pixels, the bracket of the head has few words.
const NARROW_HEAD: f64 = 400.0;

/// Everything that follows the design from frame to frame.
#[component]
pub(super) fn Curves(
    design: Signal<Design>,
    plan: Signal<Plan>,
    scale: Signal<Scale>,
    /// Bare, oiled or finished.
    #[prop(into, default = Signal::stored(Finish::Finished))]
    finish: Signal<Finish>,
    /// The line laid behind, if any.
    #[prop(into, optional)]
    ghost: Signal<Option<Ghost>>,
) -> impl IntoView {
    let of_plan = move |path: fn(&Plan, &Scale) -> String| {
        move || plan.with(|plan| scale.with(|scale| path(plan, scale)))
    };
    let has_no_threads = move || scale.with(|scale| !scale.has_threads());
    let of_finish = move |path: fn(&Plan, &Scale, Finish) -> String| {
        move || plan.with(|plan| scale.with(|scale| path(plan, scale, finish.get())))
    };
    let has_no_angles = move || scale.with(|scale| !scale.has_angles());
    view! {
        <line
            class="axis"
            x1=LEFT - 10.0
            x2=move || scale.with(|scale| LEFT + scale.band_width())
            y1=move || scale.with(|scale| scale.profile().middle())
            y2=move || scale.with(|scale| scale.profile().middle())
        />
        <path class="silhouette" d=of_finish(paths::silhouette_at) />
        <path class="weighed" d=of_finish(paths::weighed) />
        <GhostPath key="outline" path=paths::silhouette ghost scale />
        <path class="drawn" d=move || design.with(|design| scale.with(|scale| paths::drawing(design, scale))) />
        <g class:hidden=has_no_threads>
            <path class="threads-area" d=of_plan(paths::staircase_area) />
            <GhostPath key="threads" path=paths::staircase ghost scale />
            <path class="threads-line" d=of_plan(paths::staircase) />
        </g>
        <g class:hidden=has_no_angles>
            <path class="angle-one-gear" d=of_plan(paths::angle_with_one_gear) />
            <path class="gear-marks" d=of_plan(paths::gear_changes) />
            <path class="angle-line" d=of_plan(paths::angle) />
            <path class="angle-outside" d=of_plan(paths::angle_outside) />
        </g>
    }
}

/// What is written about the line: the bracket of the head and the dimension lines. Not clipped to the bands.
#[component]
pub(super) fn Captions(plan: Signal<Plan>, scale: Signal<Scale>) -> impl IntoView {
    view! {
        <HeadBracket plan scale />
        <g class:hidden=move || scale.with(|scale| !scale.has_threads())>
            <Dimensions plan scale />
        </g>
    }
}

/// A curve of the line laid behind, dashed; nothing where there is none.
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
fn HeadBracket(plan: Signal<Plan>, scale: Signal<Scale>) -> impl IntoView {
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
fn Dimensions(plan: Signal<Plan>, scale: Signal<Scale>) -> impl IntoView {
    let sections = Memo::new(move |_| plan.with(|plan| plan.sections.clone()));
    move || {
        let scale = scale.get();
        sections.with(|sections| {
            sections
                .iter()
                .filter_map(|weight| dimension(weight, &scale))
                .collect_view()
        })
    }
}

/// Where a part of the line begins and ends on the chart, cut off at its edges; nothing where it is out of sight.
fn held_in_sight(scale: &Scale, from: Length, to: Length) -> Option<(f64, f64)> {
    let (left, right) = (LEFT, LEFT + scale.band_width());
    let (from, to) = (scale.x_of(from), scale.x_of(to));
    (to > left && from < right).then(|| (from.max(left), to.min(right)))
}

fn dimension(weight: &SectionWeight, scale: &Scale) -> Option<impl IntoView + use<>> {
    let section = weight.section;
    let (from, to) = held_in_sight(scale, section.from, section.to)?;
    let y = scale.profile().bottom() + DIMENSION_LINE;
    let line = paths::dimension_line(from, to, y);
    let length = scale.units.show_position(section.to - section.from);
    let label = [format!("{} {length}", words::part(section.part)), length]
        .into_iter()
        .find(|label| label.chars().count() as f64 * LABEL_WIDTH <= to - from);
    // Near the edges a centred label would run off the paper.
    let middle = f64::midpoint(from, to).max(LEFT);
    Some(view! {
        <path class="dimension" d=line />
        <text class="dimension-label" x=middle y=y + 18.0>{label}</text>
    })
}
