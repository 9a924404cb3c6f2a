//! The bench book: swatches and lines as they were measured, what is learnt from them, and the tag of a finished
//! line.

mod begin_measure;
mod braiding_log;
mod brought;
mod by_photo;
mod change_of_lot;
mod doubts;
mod example_book;
mod keeping;
mod knowledge;
mod line_stage;
mod line_tag;
mod lines;
mod machine_note;
mod measured_field;
mod next_card;
mod next_rows;
mod next_worths;
mod open_book;
mod opened;
mod swatch_picture;
mod swatches;
mod this_line;
mod weighed_chart;

use leptos::prelude::*;
use web_sys::HtmlSelectElement;

use super::bench::bench;
use super::field::TextField;
use super::open_file::OpenFile;
use super::terms::TermLine;
use super::window_events::on_window;
use crate::keep::book::file::{self, BookError};
use crate::page::browser::files;
use crate::page::browser::print::{place_printed, print_place};
use crate::paper::terms::Term;

pub(crate) use line_tag::Tag;
pub(crate) use machine_note::{MachineNote, MachineNoteField};
pub(crate) use next_worths::next_words;
pub(crate) use open_book::{OpenBook, kept_books, open_book};

/// Words the book uses.
const TERMS: [Term; 5] = [
    Term::Swatch,
    Term::Spread,
    Term::MachineConstant,
    Term::Crimp,
    Term::Voids,
];

/// The book.
#[component]
pub(crate) fn Book() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let opened = open_book.opened;
    on_window(leptos::ev::afterprint, |_| place_printed());
    let print = move |_| {
        if !print_place() {
            place_printed();
            open_book.tell("The browser would not print.".to_owned());
        }
    };
    view! {
        <article class="book">
            {move || open_book.trouble.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
            <change_of_lot::ChangeWarning />
            <next_card::NextCard opened />
            <div class="pair">
                <weighed_chart::WeighedChart />
                <knowledge::Knowledge />
            </div>
            <example_book::ExampleBook />
            <this_line::ThisLine />
            <lines::Lines opened />
            <swatches::Swatches opened />
            <div class="step-buttons">
                <button
                    data-action="new-record"
                    disabled=move || !open_book.has_room_for_line()
                    on:click=move |_| lines::add_line(bench, open_book, opened)
                >
                    "Add a finished line"
                </button>
                <button
                    data-action="new-swatch"
                    disabled=move || !open_book.has_room_for_swatch()
                    on:click=move |_| swatches::add_swatch(bench, open_book, opened, "summary")
                >
                    "Add a swatch"
                </button>
                <button data-action="book-undo" disabled=move || !open_book.can_undo() on:click=move |_| open_book.undo()>
                    "Undo in the book"
                </button>
                <button data-action="print-book" on:click=print>"Print the book"</button>
            </div>
            <section class="card this-book" aria-label="This book">
                <h2>"This book"</h2>
                <p class="hint">"A book belongs to one machine with one lot of yarn. Lines planned with it share what it has learnt."</p>
                <Whose />
            </section>
            <TermLine of=&TERMS />
        </article>
    }
}

fn save(open_book: OpenBook) {
    let (name, text) = open_book
        .workshop
        .with_untracked(|workshop| (file::name(workshop), file::write(workshop)));
    if files::save(&name, &text, "application/json").is_err() {
        open_book.tell("The browser did not save the file.".to_owned());
    }
}

/// Opens a book from a file, beside the others.
#[component]
fn OpenBookFile() -> impl IntoView {
    let open_book = open_book();
    let take = move |text: Option<String>| {
        let read = text.map_or(Err(BookError::TooLarge), |text| file::read(&text));
        match read {
            Ok(workshop) => open_book.take_in(workshop),
            Err(said) => open_book.tell(said.to_string()),
        }
    };
    view! {
        <OpenFile
            label="Open a book"
            action="open-book"
            largest=file::LARGEST
            take=Callback::new(take)
            tell=Callback::new(move |said| open_book.tell(said))
        />
    }
}

/// The workshop: which, its name and notes.
#[component]
fn Whose() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let option = |choice: open_book::Choice| {
        view! { <option value=choice.number.to_string()>{choice.words}</option> }
    };
    let open = move || {
        let number = open_book.number.get();
        number.map(|number| number.to_string()).unwrap_or_default()
    };
    let choose = move |select: HtmlSelectElement| {
        if let Ok(number) = select.value().parse() {
            open_book.choose(number);
        }
        // A book that cannot be read leaves the other one open.
        select.set_value(&untrack(open));
    };
    let rename = move |name: String| {
        let before = open_book
            .workshop
            .with_untracked(|workshop| workshop.name.clone());
        open_book.change(|workshop| workshop.name.clone_from(&name))?;
        let now = open_book
            .workshop
            .with_untracked(|workshop| workshop.name.clone());
        // The line on the bench goes on naming the same workshop.
        if bench
            .settled
            .with_untracked(|design| design.draft().workshop == before && !before.is_empty())
        {
            bench.commit(crate::edit::Edit::Workshop(now))
        } else {
            Ok(())
        }
    };
    view! {
        <div class="fields whose">
            <Show when=move || open_book.choices.with(|choices| choices.len() > 1)>
                <label class="choice">
                    <span>"Book of"</span>
                    <select
                        data-action="workshop"
                        prop:value=open
                        on:change:target=move |event| choose(event.target())
                    >
                        {move || open_book.choices.get().into_iter().map(option).collect_view()}
                    </select>
                </label>
            </Show>
            <TextField
                label="workshop: machine and lot of yarn"
                action="workshop-name"
                value=Signal::derive(move || open_book.workshop.with(|workshop| workshop.name.clone()))
                commit=rename
            />
            <TextField
                label="notes on it"
                action="workshop-notes"
                value=Signal::derive(move || open_book.workshop.with(|workshop| workshop.notes.clone()))
                commit=move |notes: String| open_book.change(|workshop| workshop.notes.clone_from(&notes))
            />
            <MachineNoteField of=MachineNote::Tension />
        </div>
        <div class="step-buttons">
            <button
                data-action="new-workshop"
                on:click=move |_| bench.settled.with_untracked(|design| open_book.begin(design))
            >
                "Start a book with the settings of this line"
            </button>
            <button data-action="save-book" on:click=move |_| save(open_book)>"Save book as file"</button>
            <OpenBookFile />
        </div>
    }
}
