//! Lines made, a row for each, which opens to what was measured.

use leptos::prelude::*;

use super::braiding_log::BraidingLog;
use super::brought::BroughtWords;
use super::doubts::DoubtCount;
use super::line_stage::{StageEntry, is_of_all, stage_key, stages_of};
use super::open_book::{OpenBook, open_book};
use super::opened::Opened;
use crate::base::units::Mass;
use crate::design::Design;
use crate::keep::book::record::LineRecord;
use crate::keep::book::{BookEntry, Frozen, Source};
use crate::page::view::bench::Bench;
use crate::page::view::field::TextField;
use crate::page::view::planned::planned;
use crate::page::view::sheet_button::SheetButton;
use crate::page::view::sheet_kind::SheetKind;
use crate::plan::Plan;

/// The lines of the book.
#[component]
pub(super) fn Lines(opened: Opened) -> impl IntoView {
    let open_book = open_book();
    let count = Memo::new(move |_| open_book.workshop.with(|workshop| workshop.records.len()));
    view! {
        <section class="made-lines card" aria-label="Lines made">
            <h2>"Lines made"</h2>
            <Show when=move || count.get() == 0>
                <p class="hint">
                    "No line yet. A line is saved with the plan it was made with. Weigh it bare, after each oil has dried, and finished."
                </p>
            </Show>
            <ol class="entries">
                <For each=move || 0..count.get() key=|index| *index let:index>
                    <LineEntry index opened />
                </For>
            </ol>
        </section>
    }
}

/// Adds a line made by the plan on the bench, and goes to it.
pub(super) fn add_line(bench: Bench, open_book: OpenBook, opened: Opened) {
    let count = open_book
        .workshop
        .with_untracked(|workshop| workshop.records.len());
    begin_line(bench.settled.get_untracked(), open_book);
    opened.open(BookEntry::Line(count), "summary");
}

/// Adds a record of a line made by this design.
pub(crate) fn begin_line(design: Design, open_book: OpenBook) {
    let record = LineRecord::new(design.title().to_owned(), Frozen::of(&design));
    open_book.press(|workshop| workshop.records.push(record));
}

#[component]
fn LineEntry(index: usize, opened: Opened) -> impl IntoView {
    let open_book = open_book();
    let entry = BookEntry::Line(index);
    let record = Memo::new(move |_| {
        open_book
            .workshop
            .with(|workshop| workshop.records.get(index).cloned())
    });
    let text = move |of: fn(&LineRecord) -> &String| {
        move || record.with(|record| record.as_ref().map(of).cloned().unwrap_or_default())
    };
    let (name, notes) = (text(|record| &record.name), text(|record| &record.notes));
    let planned = planned(move || record.with(|record| Some(record.as_ref()?.design.clone())));
    let doubts = Memo::new(move |_| {
        record.with(|record| {
            record.as_ref().map_or(0, |record| {
                open_book
                    .workshop
                    .with(|workshop| workshop.complaints_of_line(record).len())
            })
        })
    });
    let questions = Memo::new(move |_| {
        open_book.questions(|source| matches!(source, Source::Line(of, _, _) if of == index))
    });
    let general = move || {
        let record = record.get()?;
        let complaints = open_book
            .workshop
            .with(|workshop| workshop.complaints_of_line(&record));
        let mut words = complaints
            .iter()
            .filter(|complaint| is_of_all(&complaint.why));
        words.next().map(|complaint| complaint.why.to_string())
    };
    let stages = Memo::new(move |_| {
        planned.with(|planned| {
            planned
                .as_ref()
                .map_or_else(Vec::new, |(design, _)| stages_of(design))
        })
    });
    let summary = move || {
        let when = open_book.workshop.with(|workshop| workshop.when(index));
        let measured = record.with(|record| record.as_ref().map(measured_words));
        format!("{when} · {}", measured.unwrap_or_default())
    };
    let plan = move || planned.with(|planned| planned.as_ref().map(|(_, plan)| plan_words(plan)));
    let weighed = move || record.with(|record| record.as_ref().and_then(weighed_words));
    view! {
        <li class="entry-row">
            <details open=move || opened.has(entry) on:toggle=move |event| opened.follow(entry, &event)>
                <summary>
                    <span class="operation">{name}</span>
                    <span class="entry-facts">{summary}</span>
                    <span class="entry-plan">{plan}" "<b>{weighed}</b></span>
                    <DoubtCount doubts questions />
                </summary>
                <div class="more">
                    {move || general().map(|said| view! { <p class="said" role="alert">{said}</p> })}
                    <div class="fields">
                        <TextField
                            label="name"
                            action="record-name"
                            value=Signal::derive(name)
                            commit=move |name: String| open_book.change_record(index, |record| record.name.clone_from(&name))
                        />
                        <TextField
                            label="notes"
                            action="record-notes"
                            value=Signal::derive(notes)
                            commit=move |notes: String| open_book.change_record(index, |record| record.notes.clone_from(&notes))
                        />
                    </div>
                    <BroughtWords entry opened />
                    <BraidingLog record planned />
                    <For each=move || stages.get() key=|stage| stage_key(*stage) let:stage>
                        <StageEntry index record planned stage />
                    </For>
                    <div class="step-buttons">
                        <SheetButton kind=SheetKind::Tag(index)>"Print the tag"</SheetButton>
                        <button class="danger" data-action="record-remove" on:click=move |_| { open_book.press(|workshop| { workshop.records.remove(index); }); opened.clear(); }>
                            "Delete line"
                        </button>
                    </div>
                </div>
            </details>
        </li>
    }
}

/// What the line was to be: `class 5 · planned 140 gr`.
fn plan_words(plan: &Plan) -> String {
    let class = plan
        .verdict
        .number()
        .map(|number| format!("class {number} · "));
    let planned = plan.head_mass.unwrap_or(plan.total_mass);
    format!(
        "{}planned {:.0}\u{202f}gr",
        class.unwrap_or_default(),
        planned.grains()
    )
}

/// What the finished line weighs: its first 30 ft, else the whole.
fn weighed_words(record: &LineRecord) -> Option<String> {
    let grams = record.finished.head_mass_g.or(record.finished.mass_g)?;
    Some(format!("{:.0}\u{202f}gr", Mass::from_grams(grams).grains()))
}

fn measured_words(record: &LineRecord) -> String {
    let stages = record.stages().filter(|(_, measures)| !measures.is_empty());
    let names: Vec<String> = stages.map(|(stage, _)| stage.name()).collect();
    if names.is_empty() {
        "nothing measured yet".to_owned()
    } else {
        format!("measured {}", names.join(", "))
    }
}
