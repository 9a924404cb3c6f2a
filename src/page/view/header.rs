//! The head of the page: the line's name, and what can be done with it as a whole.

use leptos::prelude::*;

use super::bench::{Bench, StorageState, bench};
use super::book::open_book;
use super::field::TextField;
use super::kept::{BackupReminder, import_backup};
use super::new_line::NewLine;
use super::open_file::OpenFile;
use super::overlay_kind::OverlayKind;
use super::saving::save_line;
use super::share_panel::SharePanel;
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
                <p class="standing">{move || storage_words(&bench.storage_state.get())}</p>
                <BackupReminder />
            </div>
            <nav class="actions" aria-label="This line">
                <button data-action="my-lines" on:click=move |_| bench.overlay.set(Some(OverlayKind::Lines))>"My lines"</button>
                <UnitChoice />
                <NewLine />
                <OpenLine />
                <button data-action="save-file" on:click=move |_| save_file(bench)>"Save file"</button>
                <button data-action="share" aria-expanded=move || sharing.get().to_string() on:click=move |_| sharing.set(true)>"Share"</button>
                <button data-action="book" on:click=move |_| bench.overlay.set(Some(OverlayKind::Book))>"Book"</button>
                <button data-action="at-machine" on:click=move |_| bench.overlay.set(Some(OverlayKind::Machine))>"Braid"</button>
                <button data-action="card" class="main" on:click=move |_| bench.overlay.set(Some(OverlayKind::Card))>"Card"</button>
            </nav>
            <Show when=move || sharing.get()>
                <SharePanel sharing />
            </Show>
        </header>
    }
}

fn storage_words(storage_state: &StorageState) -> &'static str {
    match storage_state {
        StorageState::New => "Example; kept at your first change",
        StorageState::Kept(_) => "Kept in this browser only",
        StorageState::Unkept { .. } => "Not kept: save it as a file before you leave",
        StorageState::Preview => "Came by link, not kept yet",
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

/// Opens a design file as a line beside the others, or imports a file of everything.
#[component]
fn OpenLine() -> impl IntoView {
    let (bench, open_book) = (bench(), open_book());
    let take = move |text: Option<String>| {
        if let Some(text) = text.as_deref().filter(|text| backup::is_one(text)) {
            return bench.say(import_backup(open_book, text));
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
    if bench
        .settled
        .with_untracked(|design| save_line(bench, design))
    {
        bench.filed();
    }
}
