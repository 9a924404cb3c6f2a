//! A button that opens the sheet for something.

use leptos::prelude::*;

use super::link::photo_link;
use super::task::PhotoTask;
use crate::page::view::sheet_kind::SheetKind;
use crate::paper::words::photo::PhotoAim;

/// The button.
#[component]
pub(crate) fn PhotoButton(
    /// For what.
    aim: PhotoAim,
    /// How it looks.
    #[prop(optional)]
    class: &'static str,
    /// Whether there is nothing to measure now.
    #[prop(into, optional)]
    is_off: Signal<bool>,
    /// What is measured then, and what becomes of it; nothing where that cannot be.
    task: impl Fn() -> Option<PhotoTask> + 'static,
) -> impl IntoView {
    let link = photo_link();
    let open = move |_| {
        if let Some(task) = task() {
            link.open(task);
        }
    };
    view! {
        <button
            class=class
            data-action=SheetKind::Photo.key()
            data-for=aim.key()
            aria-haspopup="dialog"
            disabled=move || is_off.get()
            on:click=open
        >
            {SheetKind::Photo.title()}
        </button>
    }
}
