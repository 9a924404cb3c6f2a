//! The page: Leptos components, one folder or file for each part of it. They read the plan and calculate nothing; a design
//! changes only through `bench::Bench`.

#![expect(
    unreachable_pub,
    reason = "the component macro makes what it wraps public"
)]

mod at_machine;
mod bench;
mod bobbins;
mod book;
mod card;
mod cautions;
mod chart;
mod compare;
mod current_line;
mod deferred;
mod dressing;
mod drop_to_open;
mod entries;
mod field;
mod figures;
mod finder;
mod header;
mod in_progress;
mod intro;
mod kept;
mod line_picture;
mod look;
mod machine;
mod messages;
mod new_line;
mod open_file;
mod overlay;
mod overlay_kind;
mod planned;
mod point;
mod points;
mod rows;
mod saving;
mod schedule;
mod scroll;
mod sections;
mod settings;
mod share_panel;
mod terms;
mod updates;
mod verdict;
mod window_events;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::page::browser::{rescue, second_copy, text_input};
use bench::Bench;
use deferred::{ColumnPart, Deferred, TaskQueue};

/// Opens the page, once everything stored in this browser is there.
pub fn open() {
    rescue::watch();
    text_input::commit_before_presses();
    second_copy::restore(mount);
}

/// Puts the page into the element `page` of the document, in place of what stood there.
fn mount() {
    let Some(page) = document().get_element_by_id("page") else {
        return;
    };
    look::put_on_kept();
    page.set_text_content(None);
    mount_to(page.unchecked_into(), Page).forget();
}

/// Everything on the page.
#[component]
fn Page() -> impl IntoView {
    let bench = Bench::open();
    provide_context(bench);
    let tasks = TaskQueue::new();
    provide_context(tasks);
    provide_context(entries::Entries::new());
    provide_context(intro::Intro::open());
    let open_book = book::OpenBook::open(bench);
    provide_context(open_book);
    provide_context(current_line::CurrentLine::open(bench, open_book));
    provide_context(dressing::Days::open(bench, open_book));
    tasks.begin();
    view! {
        <div class="bench" class:behind=move || bench.overlay.get().is_some()>
            <header::Header />
            <in_progress::LineInProgress />
            <messages::Messages />
            <div class="work">
                <section class="drawing" aria-label="Drawing of the taper">
                    <intro::Steps />
                    <div class="sight">
                        <chart::Chart />
                    </div>
                    <point::PointBar />
                </section>
                <div class="reading">
                    <verdict::VerdictBlock />
                    <div class="at-hand">
                        <Contents />
                        <updates::Updates />
                    </div>
                    <ColumnPart><points::Points /></ColumnPart>
                    <ColumnPart><figures::Figures /></ColumnPart>
                    <ColumnPart><sections::Sections /></ColumnPart>
                    <ColumnPart><finder::FinderPanel /></ColumnPart>
                    <ColumnPart><compare::Compare /></ColumnPart>
                    <ColumnPart><settings::SettingsPanel /></ColumnPart>
                    <ColumnPart><messages::Notices /></ColumnPart>
                    <ColumnPart><machine::Machine /></ColumnPart>
                    <ColumnPart><schedule::Schedule /></ColumnPart>
                    <ColumnPart><bobbins::Bobbins /></ColumnPart>
                    <ColumnPart><dressing::Dressing /></ColumnPart>
                    <ColumnPart><cautions::Cautions /></ColumnPart>
                    <ColumnPart><terms::Words /></ColumnPart>
                </div>
            </div>
        </div>
        <Deferred><terms::TermNotes /></Deferred>
        <Deferred><card::CardOverlay /></Deferred>
        <Deferred><dressing::DressingSheet /></Deferred>
        <Deferred><book::Book /></Deferred>
        <Deferred><kept::KeptSheet /></Deferred>
        <Deferred><at_machine::AtMachine /></Deferred>
        <Deferred><drop_to_open::DropHint /></Deferred>
    }
}

/// The parts of the reading column, by the id of their section and the word on their button.
const PARTS: [(&str, &str); 11] = [
    ("points", "Drawing"),
    ("figures", "Figures"),
    ("finder", "Find"),
    ("compare", "Compare"),
    ("settings", "Settings"),
    ("machine", "Machine"),
    ("schedule", "Schedule"),
    ("bobbins", "Bobbins"),
    ("dressing", "Dressing"),
    ("cautions", "Cautions"),
    ("words", "Words"),
];

/// One tap to each part of the reading column.
#[component]
fn Contents() -> impl IntoView {
    let tasks = expect_context::<TaskQueue>();
    let button = |(id, word): (&'static str, &'static str)| {
        view! { <button on:click=move |_| tasks.scroll_to(id)>{word}</button> }
    };
    view! { <nav class="contents" aria-label="On this page">{PARTS.map(button).into_iter().collect_view()}</nav> }
}
