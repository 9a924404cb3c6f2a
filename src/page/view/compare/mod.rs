//! Comparing another line with the one on the bench: which line, and by how much the two differ.

mod choose_line;
mod tables;

use leptos::prelude::*;

use super::bench::bench;
use super::sheet::Sheet;
use super::sheet_kind::SheetKind;
use crate::design::Design;
use crate::edit::Edit;
use choose_line::{KeptLine, LinkField};
use tables::Tables;

/// The sheet.
#[component]
pub(crate) fn CompareSheet() -> impl IntoView {
    view! { <Sheet kind=SheetKind::Compare><Compare /></Sheet> }
}

/// The choice of the other line, and what comparing finds.
#[component]
fn Compare() -> impl IntoView {
    let bench = bench();
    let original = Memo::new(move |_| {
        let title = |design: &Design| Some(design.original()?.0.title().to_owned());
        bench.settled.with(title)
    });
    let is_laid = Memo::new(move |_| bench.ghost.with(Option::is_some));
    view! {
        <section class="compare" aria-label="Compare with another line">
            <p class="hint">
                "Show one of your lines, or one somebody sent you, under the drawing. It is drawn dashed and changes nothing."
            </p>
            <div class="fields">
                <KeptLine />
                <LinkField />
            </div>
            {move || original.get().map(|title| view! {
                <p>
                    {format!("This line is a copy of {title}, which is drawn dashed. ")}
                    <button data-action="forget-original" on:click=move |_| { bench.commit_or_say(Edit::ForgetOriginal); }>"Remove the original"</button>
                </p>
            })}
            <Show when=move || is_laid.get()>
                <p>
                    <button data-action="compare-none" on:click=move |_| bench.ghost.set(None)>"Stop comparing"</button>
                </p>
                <Tables />
            </Show>
        </section>
    }
}
