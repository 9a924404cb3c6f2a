//! The whole drawing in numbers: every point to type in, the lengths of the parts, and all sizes at once.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use super::field::NumberField;
use super::icon::{Glyph, Icon};
use super::point::{Axis, PointField, converted, point_of};
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::base::units::Length;
use crate::base::units::text::Unit;
use crate::braid::letters::Letter;
use crate::braid::taper::{Part, Taper};
use crate::design::settings::POSITION;
use crate::edit::Edit;

/// The sheet.
#[component]
pub(crate) fn NumbersSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Numbers><Points /></Sheet> }
}

#[component]
fn Points() -> impl IntoView {
    let bench = bench();
    let count = Memo::new(move |_| bench.settled.with(|design| design.draft().points.len()));
    let position_unit = move || bench.units.get().position().symbol();
    let diameter_unit = move || bench.units.get().diameter().symbol();
    view! {
        <section class="points" aria-label="The drawing in numbers">
            <table>
                <thead>
                    <tr>
                        <th scope="col">"point"</th>
                        <th scope="col">"from the tip, "{position_unit}</th>
                        <th scope="col">"to the next, "{position_unit}</th>
                        <th scope="col">"finished diameter, "{diameter_unit}</th>
                        <th scope="col">"size, threads"</th>
                    </tr>
                </thead>
                <tbody>
                    <For each=move || 0..count.get() key=|index| *index let:index>
                        <PointRow index count />
                    </For>
                </tbody>
            </table>
            <Parts />
            <Sizes />
        </section>
    }
}

#[component]
fn PointRow(index: usize, count: Memo<usize>) -> impl IntoView {
    let bench = bench();
    let point = Memo::new(move |_| point_of(bench, index));
    let at = Signal::stored(index);
    let is_last = Memo::new(move |_| index + 1 == count.get());
    let is_chosen = move || bench.chosen.get() == index;
    let made = move || {
        let point = point.get();
        let letter = Letter::nearest(Length::from_millimetres(point.diameter_mm));
        let station = bench
            .plan
            .with(|plan| plan.station(Length::from_metres(point.at_m)));
        let letter = letter.map_or("–", |letter| letter.name);
        format!("{letter}, {}", station.piece.load.threads)
    };
    view! {
        <tr data-row=index class:chosen=is_chosen on:focusin=move |_| bench.choose(index)>
            <th scope="row">
                <button
                    data-action="choose-point"
                    aria-pressed=move || is_chosen().to_string()
                    aria-label=format!("choose point {}", index + 1)
                    on:click=move |_| bench.choose(index)
                >
                    {index + 1}
                </button>
            </th>
            <td><PointField index=at axis=Axis::Place label=format!("point {}, from the tip", index + 1) action="row-at" /></td>
            <td>{move || (!is_last.get()).then(|| view! { <StretchField index /> })}</td>
            <td><PointField index=at axis=Axis::Size label=format!("point {}, finished diameter", index + 1) action="row-size" /></td>
            <td class="made">{made}</td>
        </tr>
    }
}

/// The length to the next point. A new one moves everything after it along.
#[component]
fn StretchField(index: usize) -> impl IntoView {
    let bench = bench();
    let ends = (index, index + 1);
    let label = format!("point {} to point {}", ends.0 + 1, ends.1 + 1);
    let unit = Signal::derive(move || bench.units.get().position());
    let value = Signal::derive(move || length_between(bench, ends, unit.get()));
    let take = move |typed| lengthen(bench, ends, typed, unit.get_untracked());
    view! { <NumberField label unit value decimals=4 commit=take action="row-stretch" /> }
}

/// The length between two points, in a unit.
fn length_between(bench: Bench, (first, last): (usize, usize), unit: Unit) -> f64 {
    bench.drawn(|design| {
        let points = &design.draft().points;
        let at = |index: usize| points[index.min(points.len() - 1)].at_m;
        converted(at(last) - at(first), POSITION.unit, unit)
    })
}

fn lengthen(
    bench: Bench,
    (first, last): (usize, usize),
    typed: f64,
    unit: Unit,
) -> Result<(), String> {
    bench.commit(Edit::Lengthen {
        first,
        last,
        length_m: converted(typed, unit, POSITION.unit),
        ends: bench.move_options.get_untracked().ends,
    })
}

/// A part of the line, with the points at its ends.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
struct PartEnds {
    part: Option<Part>,
    ends: (usize, usize),
}

/// The parts of a line, and the whole of it last.
fn parts(taper: &Taper) -> Vec<PartEnds> {
    let index = |at: Length| taper.points().iter().position(|point| point.at == at);
    let part = |section: crate::braid::taper::Section| {
        Some(PartEnds {
            part: Some(section.part),
            ends: (index(section.from)?, index(section.to)?),
        })
    };
    let whole = PartEnds {
        part: None,
        ends: (0, taper.points().len() - 1),
    };
    taper
        .sections()
        .into_iter()
        .filter_map(part)
        .chain([whole])
        .collect()
}

/// The length of every part. A new one keeps the shape within the part, and moves everything after it along.
#[component]
fn Parts() -> impl IntoView {
    let bench = bench();
    let parts = Memo::new(move |_| bench.settled.with(|design| parts(&design.taper())));
    let field = move |PartEnds { part, ends }: PartEnds| {
        let unit = Signal::derive(move || bench.units.get().position());
        let value = Signal::derive(move || length_between(bench, ends, unit.get()));
        let take = move |typed| lengthen(bench, ends, typed, unit.get_untracked());
        let (label, action) = match part {
            Some(part) => (part.name(), "part-length"),
            None => ("whole line", "line-length"),
        };
        view! { <NumberField label unit value decimals=4 commit=take action /> }
    };
    view! {
        <fieldset class="fields">
            <legend>"Lengths of the parts"</legend>
            <p class="hint">"Another length does not change the shape of the part. Everything after it moves too."</p>
            // Only what changed is made again: what is being typed beside it stays.
            <For each=move || parts.get() key=|part| *part children=field />
        </fieldset>
    }
}

/// The factor of one press for all sizes.
const PERCENT: f64 = 1.01;

/// All diameters at once.
#[component]
fn Sizes() -> impl IntoView {
    let bench = bench();
    let press = move |factor: f64| bench.commit_or_say(Edit::ScaleSizes(factor));
    // The next percentage is of the line as it is then.
    let take = move |percent: f64| bench.commit(Edit::ScaleSizes(percent / 100.0));
    view! {
        <fieldset class="sizes">
            <legend>"All diameters"</legend>
            <div class="value">
                <button class="plain" aria-label="all one percent thinner" data-action="all-thinner" on:click=move |_| { press(1.0 / PERCENT); }>
                    <Glyph icon=Icon::Minus />
                </button>
                <NumberField
                    label="scale of all diameters"
                    unit=Signal::derive(|| Unit::Percent)
                    value=Signal::derive(|| 100.0)
                    decimals=2
                    commit=take
                    action="scale-sizes"
                />
                <button class="plain" aria-label="all one percent thicker" data-action="all-thicker" on:click=move |_| { press(PERCENT); }>
                    <Glyph icon=Icon::Plus />
                </button>
            </div>
        </fieldset>
    }
}
