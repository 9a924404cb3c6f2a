//! The settings: yarn, threads, machine, take-off, dressing: the sheet “Workshop”.
//!
//! Colours have a meaning on the whole page: blue is what the maker may change, ink is what the plan says, silk is the line, red
//! is trouble. Nothing is shown by colour alone.

mod chosen;
mod constant;
mod dressing;
mod machine;
mod numbers;
mod takeoff;
mod yarn;

pub(super) use chosen::ChosenField;
pub(super) use constant::ConstantFinder;
use leptos::prelude::*;
pub(super) use numbers::Number;

use super::bench::bench;
use super::field_error::FieldError;
use super::sheet::Sheet;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use crate::edit::Edit;

/// All settings, in groups.
#[component]
pub(crate) fn WorkshopSheet() -> impl IntoView {
    view! {
        <Sheet kind=SheetKind::Workshop>
        <p><SheetButton kind=SheetKind::Questions>{SheetKind::Questions.title()}</SheetButton></p>
        <section class="settings" aria-label="Settings">
            <yarn::Yarn />
            <yarn::Threads />
            <machine::Machine />
            <takeoff::TakeOff />
            <dressing::Dressing />
            <Notes />
        </section>
        </Sheet>
    }
}

#[component]
fn Notes() -> impl IntoView {
    let bench = bench();
    let wrong = FieldError::none();
    let take = move |notes: String| wrong.set(bench.commit(Edit::Notes(notes)).err());
    let notes = Memo::new(move |_| bench.settled.with(|design| design.draft().notes.clone()));
    Effect::watch(move || notes.get(), move |_, _, _| wrong.set(None), false);
    view! {
        <fieldset class="wide">
            <legend>"Notes"</legend>
            <textarea
                rows="3"
                aria-label="anything to remember"
                data-action="notes"
                aria-invalid=move || wrong.invalid()
                aria-describedby=move || wrong.described_by()
                prop:value=notes
                on:change:target=move |event| take(event.target().value())
            ></textarea>
            {wrong.shown()}
        </fieldset>
    }
}
