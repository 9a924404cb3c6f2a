//! The chosen control point, to set exactly: every drag has a way without dragging.

use leptos::prelude::*;

use super::bench::bench;
use super::field::NumberField;
use crate::design::DraftPoint;
use crate::design::settings::{DIAMETER, POSITION};
use crate::edit::Edit;
use crate::units::show::Units;
use crate::units::text::Unit;

/// One press of ± along the line: 5 cm, or a quarter of a foot.
fn position_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.05,
        Units::Imperial => Unit::Foot.convert(0.25, POSITION.unit).unwrap_or(0.05),
    }
}

/// One press of ± in size: 5 µm, or a fifth of a thousandth of an inch.
fn size_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.005,
        Units::Imperial => Unit::Thousandth
            .convert(0.2, DIAMETER.unit)
            .unwrap_or(0.005),
    }
}

/// The bar under the chart.
#[component]
pub(crate) fn PointBar() -> impl IntoView {
    let bench = bench();
    let count = Memo::new(move |_| bench.design.with(|design| design.draft().points.len()));
    let index = Memo::new(move |_| bench.chosen.get().min(count.get() - 1));
    let point = Memo::new(move |_| {
        bench
            .design
            .with(|design| design.draft().points[index.get()])
    });
    let place = move |point: DraftPoint| {
        let edit = Edit::Place {
            index: index.get_untracked(),
            point,
        };
        bench.edit(edit).map_err(|refusal| refusal.to_string())
    };
    let nudge = move |along: f64, size: f64| {
        let (now, units) = (point.get_untracked(), bench.units.get_untracked());
        let wish = DraftPoint {
            at_m: now.at_m + along * position_step(units),
            diameter_mm: now.diameter_mm + size * size_step(units),
        };
        // Moving, unlike placing, is held back by neighbours and never refused.
        if let Err(refusal) = bench.edit(Edit::Move {
            index: index.get_untracked(),
            wish,
        }) {
            bench.say(refusal.to_string());
        }
    };
    let change = move |edit: Edit| {
        if let Err(refusal) = bench.edit(edit) {
            bench.say(refusal.to_string());
        }
    };
    let choose = move |step: isize| {
        let beside = index.get_untracked().saturating_add_signed(step);
        bench.chosen.set(beside.min(count.get_untracked() - 1));
    };
    let is_first = move || index.get() == 0;
    let is_last = move || index.get() + 1 == count.get();
    view! {
        <div class="point" role="group" aria-label="Chosen point">
            <div class="chooser">
                <button aria-label="point before" disabled=is_first on:click=move |_| choose(-1)>"‹"</button>
                <output>{move || format!("point {} of {}", index.get() + 1, count.get())}</output>
                <button aria-label="point behind" disabled=is_last on:click=move |_| choose(1)>"›"</button>
            </div>
            <div class="change">
                <button data-action="add-point" on:click=move |_| change(Edit::AddBehind(index.get_untracked()))>"Add a point"</button>
                <button data-action="remove-point" disabled=is_first on:click=move |_| change(Edit::Remove(index.get_untracked()))>
                    "Remove it"
                </button>
            </div>
            <div class="value">
                <NumberField
                    label="from the tip"
                    action="point-at"
                    unit=Signal::derive(move || bench.units.get().position())
                    value=Signal::derive(move || converted(point.get().at_m, POSITION.unit, bench.units.get().position()))
                    decimals=4
                    commit=move |typed| {
                        let at_m = converted(typed, bench.units.get_untracked().position(), POSITION.unit);
                        place(DraftPoint { at_m, ..point.get_untracked() })
                    }
                />
                <button aria-label="nearer to the tip" disabled=is_first on:click=move |_| nudge(-1.0, 0.0)>"−"</button>
                <button aria-label="farther from the tip" disabled=is_first on:click=move |_| nudge(1.0, 0.0)>"+"</button>
            </div>
            <div class="value">
                <NumberField
                    label="finished diameter"
                    action="point-size"
                    unit=Signal::derive(move || bench.units.get().diameter())
                    value=Signal::derive(move || converted(point.get().diameter_mm, DIAMETER.unit, bench.units.get().diameter()))
                    decimals=4
                    commit=move |typed| {
                        let diameter_mm = converted(typed, bench.units.get_untracked().diameter(), DIAMETER.unit);
                        place(DraftPoint { diameter_mm, ..point.get_untracked() })
                    }
                />
                <button aria-label="thinner" on:click=move |_| nudge(0.0, -1.0)>"−"</button>
                <button aria-label="thicker" on:click=move |_| nudge(0.0, 1.0)>"+"</button>
            </div>
        </div>
    }
}

/// A value in another unit of the same kind; units of positions and sizes always are.
fn converted(value: f64, from: Unit, to: Unit) -> f64 {
    from.convert(value, to).unwrap_or(value)
}
