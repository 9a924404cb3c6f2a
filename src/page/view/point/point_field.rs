//! Fields for one point: where it is, how thick it is. The bar under the chart, the table and the sliders share them.

use crate::base::rule::Rule;
use leptos::prelude::*;

use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::design::settings::{DIAMETER, POSITION};
use crate::design::{Design, DraftPoint};
use crate::edit::Edit;
use crate::page::view::bench::{Bench, bench};
use crate::page::view::field::NumberField;

/// One of the two numbers of a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Axis {
    /// Its distance from the tip.
    Place,
    /// Its finished diameter.
    Size,
}

impl Axis {
    /// Name, unit, range and step.
    pub(crate) fn rule(self) -> Rule {
        match self {
            Self::Place => POSITION,
            Self::Size => DIAMETER,
        }
    }

    /// The number of a point, in the unit of the rule.
    pub(crate) fn of(self, point: DraftPoint) -> f64 {
        match self {
            Self::Place => point.at_m,
            Self::Size => point.diameter_mm,
        }
    }

    /// The point with another number, in the unit of the rule.
    pub(crate) fn put(self, point: DraftPoint, value: f64) -> DraftPoint {
        match self {
            Self::Place => DraftPoint {
                at_m: value,
                ..point
            },
            Self::Size => DraftPoint {
                diameter_mm: value,
                ..point
            },
        }
    }

    fn unit(self, units: Units) -> Unit {
        match self {
            Self::Place => units.position(),
            Self::Size => units.diameter(),
        }
    }
}

/// A point as it is this moment; the last one where there are fewer.
pub(crate) fn point_of(bench: Bench, index: usize) -> DraftPoint {
    bench.drawn(|design| point_in(design, index))
}

/// A point of a design; the last one where there are fewer.
pub(crate) fn point_in(design: &Design, index: usize) -> DraftPoint {
    let points = &design.draft().points;
    points[index.min(points.len() - 1)]
}

/// A value in another unit of the same kind; units of positions and sizes always are.
pub(crate) fn converted(value: f64, from: Unit, to: Unit) -> f64 {
    from.convert(value, to).unwrap_or(value)
}

/// A field for one number of a point, in the reader's unit.
#[component]
pub(crate) fn PointField(
    /// Which point.
    #[prop(into)]
    index: Signal<usize>,
    /// Which of its numbers.
    axis: Axis,
    /// The field's name.
    #[prop(into)]
    label: String,
    /// A key for tests.
    action: &'static str,
) -> impl IntoView {
    let bench = bench();
    let rule = axis.rule();
    let unit = Signal::derive(move || axis.unit(bench.units.get()));
    let value = Signal::derive(move || {
        converted(axis.of(point_of(bench, index.get())), rule.unit, unit.get())
    });
    let take = move |typed| {
        let index = index.get_untracked();
        let point = untrack(|| point_of(bench, index));
        bench.commit(Edit::Place {
            index,
            point: axis.put(point, converted(typed, unit.get_untracked(), rule.unit)),
            options: bench.move_options.get_untracked(),
        })
    };
    view! { <NumberField label unit value decimals=4 commit=take action /> }
}
