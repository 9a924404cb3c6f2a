//! Saving everything as one file, and importing such a file; where everything is stored, and when it was last saved.

use leptos::prelude::*;

use super::shelf_view::{ShelfView, shelf_view};
use crate::keep::shelf::backup::{self, BackupError};
use crate::page::browser::clock;
use crate::page::browser::persistence::is_deleted_after_a_week;
use crate::page::view::bench::{bench, shelf};
use crate::page::view::book::OpenBook;
use crate::page::view::open_file::OpenFile;
use crate::page::view::sheet_kind::SheetKind;

/// Where it is kept, and the two buttons.
#[component]
pub(super) fn Backup() -> impl IntoView {
    let shelf_view = shelf_view();
    let last = move || {
        shelf_view
            .reminder
            .get()
            .map(|reminder| reminder.to_string())
    };
    let is_due = move || {
        shelf_view.reminder.with(|it| {
            it.as_ref()
                .is_some_and(|it| it.is_due(is_deleted_after_a_week()))
        })
    };
    let take = move |text: Option<String>| take_in(shelf_view, text);
    view! {
        <section class="everything" class:due=is_due aria-label="Backup">
            <p>"Saved in this browser only, on this device. " {move || lasting_words(shelf_view.lasts.get())}</p>
            <p data-exported="true">{last}</p>
            <div class="step-buttons">
                <button data-action="save-everything" on:click=move |_| save_all(shelf_view)>"Back up everything"</button>
                <OpenFile
                    label="Restore a backup"
                    action="open-everything"
                    largest=backup::LARGEST
                    take=Callback::new(take)
                    tell=Callback::new(move |said: String| shelf_view.tell(said))
                />
            </div>
        </section>
    }
}

fn lasting_words(lasts: Option<bool>) -> &'static str {
    match lasts {
        Some(true) => "The browser has promised to save it until you delete it yourself.",
        Some(false) | None if is_deleted_after_a_week() => {
            "This browser may delete it after seven days without a visit. Add this page to the home screen, where it lasts, and back up everything."
        }
        Some(false) | None => {
            "The browser may delete it when the device has little storage left, so back up everything now and then."
        }
    }
}

fn save_all(shelf_view: ShelfView) {
    // The same file as from a page that broke: what is kept nowhere is in it too.
    if shelf_view.bench().save_everything() {
        let today = clock::today();
        // Where it cannot be noted, the maker is only reminded again.
        let _ = shelf().and_then(|mut shelf| shelf.note_export(today));
        shelf_view.read();
        shelf_view.tell(
            "Backup saved. Put the file in a safe place: another device, a memory stick, an email to yourself.",
        );
    } else {
        shelf_view.tell("The browser did not save the file.");
    }
}

fn take_in(shelf_view: ShelfView, text: Option<String>) {
    let words = match text {
        None => BackupError::TooLarge.to_string(),
        Some(text) => import_backup(shelf_view.open_book(), &text),
    };
    shelf_view.read();
    shelf_view.tell(words);
}

/// Takes in a file of everything, beside what is there; what came of it, in words.
pub(crate) fn import_backup(open_book: OpenBook, text: &str) -> String {
    let imported = shelf()
        .map_err(BackupError::Store)
        .and_then(|mut shelf| shelf.import(text));
    open_book.refresh_list();
    imported.map_or_else(|error| error.to_string(), |imported| imported.to_string())
}

/// In the head of the page, once it is time: the reminder to save everything.
#[component]
pub(crate) fn BackupReminder() -> impl IntoView {
    let bench = bench();
    let is_due = Memo::new(move |_| {
        // Checked after every finished change, and when the sheet with this section is closed.
        bench.settled.track();
        bench.sheet.track();
        let reminder = shelf().and_then(|shelf| shelf.reminder(clock::today()));
        reminder.is_ok_and(|reminder| reminder.is_due(is_deleted_after_a_week()))
    });
    view! {
        <Show when=move || is_due.get()>
            <button class="due" data-action="due" on:click=move |_| bench.sheet.set(Some(SheetKind::Lines))>
                "Time to back up everything"
            </button>
        </Show>
    }
}
