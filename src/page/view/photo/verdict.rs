//! What was measured, or why nothing was: one sentence, then what goes with it.

use leptos::prelude::*;

use super::state::{PhotoState, Work};
use super::task::PhotoTask;
use crate::page::view::bench::bench;
use crate::paper::words::photo as words;
use crate::photo::Estimate;

/// The verdict.
#[component]
pub(super) fn Verdict(state: PhotoState, task: StoredValue<PhotoTask>) -> impl IntoView {
    let units = bench().units;
    let sentence = move || {
        state.reading.with(|reading| match reading {
            Some(Ok(reading)) => task.with_value(|task| {
                let (measured, planned) = task.shown(reading.angle, reading.threads);
                words::verdict(measured, planned, task.aim)
            }),
            Some(Err(why)) => words::refusal(why),
            None => String::new(),
        })
    };
    // While another answer is awaited this is no verdict.
    let kind = move || {
        let is_here = state.work.get() != Work::Coming;
        let kind = |reading: &Result<_, _>| {
            if reading.is_ok() {
                "measured"
            } else {
                "refused"
            }
        };
        state
            .reading
            .with(|reading| reading.as_ref().filter(|_| is_here).map(kind))
    };
    let surface = Memo::new(move |_| state.with_reading(|it| (it.angle, it.threads)));
    let angle = Memo::new(move |_| {
        let (surface, threads) = surface.get()?;
        Some(task.with_value(|task| task.shown(surface, threads).0))
    });
    // The one of both angles that the verdict does not name.
    let other = move || {
        let (surface, threads) = surface.get()?;
        let in_wall = task.with_value(|task| task.in_wall(surface, threads));
        let words = if angle.get()? == surface {
            words::in_wall(in_wall)
        } else {
            words::on_surface(surface)
        };
        (surface != in_wall).then(|| view! { <p>{words}</p> })
    };
    let is_measured = Memo::new(move |_| angle.get().is_some());
    view! {
        <section class="card" aria-label="What was measured">
            <div role="status">
                <p
                    class="photo-large"
                    data-photo-verdict=kind
                    data-photo=move || is_measured.get().then_some("angle")
                    data-si=move || angle.get().map(|angle| angle.value.to_string())
                    data-spread=move || angle.get().map(|angle| angle.error.to_string())
                >
                    {sentence}
                </p>
            </div>
            {other}
            <Show when=move || is_measured.get()>
                <Number
                    key="crossings"
                    name="Crossings along one rib"
                    value=Memo::new(move |_| state.crossings())
                    words=Callback::new(move |it| words::crossings(it, units.get()))
                    none=words::NO_CROSSINGS
                />
                <Number
                    key="diameter"
                    name="Diameter"
                    value=Memo::new(move |_| state.measured_diameter().filter(|_| state.rule.with(Option::is_some)))
                    words=Callback::new(move |it| words::diameter(it, units.get()))
                    none=""
                />
                {move || state.with_reading(|reading| words::skew(reading.skew)).flatten().map(|words| view! { <p class="said">{words}</p> })}
                <p class="hint">{words::AFTER_SIGN}</p>
            </Show>
        </section>
    }
}

/// A number with its error.
#[component]
fn Number(
    key: &'static str,
    name: &'static str,
    value: Memo<Option<Estimate>>,
    words: Callback<Estimate, String>,
    /// What is said where there is none.
    none: &'static str,
) -> impl IntoView {
    move || match value.get() {
        Some(it) => view! {
            <p data-photo=key data-si=it.value.to_string() data-spread=it.error.to_string()>
                {name}": "<b>{words.run(it)}</b>
            </p>
        }
        .into_any(),
        None if none.is_empty() => ().into_any(),
        None => view! { <p>{none}</p> }.into_any(),
    }
}
