//! The chosen control point, to set exactly: every drag has a way without dragging. With it, what moves along and what
//! points are drawn to.

mod move_options;
mod point_field;

use leptos::prelude::*;

use super::bench::{Bench, Cursor, bench};
use super::entries::{Entries, EntryGroup};
use super::icon::{Glyph, Icon};
use crate::base::units::Length;
use crate::design::DraftPoint;
use crate::design::settings::POSITION;
use crate::edit::Edit;
use crate::edit::snap::{round_length, thread_beside};
use crate::paper::words::point_place;

pub(crate) use point_field::{Axis, PointField, converted, point_in, point_of};

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
        let count = Memo::new(move |_| bench.drawn(|design| design.draft().points.len()));
        let index = Memo::new(move |_| bench.chosen.get().min(count.get() - 1));
        let point = Memo::new(move |_| point_of(bench, index.get()));
        Self {
            bench,
            count,
            index,
            point,
        }
    }

    /// Moves it along the line by a round length; held back by its neighbours, like a drag.
    fn nudge_along(self, is_farther: bool) {
        let step = round_length(self.bench.units.get_untracked()).metres();
        let now = self.point.get_untracked();
        self.nudge(DraftPoint {
            at_m: now.at_m + if is_farther { step } else { -step },
            ..now
        });
    }

    /// Makes it one thread's worth thicker or thinner.
    fn nudge_size(self, is_thicker: bool) {
        let now = self.point.get_untracked();
        let size = Length::from_millimetres(now.diameter_mm);
        let beside = self
            .bench
            .settled
            .with_untracked(|design| thread_beside(design, size, is_thicker));
        self.nudge(DraftPoint {
            diameter_mm: beside.millimetres(),
            ..now
        });
    }

    fn nudge(self, wish: DraftPoint) {
        self.bench.try_move(self.index.get_untracked(), wish);
        self.bench.settle();
    }

    /// Adds a point on the curve: at the cursor, else in the middle of the stretch after the chosen point.
    fn add(self) {
        let at_m = match self.bench.cursor.get_untracked() {
            Cursor::Place(at) => at.metres(),
            Cursor::Point => self.middle_behind(),
        };
        // On the grid, so that it is found again there.
        let at_m = POSITION.value(POSITION.quanta(at_m));
        let ends = self.bench.move_options.get_untracked().ends;
        if self.bench.commit_or_say(Edit::Add { at_m, ends }) {
            let near =
                |point: &DraftPoint| (point.at_m - at_m).abs() < 0.5 / f64::from(POSITION.steps);
            let added = self
                .bench
                .settled
                .with_untracked(|design| design.draft().points.iter().position(near));
            self.bench.choose(added.unwrap_or_default());
        }
    }

    fn middle_behind(self) -> f64 {
        let before = self
            .index
            .get_untracked()
            .min(self.count.get_untracked() - 2);
        self.bench.settled.with_untracked(|design| {
            let points = &design.draft().points;
            f64::midpoint(points[before].at_m, points[before + 1].at_m)
        })
    }

    fn remove(self) {
        self.bench.commit_or_say(Edit::Remove {
            index: self.index.get_untracked(),
            ends: self.bench.move_options.get_untracked().ends,
        });
    }

    fn choose(self, step: isize) {
        let beside = self.index.get_untracked().saturating_add_signed(step);
        self.bench
            .choose(beside.min(self.count.get_untracked() - 1));
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
}

/// The chosen point: which, where, how thick, and what can be done with it.
#[component]
pub(crate) fn PointBar() -> impl IntoView {
    let chosen = Chosen::of(bench());
    view! {
        <div class="card point" role="group" aria-label="Chosen point">
            <EntryGroup entries=Entries::new()>
                <Chooser chosen />
                <Changes chosen />
                <div class="values">
                    <PositionField chosen />
                    <SizeField chosen />
                </div>
            </EntryGroup>
        </div>
    }
}

#[component]
fn Chooser(chosen: Chosen) -> impl IntoView {
    let words = move || format!("Point {} of {}", chosen.index.get() + 1, chosen.count.get());
    let place = move || {
        chosen
            .bench
            .settled
            .with(|design| point_place(&design.taper(), chosen.index.get()))
    };
    view! {
        <div class="chooser">
            <button
                class="plain"
                aria-label="previous point"
                data-action="point-before"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.choose(-1)
            >
                <Glyph icon=Icon::Before />
            </button>
            <output>{words}<span class="quiet">{place}</span></output>
            <button
                class="plain"
                aria-label="next point"
                data-action="point-behind"
                disabled=move || chosen.is_last()
                on:click=move |_| chosen.choose(1)
            >
                <Glyph icon=Icon::Next />
            </button>
        </div>
    }
}

#[component]
fn Changes(chosen: Chosen) -> impl IntoView {
    let bench = chosen.bench;
    let add_words = move || match bench.cursor.get() {
        Cursor::Place(_) => "Add a point here",
        Cursor::Point => "Add a point after this one",
    };
    view! {
        <div class="change">
            <button class="plain" data-action="add-point" aria-label=add_words title=add_words on:click=move |_| chosen.add()>
                <Glyph icon=Icon::Plus />
            </button>
            <button
                class="plain"
                data-action="remove-point"
                aria-label="Remove this point"
                title="Remove this point"
                disabled=move || chosen.must_stay()
                on:click=move |_| chosen.remove()
            >
                <Glyph icon=Icon::Bin />
            </button>
            <move_options::MoveChoices index=chosen.index />
        </div>
    }
}

#[component]
fn PositionField(chosen: Chosen) -> impl IntoView {
    view! {
        <div class="value">
            <button
                class="plain"
                aria-label="nearer to the tip"
                data-action="nearer"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.nudge_along(false)
            >
                <Glyph icon=Icon::Minus />
            </button>
            <PointField index=chosen.index axis=Axis::Place label="from the tip" action="point-at" />
            <button
                class="plain"
                aria-label="farther from the tip"
                data-action="farther"
                disabled=move || chosen.is_first()
                on:click=move |_| chosen.nudge_along(true)
            >
                <Glyph icon=Icon::Plus />
            </button>
        </div>
    }
}

#[component]
fn SizeField(chosen: Chosen) -> impl IntoView {
    view! {
        <div class="value">
            <button class="plain" aria-label="thinner by one thread" data-action="thinner" on:click=move |_| chosen.nudge_size(false)>
                <Glyph icon=Icon::Minus />
            </button>
            <PointField index=chosen.index axis=Axis::Size label="diameter" action="point-size" />
            <button class="plain" aria-label="thicker by one thread" data-action="thicker" on:click=move |_| chosen.nudge_size(true)>
                <Glyph icon=Icon::Plus />
            </button>
        </div>
    }
}
