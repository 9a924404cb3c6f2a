//! A tag to print and keep with the finished line.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::base::units::show::{self, Units};
use crate::base::units::{Length, Mass};
use crate::braid::weight::Verdict;
use crate::design::Design;
use crate::keep::book::record::LineRecord;
use crate::page::view::bench::bench;
use crate::page::view::sheet::Sheet;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::figures::verdict_title;
use crate::plan::Plan;
use crate::plan::days::Day;

/// The tag of the line chosen in the book.
#[component]
pub(crate) fn Tag() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let chosen = move || match bench.sheet.get() {
        Some(SheetKind::Tag(index)) => Some(index),
        _ => None,
    };
    let tag = move || {
        let index = chosen()?;
        let units = bench.units.get();
        open_book.workshop.with(|workshop| {
            let record = workshop.records.get(index)?;
            let design = record.design.design().ok()?;
            Some(tag(record, design, workshop.title(), units))
        })
    };
    view! {
        <Sheet kind=SheetKind::Tag(0)>
            <article class="tag-sheet">
                {tag}
                <p class="hint screen-only">"Weights and lengths are as measured. What was not measured is as planned, and marked so."</p>
            </article>
        </Sheet>
    }
}

fn tag(
    record: &LineRecord,
    design: &Design,
    workshop: &str,
    units: Units,
) -> impl IntoView + use<> {
    let plan = Plan::of(design);
    let finished = &record.finished;
    let grams = |mass: Option<f64>| mass.map(Mass::from_grams);
    let head = TagFigure::of(grams(finished.head_mass_g), plan.head_mass);
    let class = head
        .as_ref()
        .map_or(plan.verdict, |head| Verdict::of(head.value));
    let whole = TagFigure::of(grams(finished.mass_g), Some(plan.total_mass));
    let length = TagFigure::of(
        finished.length_m.map(Length::from_metres),
        Some(plan.length),
    );
    let rear = TagFigure::of(
        grams(finished.rear_head_mass_g),
        plan.rear_head.map(|rear| rear.mass),
    );
    let belly = TagFigure::of(None, Some(plan.belly.dressed.diameter));
    let row = |name: &'static str, text: Option<String>| {
        text.map(|text| view! { <div><dt>{name}</dt><dd>{text}</dd></div> })
    };
    let on = record.finished_on().map(Day::words_with_year);
    view! {
        <div class="tag" data-class=class.number()>
            <h1>{record.name.clone()}</h1>
            <p class="class">{verdict_title(&class)}</p>
            <dl>
                {row("first 30 ft", head.map(|it| it.words(show::mass)))}
                {row("from the other end", rear.map(|it| it.words(show::mass)))}
                {row("whole line", whole.map(|it| it.words(show::grams)))}
                {row("length", length.map(|it| it.words(|length| units.show_position(length))))}
                {row("belly", belly.map(|it| it.words(|diameter| units.show_diameter(diameter))))}
                {row("finished", on)}
                {row("yarn and machine", Some(workshop.to_owned()))}
            </dl>
            <p class="notes">{record.notes.clone()}</p>
        </div>
    }
}

/// A measured value, or the planned one in its place.
struct TagFigure<T> {
    value: T,
    is_measured: bool,
}

impl<T: Copy> TagFigure<T> {
    fn of(measured: Option<T>, planned: Option<T>) -> Option<Self> {
        let value = measured.or(planned)?;
        Some(Self {
            value,
            is_measured: measured.is_some(),
        })
    }

    fn words(&self, show: impl Fn(T) -> String) -> String {
        let words = show(self.value);
        if self.is_measured {
            words
        } else {
            format!("{words} (planned)")
        }
    }
}
