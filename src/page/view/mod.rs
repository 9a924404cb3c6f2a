//! The page: Leptos components, one folder or file for each thing seen. They read the plan and compute nothing; a
//! design changes only through `bench::Bench`.

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
mod dressing;
mod dropping;
mod field;
mod figures;
mod finder;
mod header;
mod intro;
mod kept;
mod later;
mod look;
mod machine;
mod made;
mod messages;
mod open_file;
mod overlay;
mod point;
mod points;
mod rows;
mod saving;
mod schedule;
mod sections;
mod settings;
mod shared;
mod starts;
mod terms;
mod updates;
mod verdict;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::page::browser::{rescue, second_copy};
use crate::paper::words;
use bench::Bench;
use later::{InTurn, Lower, Turns};

/// Opens the page, once whatever is kept in this browser is there.
pub fn open() {
    rescue::watch();
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
    let turns = Turns::new();
    provide_context(turns);
    provide_context(intro::Intro::open());
    let desk = book::Desk::open(bench);
    provide_context(desk);
    provide_context(made::Made::open(bench, desk));
    provide_context(dressing::Days::open(bench, desk));
    turns.begin();
    view! {
        <div class="bench" class:behind=move || bench.sheet.get().is_some()>
            <header::Header />
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
                    <Lower><points::Points /></Lower>
                    <Lower><figures::Figures /></Lower>
                    <Lower><sections::Sections /></Lower>
                    <Lower><finder::FinderPanel /></Lower>
                    <Lower><compare::Compare /></Lower>
                    <Lower><settings::SettingsPanel /></Lower>
                    <Lower><messages::Notices /></Lower>
                    <Lower><machine::Machine /></Lower>
                    <Lower><schedule::Schedule /></Lower>
                    <Lower><bobbins::Bobbins /></Lower>
                    <Lower><dressing::Dressing /></Lower>
                    <Lower><cautions::Cautions /></Lower>
                    <Lower><terms::Words /></Lower>
                </div>
            </div>
        </div>
        <InTurn><terms::TermNotes /></InTurn>
        <InTurn><card::CardDesk /></InTurn>
        <InTurn><dressing::DressingSheet /></InTurn>
        <InTurn><book::Book /></InTurn>
        <InTurn><kept::KeptSheet /></InTurn>
        <InTurn><at_machine::AtMachine /></InTurn>
        <InTurn><dropping::DropHint /></InTurn>
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
    let turns = expect_context::<Turns>();
    let button = |(id, word): (&'static str, &'static str)| {
        view! { <button on:click=move |_| turns.scroll_to(id)>{word}</button> }
    };
    view! { <nav class="contents" aria-label="On this page">{PARTS.map(button).into_iter().collect_view()}</nav> }
}

/// Brings a section into view; whether it is there. Not by a link: the fragment of the address belongs to shared designs.
fn scroll_to(id: &str) -> bool {
    let section = document().get_element_by_id(id);
    if let Some(section) = &section {
        section.scroll_into_view();
    }
    section.is_some()
}
