//! The figures. Each opens to show how it is calculated and from what source.

use leptos::prelude::*;

use super::bench::bench;
use super::terms::explained;
use crate::paper::figures::{FIGURES, Figure, Group};
use crate::paper::terms::Term;

/// All figures by group.
#[component]
pub(crate) fn Figures() -> impl IntoView {
    let groups = Group::ALL.map(|group| {
        let figures = FIGURES.iter().filter(|figure| figure.group == group);
        view! {
            <section class="group">
                <h3>{group.name()}</h3>
                {figures.map(|&figure| view! { <FigureRow figure /> }).collect_view()}
            </section>
        }
    });
    view! {
        <section class="figures" aria-label="Figures">
            <div class="groups">{groups.into_iter().collect_view()}</div>
            <p class="hint">"Tap a figure to see how it is calculated."</p>
        </section>
    }
}

#[component]
fn FigureRow(figure: Figure) -> impl IntoView {
    let bench = bench();
    // Calculated once for text and number; only what changed is written.
    let value = Memo::new(move |_| {
        bench
            .plan
            .with(|plan| (figure.value)(plan, bench.units.get()))
    });
    let si = move || value.with(|value| value.si.map(|si| si.to_string()));
    let text = move || value.with(|value| value.text.clone());
    view! {
        <details class="figure">
            <summary>
                <span class="name">{figure.name}</span>
                <span class="number" data-figure=figure.key data-si=move || si().unwrap_or_default()>{text}</span>
            </summary>
            {Term::of_figure(figure.key).map(explained)}
            <p class="ground">{figure.how}</p>
        </details>
    }
}
