//! The control points for the keyboard and for screen readers: each is a group of two sliders, its place and its size. They take
//! no room; the ring on the chart shows which is focused. A point has them while its handle is drawn.
//!
//! Arrow keys move by a round length, or by a step of size; with Page Up and Page Down by ten times that, or by one thread's
//! worth; Home and End go as far as the point can. Keys held down are one gesture, finished when they are released.

use leptos::prelude::*;
use web_sys::KeyboardEvent;

use super::drawn_handles::DrawnHandles;
use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::base::units::{Length, show};
use crate::design::DraftPoint;
use crate::design::settings::DIAMETER;
use crate::edit::snap::{round_length, thread_beside};
use crate::page::view::bench::{Bench, bench};
use crate::page::view::point::{Axis, point_in, point_of};
use crate::paper::words;

/// Round lengths in a large step.
const LARGE: f64 = 10.0;

/// A group for each point whose handle is drawn, tip first.
#[component]
pub(super) fn PointSliders(
    handles: DrawnHandles,
    /// The point that has the keyboard.
    focused: RwSignal<Option<usize>>,
) -> impl IntoView {
    view! {
        <div class="spoken-points">
            <For each=move || handles.points.get() key=|index| *index let:index>
                <PointSlider index focused />
            </For>
        </div>
    }
}

#[component]
fn PointSlider(index: usize, focused: RwSignal<Option<usize>>) -> impl IntoView {
    let bench = bench();
    // While a hand drags, nobody reads them: they follow once it lets go. Only the one with the keyboard follows at once.
    let point = Memo::new(move |_| {
        if focused.get() == Some(index) {
            point_of(bench, index)
        } else {
            bench.settled.with(|design| point_in(design, index))
        }
    });
    let name = move || {
        let place = bench
            .settled
            .with(|design| words::point_place(&design.taper(), index));
        format!("Point {}, {place}", index + 1)
    };
    // Only what keys began here is finished here: a slider may keep the focus while a hand drags a point.
    let is_moving = StoredValue::new(false);
    let go = move |wish: DraftPoint| {
        if bench.drag.with_untracked(Option::is_none) {
            is_moving.set_value(true);
            bench.try_move(index, wish);
        }
    };
    let finish = move || {
        if is_moving.get_value() {
            is_moving.set_value(false);
            bench.settle();
        }
    };
    let slider = move |axis: Axis| {
        let rule = axis.rule();
        let value = move || axis.of(point.get());
        view! {
            <input
                type="range"
                aria-label=rule.name
                data-slider=match axis { Axis::Place => "at", Axis::Size => "size" }
                data-slider-point=index
                min=rule.low
                max=rule.high
                step=1.0 / f64::from(rule.steps)
                prop:value=value
                aria-valuetext=move || slider_words(bench, point.get(), axis)
                on:focus=move |_| {
                    focused.set(Some(index));
                    bench.choose(index);
                }
                on:blur=move |_| {
                    focused.set(None);
                    finish();
                }
                on:keydown=move |event| {
                    if let Some(wished) = wished(bench, point.get_untracked(), axis, &event) {
                        event.prevent_default();
                        go(wished);
                    }
                }
                on:keyup=move |_| finish()
                on:input:target=move |event| {
                    if let Ok(value) = event.target().value().parse() {
                        go(axis.put(point.get_untracked(), value));
                        // Where the point is held back the slider must not move either.
                        event.target().set_value(&axis.of(point.get_untracked()).to_string());
                    }
                }
                on:change=move |_| finish()
            />
        }
    };
    view! {
        <div role="group" aria-label=name>
            {slider(Axis::Place)}
            {slider(Axis::Size)}
        </div>
    }
}

/// What a slider says: its value with its unit, and what it makes of the line.
fn slider_words(bench: Bench, point: DraftPoint, axis: Axis) -> String {
    let units = bench.units.get();
    let value = match axis {
        Axis::Place => units.show_position(Length::from_metres(point.at_m)),
        Axis::Size => units.show_diameter_short(Length::from_millimetres(point.diameter_mm)),
    };
    // The settled plan: a slider held down is not a stream of words.
    let effect = bench.settled_plan.with(|plan| {
        let title = crate::paper::figures::verdict_title(&plan.verdict);
        plan.head_mass.map_or(title.clone(), |mass| {
            format!("{title}, head {}", show::grains(mass))
        })
    });
    format!("{value}; {effect}")
}

/// Where a key moves the point; `None` for keys without a meaning here.
fn wished(
    bench: Bench,
    point: DraftPoint,
    axis: Axis,
    event: &KeyboardEvent,
) -> Option<DraftPoint> {
    if event.alt_key() || event.ctrl_key() || event.meta_key() {
        return None;
    }
    let units = bench.units.get_untracked();
    let (steps, is_large) = match event.key().as_str() {
        "ArrowRight" | "ArrowUp" => (1.0, false),
        "ArrowLeft" | "ArrowDown" => (-1.0, false),
        "PageUp" => (1.0, true),
        "PageDown" => (-1.0, true),
        "Home" => (f64::NEG_INFINITY, false),
        "End" => (f64::INFINITY, false),
        _ => return None,
    };
    Some(match axis {
        Axis::Place => {
            let step = round_length(units).metres() * if is_large { LARGE } else { 1.0 };
            DraftPoint {
                at_m: point.at_m + steps * step,
                ..point
            }
        }
        Axis::Size => DraftPoint {
            diameter_mm: size_wished(bench, point, units, steps, is_large),
            ..point
        },
    })
}

fn size_wished(bench: Bench, point: DraftPoint, units: Units, steps: f64, is_large: bool) -> f64 {
    let by_threads = is_large || bench.snap.get_untracked().threads;
    if by_threads && steps.is_finite() {
        let size = Length::from_millimetres(point.diameter_mm);
        let beside = bench
            .settled
            .with_untracked(|design| thread_beside(design, size, steps > 0.0));
        beside.millimetres()
    } else {
        point.diameter_mm + steps * size_step(units)
    }
}

/// One press of an arrow in size: 5 µm, or a fifth of a thousandth of an inch.
fn size_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.005,
        Units::Imperial => Unit::Thousandth
            .convert(0.2, DIAMETER.unit)
            .unwrap_or_default(),
    }
}
