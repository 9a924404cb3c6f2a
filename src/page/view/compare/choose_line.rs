//! Choosing the line to compare with: one stored in this browser, or one from a link.

use leptos::prelude::*;

use crate::design::Design;
use crate::keep::share::link;
use crate::page::view::bench::{Ghost, bench};
use crate::page::view::field::TextField;
use crate::page::view::sheet_button::SheetButton;
use crate::page::view::sheet_kind::SheetKind;

/// Leads to the lines stored here: each can be chosen there.
#[component]
pub(super) fn KeptLine() -> impl IntoView {
    view! {
        <p>
            <SheetButton kind=SheetKind::Lines>"Choose one of my lines"</SheetButton>
        </p>
    }
}

/// A link to paste.
#[component]
pub(super) fn LinkField() -> impl IntoView {
    let bench = bench();
    let lay = move |text: String| {
        if text.trim().is_empty() {
            return Ok(());
        }
        let design = linked(&text)?;
        bench.ghost.set(Some(Ghost::of(design, None)));
        Ok(())
    };
    view! {
        <TextField
            label="Or paste a link to a line"
            // Emptied once it is understood: from then on the tables say which line it was.
            value=Signal::stored(String::new())
            commit=lay
            action="compare-link"
        />
    }
}

/// The design in a link, or in its part after the `#`; else what is wrong with it.
fn linked(text: &str) -> Result<Design, String> {
    let fragment = link::fragment_in(text).unwrap_or_else(|| text.trim());
    match link::decode(fragment) {
        Some(design) => design.map_err(|error| error.to_string()),
        None => Err(format!(
            "This is not a link to a line. Paste the whole link, up to its end; it contains “#{}”.",
            link::PREFIX
        )),
    }
}
