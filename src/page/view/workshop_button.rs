//! A button that opens the workshop at one of its settings.

use leptos::prelude::*;

use super::bench::bench;
use super::sheet_kind::SheetKind;
use crate::page::browser::focus::{find, reveal};

/// The button.
#[component]
pub(crate) fn WorkshopButton(
    /// What it says.
    label: &'static str,
    /// The key of the setting that gets the focus.
    first: &'static str,
) -> impl IntoView {
    let bench = bench();
    let open = move |_| {
        bench.sheet.set(Some(SheetKind::Workshop));
        // Once the sheet is built and has taken the focus.
        request_animation_frame(move || {
            request_animation_frame(move || {
                if let Some(field) = find(&format!("[data-action={first}]")) {
                    reveal(&field);
                }
            });
        });
    };
    view! {
        <button data-action="workshop-at" aria-haspopup="dialog" on:click=open>{label}</button>
    }
}
