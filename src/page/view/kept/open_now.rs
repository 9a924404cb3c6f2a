//! The line open now: its name, and where it is saved.

use leptos::prelude::*;

use super::BackupReminder;
use crate::edit::Edit;
use crate::page::view::bench::{StorageState, bench};
use crate::page::view::field::TextField;
use crate::page::view::sheet_button::SheetButton;
use crate::page::view::sheet_kind::SheetKind;

/// Its name to change, and a new line in its place.
#[component]
pub(super) fn OpenNow() -> impl IntoView {
    let bench = bench();
    let standing = move || bench.storage_state.with(StorageState::words);
    view! {
        <section class="card open-now" aria-label="Line open now">
            <div class="place-head">
                <div>
                    <h2>"Open now"</h2>
                    <p class="hint">{standing}</p>
                </div>
                <SheetButton kind=SheetKind::NewLine class="main">"New line"</SheetButton>
            </div>
            <TextField
                label="Name of the line"
                action="line-name"
                value=Signal::derive(move || bench.settled.with(|design| design.draft().name.clone()))
                commit=move |name: String| bench.commit(Edit::Name(name))
            />
            <BackupReminder />
        </section>
    }
}
