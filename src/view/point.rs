//! The chosen control point, to set exactly: every drag has a way without dragging. With it, undo and redo.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::field::NumberField;
use crate::design::DraftPoint;
use crate::design::settings::{DIAMETER, POSITION};
use crate::edit::{Edit, Level};
use crate::units::show::Units;
use crate::units::text::Unit;

/// One press of ± along the line: 5 cm, or a quarter of a foot.
fn position_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.05,
        Units::Imperial => converted(0.25, Unit::Foot, POSITION.unit),
    }
}

/// One press of ± in size: 5 µm, or a fifth of a thousandth of an inch.
fn size_step(units: Units) -> f64 {
    match units {
        Units::Metric => 0.005,
        Units::Imperial => converted(0.2, Unit::Thousandth, DIAMETER.unit),
    }
}

/// A value in another unit of the same kind; units of positions and sizes always are.
fn converted(value: f64, from: Unit, to: Unit) -> f64 {
    from.convert(value, to).unwrap_or(value)
}

/// The chosen point, and what can be done with it.
#[derive(Clone, Copy)]
struct Chosen {
    bench: Bench,
    count: Memo<usize>,
    index: Memo<usize>,
    point: Memo<DraftPoint>,
}

impl Chosen {
    fn of(bench: Bench) -> Self {
        let count = Memo::new(move |_| bench.design.with(|design| design.draft().points.len()));
        let index = Memo::new(move |_| bench.chosen.get().min(count.get() - 1));
        let point = Memo::new(move |_| {
            let design = bench.design.read();
            design.draft().points[index.get()]
        });
        Self {
            bench,
            count,
            index,
            point,
        }
    }

    /// Puts the point exactly there, or says why not.
    fn place(self, point: DraftPoint) -> Result<(), String> {
        let edit = Edit::Place {
            index: self.index.get_untracked(),
            point,
            level: self.bench.level.get_untracked(),
        };
        self.bench.commit(edit)
    }

    /// Moves it by so many steps; held back by its neighbours, like a drag.
    fn nudge(self, along: f64, size: f64) {
        let (now, units) = (self.point.get_untracked(), self.bench.units.get_untracked());
        let wish = DraftPoint {
            at_m: now.at_m + along * position_step(units),
            diameter_mm: now.diameter_mm + size * size_step(units),
        };
        self.change(Edit::Move {
            index: self.index.get_untracked(),
            wish,
            level: self.bench.level.get_untracked(),
        });
    }

    /// Adds a point on the curve behind this one, and chooses it.
    fn add(self) {
        let before = self
            .index
            .get_untracked()
            .min(self.count.get_untracked() - 2);
        if self.change(Edit::AddBehind(before)) {
            self.bench.chosen.set(before + 1);
        }
    }

    fn remove(self) {
        self.change(Edit::Remove(self.index.get_untracked()));
    }

    fn choose(self, step: isize) {
        let beside = self.index.get_untracked().saturating_add_signed(step);
        self.bench
            .chosen
            .set(beside.min(self.count.get_untracked() - 1));
    }

    /// Makes a change, or says at the top of the page why not; whether it was made.
    fn change(self, edit: Edit) -> bool {
        let made = self.bench.commit(edit);
        made.map_err(|said| self.bench.say(said)).is_ok()
    }

    fn is_first(self) -> bool {
        self.index.get() == 0
    }

    fn is_last(self) -> bool {
        self.index.get() + 1 == self.count.get()
    }

    /// The first point is the tip, and two points are the least a taper has.
    fn must_stay(self) -> bool {
        self.is_first() || self.count.get() == 2
    }

    /// The level run it belongs to, counted from 1, where that is more than itself.
    fn level_run(self) -> Option<(usize, usize)> {
        let (first, last) = self
            .bench
            .design
            .with(|design| design.taper().level_run(self.index.get()));
        (first < last).then_some((first + 1, last + 1))
    }
}

/// The bar under the chart.
#[component]
pub(crate) fn PointBar() -> impl IntoView {
    let chosen = Chosen::of(bench());
    view! {
        <div class="point" role="group" aria-label="Chosen point">
            <Chooser chosen />
            <Changes chosen />
            <PositionEntry chosen />
            <SizeEntry chosen />
            <LevelChoice chosen />
        </div>
    }
}

