//! The values of the workshop that matter at a place, in few words. A tap opens the workshop at the first of them.

use leptos::prelude::*;

use super::bench::bench;
use super::sheet_kind::SheetKind;
use crate::design::Design;
use crate::page::browser::focus::{find, reveal};

/// A button with the values.
#[component]
pub(crate) fn WorkshopValues(
    /// The values in words.
    words: fn(&Design) -> String,
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
        <button class="workshop-values" data-action="workshop-values" aria-haspopup="dialog" on:click=open>
            {move || bench.settled.with(words)}
        </button>
    }
}
