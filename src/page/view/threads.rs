//! The place of the thread plan: the schedule as a list, and in step with it the threads along the line, the machine from above
//! and the surface of the braid. One cursor moves through all of them.

use leptos::prelude::*;

use super::bench::bench;
use super::machine::Machine;
use super::schedule::Schedule;
use super::sheet_button::SheetButton;
use super::sheet_kind::SheetKind;
use super::stairs::Stairs;
use super::workshop_button::WorkshopButton;
use crate::paper::words;

/// The place.
#[component]
pub(crate) fn Threads() -> impl IntoView {
    let bench = bench();
    view! {
        <div class="threads">
            <header class="place-head">
                <div>
                    <h2>{move || bench.plan.with(|plan| words::changes_in_all(plan))}</h2>
                    <p class="quiet">{move || bench.settled.with(words::take_off)}</p>
                </div>
                <div class="buttons">
                    <WorkshopButton label="Change gears or angle" first="gears" />
                    <SheetButton kind=SheetKind::Plans>"Find a better plan"</SheetButton>
                </div>
            </header>
            <Stairs />
            <Schedule />
            <Machine />
        </div>
    }
}
