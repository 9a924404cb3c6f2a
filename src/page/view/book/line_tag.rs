//! A tag to print and keep with the finished line, alone or with a short note on its care for the person who fishes it.

use leptos::prelude::*;

use super::open_book::open_book;
use crate::base::choice::Choice as _;
use crate::base::units::show::{self, Units};
use crate::base::units::{Length, Mass};
use crate::braid::weight::Verdict;
use crate::design::Design;
use crate::keep::book::record::LineRecord;
use crate::page::browser::storage::preference;
use crate::page::view::bench::bench;
use crate::page::view::field::options;
use crate::page::view::sheet::Sheet;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::figures::verdict_title;
use crate::paper::tag_paper::TagPaper;
use crate::paper::words;
use crate::plan::Plan;
use crate::plan::days::Day;

/// Key under which it is kept what a tag is printed with.
const PAPER_KEY: &str = "taperwright/tag-paper";

/// The tag of the line chosen in the book.
#[component]
pub(crate) fn Tag() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let chosen = move || match bench.sheet.get() {
        Some(SheetKind::Tag(index)) => Some(index),
        _ => None,
    };
    let kept = preference(PAPER_KEY).unwrap_or_default();
    let paper = RwSignal::new(TagPaper::from_key(&kept).unwrap_or_default());
    let tag = move || {
        let index = chosen()?;
        let (units, paper) = (bench.units.get(), paper.get());
        open_book.workshop.with(|workshop| {
            let record = workshop.records.get(index)?;
            let design = record.design.design().ok()?;
            Some(tag(record, design, workshop.title(), (units, paper)))
        })
    };
    view! {
        <Sheet kind=SheetKind::Tag(0)>
            <article class="tag-sheet" data-paper=move || paper.get().key()>
                <PaperChoice paper />
                {tag}
                <p class="hint screen-only">"Weights and lengths are as measured. What was not measured is as planned, and marked so."</p>
                <Show when=move || paper.get() == TagPaper::WithCare>
                    <p class="hint screen-only">"The note on care is rule of thumb, no source."</p>
                </Show>
            </article>
        </Sheet>
    }
}

/// Whether the note on care is printed with it.
#[component]
fn PaperChoice(paper: RwSignal<TagPaper>) -> impl IntoView {
    let bench = bench();
    let choose = move |key: String| {
        if let Some(chosen) = TagPaper::from_key(&key) {
            bench.keep_preference(PAPER_KEY, chosen.key());
            paper.set(chosen);
        }
    };
    view! {
        <div class="card-choices screen-only">
            <label class="choice">
                <span>"Paper"</span>
                <select
                    data-action="tag-paper"
                    prop:value=move || paper.get().key()
                    on:change:target=move |event| choose(event.target().value())
                >
                    {options::<TagPaper>(paper.into())}
                </select>
            </label>
        </div>
    }
}

fn tag(
    record: &LineRecord,
    design: &Design,
    workshop: &str,
    (units, paper): (Units, TagPaper),
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
    // The note is for the person who fishes the line; the maker's own notes stay on the tag, and off the small sheet.
    let care = (paper == TagPaper::WithCare).then(|| care(design, &plan));
    let notes = care.is_none().then(|| record.notes.clone());
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
            {notes.map(|notes| view! { <p class="notes">{notes}</p> })}
            {care}
        </div>
    }
}

/// How to look after it.
fn care(design: &Design, plan: &Plan) -> impl IntoView + use<> {
    let sentence = |sentence: &'static str| view! { <li>{sentence}</li> };
    let sentences = words::care(design, plan).into_iter().map(sentence);
    view! {
        <section class="care" data-care>
            <h2>"Care of this line"</h2>
            <ul>{sentences.collect_view()}</ul>
        </section>
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
