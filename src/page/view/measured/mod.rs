//! A line that was measured, a sheet: its readings typed, pasted or opened, the taper found in them, what it is made of, and the
//! copy of it to braid.

mod copy;
mod finished;
mod keeping;
mod made_of;
mod open_readings;
mod picture;
mod reading_entry;
mod readings;
mod state;
mod table;
mod tables_in;
mod taper;
mod unread;
mod weights;

use leptos::prelude::*;

use super::bench::bench;
use super::field::TextField;
use super::saving::save;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::keep::share::{link, measured_file, readings as table_of_readings};
use crate::measured::MeasuredEdit;
use crate::page::browser::{address, clipboard};
use leptos::task::spawn_local;

pub(crate) use open_readings::OpenReadings;
pub(crate) use state::{OpenMeasured, open_measured};

/// The sheet.
#[component]
pub(crate) fn MeasuredSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Measured><Measured /></Sheet> }
}

/// Built again for each line that is shown, so that nothing of one is left beside another.
#[component]
fn Measured() -> impl IntoView {
    let open = open_measured();
    move || {
        open.shown.track();
        view! { <OpenLine /> }
    }
}

#[component]
fn OpenLine() -> impl IntoView {
    let open = open_measured();
    let compared = finished::Compared::none();
    let copied = copy::Copied::of(open);
    let is_begun = Memo::new(move |_| open.found.with(Option::is_some));
    view! {
        <article class="measured">
            <Head />
            <table::LastTable />
            <unread::UnreadRows />
            // Above what grows with each reading, so that it stays under the hand.
            <reading_entry::ReadingEntry />
            <Show when=move || is_begun.get()>
                <picture::Picture compared copied />
                <readings::Decided />
                <taper::FoundPoints />
            </Show>
            <table::PasteTable />
            <Show when=move || is_begun.get()>
                <readings::AllReadings />
                <weights::Weights />
                <made_of::MadeOfCard />
                <copy::CopyCard copied />
                <finished::FinishedCard compared />
            </Show>
        </article>
    }
}

/// Its name, where it is saved, and what can be done with it as a whole.
#[component]
fn Head() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let status = RwSignal::new(String::new());
    let save_file = move |_| {
        let is_saved = open.line.with_untracked(|line| {
            save(
                bench,
                &measured_file::name(line),
                &measured_file::write(line),
                "application/json",
            )
        });
        if is_saved {
            open.filed();
        }
    };
    let save_table = move |_| {
        open.line.with_untracked(|line| {
            let readings = line.readings();
            let readings: Vec<_> = readings.iter().map(|one| (one.at, one.diameter)).collect();
            let text = table_of_readings::write(&line.draft().name, &readings);
            let name = measured_file::name(line).replace(".json", ".csv");
            save(bench, &name, &text, "text/csv;charset=utf-8")
        });
    };
    let copy_link = move |_| {
        let link = open.line.with_untracked(link::encode_measured);
        let link = match link {
            Ok(fragment) => address::with_fragment(&fragment),
            Err(error) => return status.set(error.to_string()),
        };
        spawn_local(async move {
            let is_done = clipboard::copy(&link).await;
            status.set(if is_done {
                "Link copied. It contains all readings.".to_owned()
            } else {
                format!("The browser did not copy. Copy this link yourself: {link}")
            });
        });
    };
    view! {
        <section class="card" aria-label="Measured line">
            <p class="hint" data-standing="">{move || open.standing()}</p>
            {move || open.trouble.get().map(|said| view! { <p class="said" role="alert">{said}</p> })}
            <TextField
                label="Name of the measured line"
                action="measured-name"
                value=Signal::derive(move || open.line.with(|line| line.draft().name.clone()))
                commit=move |name: String| open.change(MeasuredEdit::Name(name))
            />
            <details class="finer">
                <summary>"Notes"</summary>
                <TextField
                    label="Notes"
                    action="measured-notes"
                    value=Signal::derive(move || open.line.with(|line| line.draft().notes.clone()))
                    commit=move |notes: String| open.change(MeasuredEdit::Notes(notes))
                />
            </details>
            <div class="step-buttons">
                <Show when=move || open.is_preview.get()>
                    <button class="main" data-action="keep-measured" on:click=move |_| open.keep()>"Keep it in my lines"</button>
                </Show>
                <button data-action="undo-measured" disabled=move || !open.can_undo() on:click=move |_| open.undo()>"Undo"</button>
                <button data-action="save-measured" on:click=save_file>"Save file"</button>
                <button data-action="save-readings" on:click=save_table>"Save as a table"</button>
                <button data-action="link-measured" on:click=copy_link>"Copy link"</button>
            </div>
            <p role="status" class="hint">{status}</p>
        </section>
    }
}
