//! Files the maker saves.

use leptos::prelude::*;

use super::bench::{Bench, bench};
use crate::base::units::show::Units;
use crate::design::Design;
use crate::keep::share::file;
use crate::keep::share::table::Table;
use crate::page::browser::files;
use crate::plan::Plan;

/// Hands a text to the browser as a file to save; `false`, and said, when it will not.
pub(crate) fn save(bench: Bench, name: &str, text: &str, kind: &str) -> bool {
    let is_saved = files::save(name, text, kind).is_ok();
    if !is_saved {
        bench.say("The browser did not save the file.".to_owned());
    }
    is_saved
}

/// Saves a line as a design file; whether the browser took it.
pub(crate) fn save_line(bench: Bench, design: &Design) -> bool {
    save(
        bench,
        &file::name(design),
        &file::write(design),
        "application/json",
    )
}

/// Saves a table for a spreadsheet, of the design after the last finished change.
#[component]
pub(crate) fn SaveTable(
    /// A key for tests.
    action: &'static str,
    /// What the file is called.
    name: fn(&Design) -> String,
    /// The table.
    of: fn(&Design, &Plan, Units) -> Table,
) -> impl IntoView {
    let bench = bench();
    let save_it = move |_| {
        let units = bench.units.get_untracked();
        let plan = bench.settled_plan.read_untracked();
        let (name, text) = bench
            .settled
            .with_untracked(|design| (name(design), of(design, &plan, units).csv()));
        save(bench, &name, &text, "text/csv;charset=utf-8");
    };
    view! {
        <p class="saving">
            <button data-action=action on:click=save_it>"Save as a table"</button>
            <span class="hint">"For a spreadsheet (CSV)."</span>
        </p>
    }
}
