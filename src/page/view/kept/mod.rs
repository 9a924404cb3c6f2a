//! Everything saved in this browser, a sheet: lines, measured lines, workshops, the bin, what cannot be read, and all of it as one file.

mod backup;
mod bin;
mod books;
mod confirm;
mod copy_or_delete;
mod line_row;
mod lines;
mod measured_lines;
mod open_now;
mod shelf_view;
mod stored_work;
mod unreadable;

use leptos::prelude::*;

use super::bench::bench;
use super::book::open_book;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use shelf_view::{ShelfView, shelf_view};

pub(crate) use backup::{BackupReminder, import_backup};

/// The sheet.
#[component]
pub(crate) fn KeptSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Lines><Shelves /></Sheet> }
}

#[component]
fn Shelves() -> impl IntoView {
    provide_context(ShelfView::open(bench(), open_book()));
    view! {
        <article class="kept">
            <open_now::OpenNow />
            <lines::Lines />
            <measured_lines::MeasuredLines />
            <backup::Backup />
            <books::Books />
            <unreadable::Unreadable />
            <bin::Bin />
            <ActionReport />
        </article>
    }
}

/// What was done last, and a button to undo it: at the foot of the screen, wherever the reader has scrolled.
#[component]
fn ActionReport() -> impl IntoView {
    let shelf_view = shelf_view();
    let told = move |told: shelf_view::ActionReport| {
        let back = told.back.map(|back| {
            view! { <button data-action="take-back" on:click=move |_| back.take(shelf_view)>"Restore"</button> }
        });
        view! {
            <p class="message">
                <span>{told.words}</span>
                {back}
                <button data-action="told-close" on:click=move |_| shelf_view.told.set(None)>"Close"</button>
            </p>
        }
    };
    view! { <div class="kept-told" role="status">{move || shelf_view.told.get().map(told)}</div> }
}