#[component]
fn Chooser(chosen: Chosen) -> impl IntoView {
    let words = move || format!("point {} of {}", chosen.index.get() + 1, chosen.count.get());
    view! {
        <div class="chooser">
            <button
                aria-label="the point before"
                data-action="point-before"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.choose(-1)
            >
                "‹"
            </button>
            <output>{words}</output>
            <button
                aria-label="the point behind"
                data-action="point-behind"
                disabled=move || chosen.is_last()
                on:click=move |_| chosen.choose(1)
            >
                "›"
            </button>
        </div>
    }
}

#[component]
fn Changes(chosen: Chosen) -> impl IntoView {
    let bench = chosen.bench;
    view! {
        <div class="change">
            <button data-action="undo" disabled=move || !bench.can_undo() on:click=move |_| bench.undo()>
                "Undo"
            </button>
            <button data-action="redo" disabled=move || !bench.can_redo() on:click=move |_| bench.redo()>
                "Redo"
            </button>
            <button data-action="add-point" on:click=move |_| chosen.add()>"Add a point"</button>
            <button
                data-action="remove-point"
                disabled=move || chosen.must_stay()
                on:click=move |_| chosen.remove()
            >
                "Remove it"
            </button>
        </div>
    }
}

#[component]
fn PositionEntry(chosen: Chosen) -> impl IntoView {
    let bench = chosen.bench;
    let unit = Signal::derive(move || bench.units.get().position());
    let value =
        Signal::derive(move || converted(chosen.point.get().at_m, POSITION.unit, unit.get()));
    let take = move |typed| {
        let at_m = converted(typed, unit.get_untracked(), POSITION.unit);
        chosen.place(DraftPoint {
            at_m,
            ..chosen.point.get_untracked()
        })
    };
    view! {
        <div class="value">
            <NumberField label="from the tip" action="point-at" unit value decimals=4 commit=take />
            <button
                aria-label="nearer to the tip"
                data-action="nearer"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.nudge(-1.0, 0.0)
            >
                "−"
            </button>
            <button
                aria-label="farther from the tip"
                data-action="farther"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.nudge(1.0, 0.0)
            >
                "+"
            </button>
        </div>
    }
}

#[component]
fn SizeEntry(chosen: Chosen) -> impl IntoView {
    let bench = chosen.bench;
    let unit = Signal::derive(move || bench.units.get().diameter());
    let value = Signal::derive(move || {
        converted(chosen.point.get().diameter_mm, DIAMETER.unit, unit.get())
    });
    let take = move |typed| {
        let diameter_mm = converted(typed, unit.get_untracked(), DIAMETER.unit);
        chosen.place(DraftPoint {
            diameter_mm,
            ..chosen.point.get_untracked()
        })
    };
    view! {
        <div class="value">
            <NumberField label="finished diameter" action="point-size" unit value decimals=4 commit=take />
            <button aria-label="thinner" data-action="thinner" on:click=move |_| chosen.nudge(0.0, -1.0)>"−"</button>
            <button aria-label="thicker" data-action="thicker" on:click=move |_| chosen.nudge(0.0, 1.0)>"+"</button>
        </div>
    }
}

/// Whether a level stretch stays level when one of its points changes size. It keeps its room when it does not apply.
#[component]
fn LevelChoice(chosen: Chosen) -> impl IntoView {
    let bench = chosen.bench;
    let words = move || match chosen.level_run() {
        Some((first, last)) => {
            format!("keep points {first} to {last} level: they change size together")
        }
        None => "this point ends no level stretch".to_owned(),
    };
    let set = move |on: bool| {
        let level = if on { Level::Stays } else { Level::Bends };
        bench.level.set(level);
    };
    view! {
        <label class="level" class:idle=move || chosen.level_run().is_none()>
            <input
                type="checkbox"
                data-action="keep-level"
                disabled=move || chosen.level_run().is_none()
                prop:checked=move || bench.level.get() == Level::Stays
                on:change:target=move |event| set(event.target().checked())
            />
            <span>{words}</span>
        </label>
    }
}
