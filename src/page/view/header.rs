//! The head of the page: the line's name, and what can be done with it as a whole.

use leptos::prelude::*;

use super::bench::{Bench, Standing, bench};
use super::book::desk;
use super::field::TextField;
use super::kept::{Due, bring_in};
use super::open_file::OpenFile;
use super::overlay::Sheet;
use super::saving::save;
use super::shared::SharedLink;
use super::starts::NewLine;
use crate::base::choice::Choice;
use crate::base::units::show::Units;
use crate::edit::Edit;
use crate::keep::share::file::{self, FileError};
use crate::keep::shelf::backup;

/// Title, actions, units.
#[component]
pub(crate) fn Header() -> impl IntoView {
    let bench = bench();
    let sharing = RwSignal::new(false);
    view! {
        <header class="head">
            <h1 class="mark">"Taperwright"</h1>
            <div class="title">
                <TextField
                    label="Name of the line"
                    value=Signal::derive(move || bench.settled.with(|design| design.draft().name.clone()))
                    commit=move |name: String| bench.commit(Edit::Name(name))
                />
                <p class="standing">{move || standing_words(&bench.standing.get())}</p>
                <Due />
            </div>
            <nav class="actions" aria-label="This line">
                <button data-action="my-lines" on:click=move |_| bench.sheet.set(Some(Sheet::Lines))>"My lines"</button>
                <UnitChoice />
                <NewLine />
                <OpenLine />
                <button data-action="save-file" on:click=move |_| save_file(bench)>"Save file"</button>
                <button data-action="share" aria-expanded=move || sharing.get().to_string() on:click=move |_| sharing.set(true)>"Share"</button>
                <button data-action="book" on:click=move |_| bench.sheet.set(Some(Sheet::Book))>"Book"</button>
                <button data-action="at-machine" on:click=move |_| bench.sheet.set(Some(Sheet::Machine))>"Braid"</button>
                <button data-action="card" class="main" on:click=move |_| bench.sheet.set(Some(Sheet::Card))>"Card"</button>
            </nav>
            <Show when=move || sharing.get()>
                <SharedLink sharing />
            </Show>
        </header>
    }
}

fn standing_words(standing: &Standing) -> &'static str {
    match standing {
        Standing::New => "Example; kept at your first change",
        Standing::Kept(_) => "Kept in this browser only",
        Standing::Unkept { .. } => "Not kept: save it as a file before you leave",
        Standing::Preview => "Came by link, not kept yet",
    }
}

#[component]
fn UnitChoice() -> impl IntoView {
    let bench = bench();
    let button = move |units: Units| {
        let is_on = move || bench.units.get() == units;
        view! {
            <button
                data-action=units.key()
                aria-pressed=move || is_on().to_string()
                on:click=move |_| bench.set_units(units)
            >
                {units.name()}
            </button>
        }
    };
    view! {
        <div class="units" role="group" aria-label="Units">
            {Units::ALL.iter().map(|&units| button(units)).collect_view()}
        </div>
    }
}

/// Opens a design file as a line beside the others, or brings in a file of everything.
#[component]
fn OpenLine() -> impl IntoView {
    let (bench, desk) = (bench(), desk());
    let take = move |text: Option<String>| {
        if let Some(text) = text.as_deref().filter(|text| backup::is_one(text)) {
            return bench.say(bring_in(desk, text));
        }
        let read = text.map_or(Err(FileError::TooLarge), |text| file::read(&text));
        match read {
            Ok(design) => bench.take_in(design),
            Err(said) => bench.say(said.to_string()),
        }
    };
    view! {
        <OpenFile
            label="Open file"
            action="open-file"
            largest=backup::LARGEST
            take=Callback::new(take)
            tell=Callback::new(move |said| bench.say(said))
        />
    }
}

fn save_file(bench: Bench) {
    let (name, text) = bench
        .settled
        .with_untracked(|design| (file::name(design), file::write(design)));
    if save(bench, &name, &text, "application/json") {
        bench.filed();
    }
}
