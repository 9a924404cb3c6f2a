//! What to ply, and what to wind on each bobbin.

use leptos::prelude::*;

use super::bench::bench;
use super::rows::Rows;
use super::saving::SaveTable;
use super::terms::TermLine;
use crate::base::units::show;
use crate::keep::share::table;
use crate::paper::terms::Term;
use crate::paper::words;
use crate::plan::bobbins::Plying;

/// The plying list, and the bobbins in the order in which they enter.
#[component]
pub(crate) fn Bobbins() -> impl IntoView {
    let bench = bench();
    let keys = Memo::new(move |_| {
        bench.plan.with(|plan| {
            let bobbins = plan.bobbins.iter().enumerate();
            bobbins
                .map(|(index, bobbin)| (index, bobbin.carrier, bobbin.ends))
                .collect::<Vec<_>>()
        })
    });
    view! {
        <section class="bobbins" aria-label="Bobbins">
            <h2>"To ply"</h2>
            <TermLine of=&[Term::Ply, Term::End, Term::Thread, Term::LeadIn] />
            <Plies />
            <h2>"Bobbins to wind"</h2>
            <p class="hint">"In the order in which they enter; lead-in, tails and your allowance included."</p>
            <ol>
                <For each=move || keys.get() key=|key| *key let:key>
                    <Wound index=key.0 />
                </For>
            </ol>
            <SaveTable action="save-bobbins" name=table::bobbins_name of=table::bobbins />
        </section>
    }
}

#[component]
fn Plies() -> impl IntoView {
    let bench = bench();
    let plying = Memo::new(move |_| bench.plan.with(|plan| plan.plying.clone()));
    view! { <ul class="plies"><Rows of=plying row=ply /></ul> }
}

fn ply(kind: Memo<Plying>) -> AnyView {
    let units = bench().units;
    view! {
        <li
            data-plying=move || kind.read().ends
            data-length=move || kind.read().thread.metres()
            data-yarn=move || kind.read().yarn.metres()
            data-mass=move || kind.read().mass.kilograms()
        >
            {move || words::ply(&kind.read(), units.get())}
        </li>
    }
    .into_any()
}

#[component]
fn Wound(index: usize) -> impl IntoView {
    let bench = bench();
    let bobbin = Memo::new(move |_| bench.plan.with(|plan| plan.bobbins.get(index).copied()));
    let units = move || bench.units.get();
    let enters = move || {
        bobbin.get().map(|bobbin| {
            let (at, ends) = (units().show_position(bobbin.enters), bobbin.ends);
            match bobbin.engagements {
                1 => format!("{ends} ends, enters at {at}"),
                times => format!("{ends} ends, enters at {at}, {times} times in all"),
            }
        })
    };
    let runs_out = move || {
        let at = bobbin.get()?.runs_out?;
        Some(format!("too small: empty at {}", units().show_position(at)))
    };
    view! {
        <li
            data-bobbin=move || bobbin.get().map(|bobbin| bobbin.carrier.to_string())
            data-ends=move || bobbin.get().map(|bobbin| bobbin.ends.to_string())
            data-length=move || bobbin.get().map(|bobbin| bobbin.length.metres().to_string())
            data-mass=move || bobbin.get().map(|bobbin| bobbin.mass.kilograms().to_string())
            data-runs-out=move || bobbin.get().and_then(|bobbin| bobbin.runs_out).map(|at| at.metres().to_string())
        >
            <span class="operation">{move || bobbin.get().map(|bobbin| words::carrier(bobbin.carrier))}</span>
            <span class="number">{move || bobbin.get().map(|bobbin| units().show_yarn(bobbin.length, 1))}</span>
            <span class="number">{move || bobbin.get().map(|bobbin| show::grams(bobbin.mass))}</span>
            <span class="enters">{enters}</span>
            {move || runs_out().map(|said| view! { <span class="said">{said}</span> })}
        </li>
    }
}
