//! Swatches: short braids of known threads and gears, and what was measured on them.

use leptos::prelude::*;

use super::brought::BroughtWords;
use super::by_photo::SwatchByPhoto;
use super::doubts::{DoubtCount, residual_words};
use super::measured_field::{MeasureField, MeasuredNumber};
use super::open_book::{OpenBook, open_book};
use super::opened::Opened;
use super::swatch_picture::SwatchPicture;
use crate::keep::book::swatch::{Swatch, SwatchField};
use crate::keep::book::{BookEntry, Source, Workshop};
use crate::page::view::bench::{Bench, bench};
use crate::page::view::field::TextField;
use crate::paper::words::checks::from_photo;

/// The swatches of the book.
#[component]
pub(super) fn Swatches(opened: Opened) -> impl IntoView {
    let open_book = open_book();
    let count = Memo::new(move |_| open_book.workshop.with(|workshop| workshop.swatches.len()));
    view! {
        <section class="swatches card" aria-label="Swatches">
            <h2>"Swatches"</h2>
            <Show when=move || count.get() == 0>
                <p class="hint">
                    "No swatch yet. Braid some 30 cm of the belly’s threads with one gear, and count the circuits. Cut it off and measure whatever you can."
                </p>
            </Show>
            <ol class="entries">
                <For each=move || 0..count.get() key=|index| *index let:index>
                    <SwatchEntry index opened />
                </For>
            </ol>
        </section>
    }
}

/// Adds a swatch of the belly of the line on the bench, and goes to a part of it.
pub(super) fn add_swatch(bench: Bench, open_book: OpenBook, opened: Opened, part: &str) {
    let count = open_book
        .workshop
        .with_untracked(|workshop| workshop.swatches.len());
    let tension = open_book
        .workshop
        .with_untracked(|workshop| workshop.machine_notes.tension.clone());
    let swatch = bench.settled.with_untracked(|design| {
        bench.settled_plan.with_untracked(|plan| Swatch {
            name: format!("Swatch {}", count + 1),
            tension,
            ..Swatch::of_belly(design, plan)
        })
    });
    open_book.press(|workshop| workshop.swatches.push(swatch));
    opened.open(BookEntry::Swatch(count), part);
}

#[component]
fn SwatchEntry(index: usize, opened: Opened) -> impl IntoView {
    let open_book = open_book();
    let entry = BookEntry::Swatch(index);
    let swatch = Memo::new(move |_| {
        open_book
            .workshop
            .with(|workshop| workshop.swatches.get(index).cloned().unwrap_or_default())
    });
    let summary = move || summary(&swatch.get());
    let fit = move || {
        open_book
            .estimate
            .with(|estimate| estimate.fit_of_swatch(index))
    };
    let weighed = move || {
        let grams = swatch.with(|swatch| swatch.get(SwatchField::Mass))?;
        Some(format!(
            "{}\u{202f}g",
            crate::base::units::show::trimmed(grams, 3)
        ))
    };
    let doubts = Memo::new(move |_| {
        open_book
            .workshop
            .with(|workshop| workshop.complaints_of_swatch(&swatch.get()).len())
    });
    let questions = Memo::new(move |_| {
        open_book.questions(|source| matches!(source, Source::Swatch(of, _) if of == index))
    });
    view! {
        <li class="entry-row">
            <details open=move || opened.has(entry) on:toggle=move |event| opened.follow(entry, &event)>
                <summary>
                    <span class="operation">{move || swatch.with(|swatch| swatch.name.clone())}</span>
                    <span class="entry-facts">{summary}</span>
                    <span class="entry-plan">{fit}" "<b>{weighed}</b></span>
                    <DoubtCount doubts questions />
                </summary>
                <div class="more">
                    <div class="fields">
                        <TextField
                            label="name"
                            action="swatch-name"
                            value=Signal::derive(move || swatch.with(|swatch| swatch.name.clone()))
                            commit=move |name: String| open_book.change_swatch(index, |swatch| swatch.name.clone_from(&name))
                        />
                        {SwatchField::ALL.map(|field| view! { <SwatchNumber open_book index swatch field /> }).into_iter().collect_view()}
                        <TextField
                            label="how the carriers pulled"
                            action="swatch-tension"
                            value=Signal::derive(move || swatch.with(|swatch| swatch.tension.clone()))
                            commit=move |note: String| open_book.change_swatch(index, |swatch| swatch.tension.clone_from(&note))
                        />
                        <TextField
                            label="notes"
                            action="swatch-notes"
                            value=Signal::derive(move || swatch.with(|swatch| swatch.notes.clone()))
                            commit=move |notes: String| open_book.change_swatch(index, |swatch| swatch.notes.clone_from(&notes))
                        />
                    </div>
                    <SwatchByPhoto index swatch />
                    <SwatchPicture open_book index swatch />
                    <BroughtWords entry opened />
                    <MachineOffer swatch />
                    <button class="danger" data-action="swatch-remove" on:click=move |_| { open_book.press(|workshop| { workshop.swatches.remove(index); }); opened.clear(); }>
                        "Delete swatch"
                    </button>
                </div>
            </details>
        </li>
    }
}

