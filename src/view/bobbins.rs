//! What to wind on each bobbin.

use leptos::prelude::*;

use super::bench::bench;
use super::words;
use crate::units::show;

/// The bobbins, in the order in which their carriers come in.
#[component]
pub(crate) fn Bobbins() -> impl IntoView {
    let bench = bench();
    let carriers = Memo::new(move |_| {
        bench.plan.with(|plan| {
            plan.bobbins
                .iter()
                .map(|bobbin| bobbin.carrier)
                .enumerate()
                .collect::<Vec<_>>()
        })
    });
    let bobbin = move |index: usize| bench.plan.with(|plan| plan.bobbins.get(index).copied());
    let ends = move || bench.settled.with(|design| design.thread().ends);
    view! {
        <section class="bobbins" id="bobbins" aria-label="Bobbins">
            <h2>"Bobbins to wind"</h2>
            <p class="hint">
                {move || format!("{} ends plied to each thread; allowance for leading in included.", ends())}
            </p>
            <ol>
                <For each=move || carriers.get() key=|key| *key let:key>
                    <li
                        data-bobbin=key.1.to_string()
                        data-length=move || bobbin(key.0).map(|bobbin| bobbin.length.metres().to_string())
                        data-mass=move || bobbin(key.0).map(|bobbin| bobbin.mass.kilograms().to_string())
                    >
                        <span class="deed">{words::carrier(key.1)}</span>
                        <span class="number">{move || bobbin(key.0).map(|bobbin| bench.units.get().show_yarn(bobbin.length, 1))}</span>
                        <span class="number">{move || bobbin(key.0).map(|bobbin| show::grams(bobbin.mass))}</span>
                    </li>
                </For>
            </ol>
        </section>
    }
}
