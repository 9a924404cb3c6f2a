//! A button that opens a sheet.

use leptos::prelude::*;

use super::bench::bench;
use super::sheet_kind::SheetKind;

/// The button; its content is what it shows.
#[component]
pub(crate) fn SheetButton(
    /// The sheet.
    kind: SheetKind,
    /// How it looks.
    #[prop(optional)]
    class: &'static str,
    /// Its name, where it shows an icon only.
    #[prop(optional)]
    label: &'static str,
    children: Children,
) -> impl IntoView {
    let bench = bench();
    view! {
        <button
            class=class
            data-action=kind.key()
            aria-haspopup="dialog"
            aria-label=(!label.is_empty()).then_some(label)
            on:click=move |_| bench.sheet.set(Some(kind))
        >
            {children()}
        </button>
    }
}
