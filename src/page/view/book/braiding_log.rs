//! How a line of the book was braided: its steps, what went wrong, and what was measured on the way.

use leptos::prelude::*;

use crate::base::units::Length;
use crate::keep::book::record::LineRecord;
use crate::page::view::bench::bench;
use crate::page::view::planned::Planned;
use crate::paper::words;
use crate::plan::run::{Check, Mishap};

/// Steps done, mishaps and checks; nothing where braiding was not begun.
#[component]
pub(super) fn BraidingLog(record: Memo<Option<LineRecord>>, planned: Planned) -> impl IntoView {
    let units = bench().units;
    let run = Memo::new(move |_| record.with(|record| record.as_ref()?.run.clone()));
    let steps = move || {
        run.with(|run| {
            let run = run.as_ref()?;
            planned.with(|planned| {
                let (design, plan) = planned.as_ref()?;
                let adjusted = run.adjusted(design, plan);
                let (done, all) = run.steps_of(&adjusted);
                Some(if done == all {
                    format!("Braided: all {all} steps done.")
                } else {
                    format!("Braided: {done} of {all} steps done.")
                })
            })
        })
    };
    let row = move |mishap: Mishap| {
        let at = units.get().show_position(Length::from_metres(mishap.at_m));
        view! { <li>{format!("at {at}: {}", mishap.kind.name())}</li> }
    };
    let mishaps = move || {
        let mishaps = run.with(|run| run.as_ref().map(|run| run.mishaps.clone()));
        let rows = mishaps.unwrap_or_default().into_iter().map(row);
        rows.collect_view()
    };
    let check = move |check: Check| {
        let at = units.get().show_position(Length::from_metres(check.at_m));
        view! { <li>{words::checks::check_row(&check, &at, units.get())}</li> }
    };
    let checks = move || {
        let checks = run.with(|run| run.as_ref().map(|run| run.checks.clone()));
        let rows = checks.unwrap_or_default().into_iter().map(check);
        rows.collect_view()
    };
    view! {
        <Show when=move || run.with(Option::is_some)>
            <div class="braided-so-far" data-braided-steps="">
                <p>{steps}</p>
                <ul>{mishaps}{checks}</ul>
            </div>
        </Show>
    }
}