/// Takes over the machine of the line on the bench, where that one can have braided what the book's cannot.
#[component]
fn MachineOffer(swatch: Memo<Swatch>) -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let is_offered = move || {
        let limits = open_book.workshop.with(Workshop::limits);
        swatch.with(|swatch| {
            bench
                .settled
                .with(|design| limits.yields_to(swatch, design))
        })
    };
    let take = move |_| {
        let design = bench.settled.get_untracked();
        open_book.press(|workshop| workshop.take_machine(&design));
    };
    view! {
        <Show when=is_offered>
            <p class="hint">"The machine of this line has these threads and gears."</p>
            <button data-action="take-machine" on:click=take>"Use that machine in this book"</button>
        </Show>
    }
}

fn summary(swatch: &Swatch) -> String {
    let count = |field| {
        swatch
            .get(field)
            .map(|value| crate::base::units::show::trimmed(value, 1))
    };
    let threads = count(SwatchField::Threads).map(|it| format!("{it} threads"));
    let ends = count(SwatchField::Ends).map(|it| format!("of {it} ends"));
    let measured = SwatchField::ALL
        .iter()
        .filter(|field| !SwatchField::SETUP.contains(field) && swatch.get(**field).is_some())
        .count();
    let measured = match measured {
        0 => "nothing measured yet".to_owned(),
        1 => "1 number measured".to_owned(),
        more => format!("{more} numbers measured"),
    };
    let words: Vec<String> = [threads, ends].into_iter().flatten().collect();
    format!("{}; {measured}", words.join(" "))
}

#[component]
fn SwatchNumber(
    open_book: OpenBook,
    index: usize,
    swatch: Memo<Swatch>,
    field: SwatchField,
) -> impl IntoView {
    let complaint = move || {
        let complaints = open_book
            .workshop
            .with(|workshop| workshop.complaints_of_swatch(&swatch.get()));
        let mine = complaints
            .iter()
            .filter(|complaint| complaint.fields.contains(&field));
        let words: Vec<String> = mine.map(|complaint| complaint.why.to_string()).collect();
        (!words.is_empty()).then(|| words.join(" "))
    };
    let expected = move || {
        let estimate = open_book.estimate.read();
        let residual = estimate
            .residuals
            .iter()
            .find(|residual| residual.source == Source::Swatch(index, field));
        residual.map(residual_words)
    };
    let of = MeasuredNumber {
        label: field.name().to_owned(),
        unit: field.unit(),
        action: action(field),
        value: Signal::derive(move || swatch.with(|swatch| swatch.get(field))),
        take: Callback::new(move |value| {
            open_book.change_swatch(index, |swatch| swatch.set(field, value))
        }),
        by_photo: Signal::derive(move || {
            let error = swatch.with(|swatch| swatch.own_error(field))?;
            Some(from_photo(error, field.unit()))
        }),
        complaint: Signal::derive(complaint),
        expected: Signal::derive(expected),
        doubt: Signal::derive(move || open_book.doubt(Source::Swatch(index, field))),
    };
    view! { <MeasureField of /> }
}

pub(super) const fn action(field: SwatchField) -> &'static str {
    match field {
        SwatchField::Threads => "swatch-threads",
        SwatchField::Ends => "swatch-ends",
        SwatchField::Driver => "swatch-driver",
        SwatchField::Driven => "swatch-driven",
        SwatchField::Length => "swatch-length",
        SwatchField::Circuits => "swatch-circuits",
        SwatchField::Crossings => "swatch-crossings",
        SwatchField::CrossingsOver => "swatch-crossings-over",
        SwatchField::Mass => "swatch-mass",
        SwatchField::Diameter => "swatch-diameter",
        SwatchField::Angle => "swatch-angle",
        SwatchField::ThreadLength => "swatch-thread-length",
        SwatchField::ThreadMass => "swatch-thread-mass",
    }
}
