//! What the line is made of, from its size and its weight.

use leptos::prelude::*;

use super::state::open_measured;
use crate::base::units::show;
use crate::edit::copied::silk_head;
use crate::page::view::bench::bench;
use crate::paper::words::measured as words;

/// Class, density and material, and what braided silk of the same shape would weigh.
#[component]
pub(super) fn MadeOfCard() -> impl IntoView {
    let (bench, open) = (bench(), open_measured());
    let class = move || {
        let made_of = open.made_of.get()?;
        words::class(&made_of, bench.units.get())
    };
    let class_row = move || {
        class().map(
            |words| view! { <div><dt>"Class"</dt><dd data-measured-class="">{words}</dd></div> },
        )
    };
    let hint = move || {
        class().is_none().then(|| {
            view! { <p class="hint">"Weigh the line, or a part of it, to see its class and what it is made of."</p> }
        })
    };
    let density = Memo::new(move |_| {
        let made_of = open.made_of.get()?;
        let value = made_of.density?.value.grams_per_cubic_centimetre();
        Some((
            words::density(&made_of)?,
            value,
            words::materials(&made_of)?,
        ))
    });
    let volume = move || {
        let made_of = open.made_of.get()?;
        Some(format!("{:.1} cm³", made_of.volume.millilitres()))
    };
    let own = Memo::new(move |_| {
        let found = open.found.get()?;
        let head = bench
            .settled
            .with(|design| silk_head(&found.taper(), design))?;
        Some(format!(
            "Drawn exactly so with the yarn and dressing of the open line, its first 30 ft would weigh {}.",
            show::grains(head)
        ))
    });
    let contradiction = move || {
        let made_of = open.made_of.get()?;
        made_of.is_contradicted.then(|| {
            view! {
                <p class="said" role="alert">
                    "Some weights contradict each other, or the length of the line, and are not used. Correct them."
                </p>
            }
        })
    };
    view! {
        <section class="card" aria-label="What it is made of">
            <h3>"What it is made of"</h3>
            {contradiction}
            {hint}
            <dl class="facts">
                {class_row}
                <div><dt>"Volume"</dt><dd>{volume}</dd></div>
                {move || density.get().map(|(words, value, _)| view! {
                    <div><dt>"Density"</dt><dd data-measured-density=value.to_string()>{words}</dd></div>
                })}
            </dl>
            {move || density.get().map(|(_, _, materials)| view! { <p data-material="">{materials}</p> })}
            {move || own.get().map(|words| view! { <p class="hint" data-silk-weight="">{words}</p> })}
            <details class="finer">
                <summary>"How this is calculated"</summary>
                <p class="ground">
                    "Volume: each piece is a truncated cone. Density: what was weighed over its volume. The range after ± holds in 95 of 100 cases. It comes from micrometer and scale. A soft line also gives way under the jaws, by some 12 µm: rule of thumb, no source. Class: AFFTA fly line weight standard, first 30 ft from the end of the level tip. Silk has 1.34 g/cm³ (Morton and Hearle 2008). It fills 45 to 63 % of a braid’s section. With oil and varnish in the rest it has 1.05 to 1.25, calculated. What floats by itself is lighter than water. The limits of coated lines are from memory."
                </p>
            </details>
        </section>
    }
}
