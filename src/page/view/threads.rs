//! The place of the thread plan: the schedule as a list, the machine and the braid at one row of it, and the search for a better
//! plan.

use leptos::prelude::*;

use super::bench::bench;
use super::machine::Machine;
use super::schedule::Schedule;
use super::sheet_kind::SheetKind;
use crate::paper::words;

/// The place.
#[component]
pub(crate) fn Threads() -> impl IntoView {
    let bench = bench();
    view! {
        <div class="threads">
            <header class="place-head">
                <h2>{move || bench.plan.with(|plan| words::changes_in_all(plan))}</h2>
                <button data-action=SheetKind::Plans.key() aria-haspopup="dialog" on:click=move |_| bench.sheet.set(Some(SheetKind::Plans))>
                    "Find a better plan"
                </button>
            </header>
            <Schedule />
            <Machine />
        </div>
    }
}
