//! The line bare, oiled and finished: a table, and what a metre of it weighs along its length.

use leptos::prelude::*;

use crate::base::units::show;
use crate::base::units::{Density, Length, Mass};
use crate::page::view::bench::bench;
use crate::paper::chart::finish::Finish;
use crate::paper::chart::weight_curves::weight_curves;
use crate::plan::Plan;

/// Size of the picture, in units of its own; the page stretches it to the width there is.
const PICTURE: (f64, f64) = (600.0, 120.0);

/// Weights, thickness and density in the three states, and their picture.
#[component]
pub(super) fn FinishStates() -> impl IntoView {
    let rows = Finish::ALL.map(|finish| view! { <State finish /> });
    view! {
        <div class="card">
        <h2>"Bare, oiled, finished"</h2>
        <table class="states">
            <caption>"Tap a state to see it in the drawing."</caption>
            <thead>
                <tr>
                    <th><span class="spoken">"state"</span></th>
                    <th>"whole line"</th>
                    <th>"first 30 ft"</th>
                    <th>"belly"</th>
                    <th>"density"</th>
                </tr>
            </thead>
            <tbody>{rows.into_iter().collect_view()}</tbody>
        </table>
        <Picture />
        </div>
    }
}

/// Whole, head, thickness and density of the line in one state.
#[derive(Clone, Copy, PartialEq)]
struct Weights {
    whole: Mass,
    head: Option<Mass>,
    belly: Length,
    density: Density,
}

fn weights(plan: &Plan, finish: Finish) -> Weights {
    let process = plan.line.process();
    let dressing = finish.dressing(&process.dressing);
    let mass = |from, to| plan.line.mass_with(&dressing, Density::ZERO, from, to);
    let belly = dressing.dress(&plan.belly.braid, process.braiding.fibre_fraction);
    Weights {
        whole: mass(Length::ZERO, plan.length),
        head: plan.head_mass.map(|_| mass(plan.head.from, plan.head.to)),
        belly: belly.diameter,
        density: belly.linear_density / belly.diameter.circle(),
    }
}

#[component]
fn State(finish: Finish) -> impl IntoView {
    let bench = bench();
    let now = Memo::new(move |_| bench.plan.with(|plan| weights(plan, finish)));
    let head = move || now.get().head;
    view! {
        <tr
            data-state=finish.name()
            data-mass=move || now.get().whole.kilograms()
            data-head=move || head().map(Mass::kilograms)
        >
            <th scope="row">
                <button
                    data-action=format!("show-{}", finish.name())
                    aria-pressed=move || (bench.finish.get() == finish).to_string()
                    aria-label=format!("Show the line {} in the drawing", finish.name())
                    on:click=move |_| bench.finish.set(finish)
                >
                    {finish.name()}
                </button>
            </th>
            <td data-label="whole line">{move || show::grams(now.get().whole)}</td>
            <td data-label="first 30 ft">{move || head().map_or_else(|| "–".to_owned(), show::grains)}</td>
            <td data-label="belly">{move || bench.units.get().show_diameter_short(now.get().belly)}</td>
            <td data-label="density">{move || format!("{:.2}", now.get().density.grams_per_cubic_centimetre())}</td>
        </tr>
    }
}

#[component]
fn Picture() -> impl IntoView {
    let bench = bench();
    let heft = Memo::new(move |_| bench.settled_plan.with(|plan| weight_curves(plan, PICTURE)));
    let (width, height) = PICTURE;
    let curve = |index: usize| {
        let finish = Finish::ALL[index];
        view! { <path class=finish.name() d=move || heft.with(|heft| heft.curves[index].clone()) /> }
    };
    let top = move || {
        let grams = heft.with(|heft| heft.heaviest.grams_per_metre());
        format!("a metre of it, up to {grams:.2} g; tip at the left")
    };
    view! {
        <figure class="heft">
            <svg viewBox=format!("0 0 {width} {height}") preserveAspectRatio="none" role="img" aria-label="Weight of a metre along the line: bare, oiled, finished">
                {(0..Finish::ALL.len()).map(curve).collect_view()}
            </svg>
            <figcaption>
                <span class="key bare">"bare"</span>
                <span class="key oiled">"oiled"</span>
                <span class="key finished">"finished"</span>
                <span>{top}</span>
            </figcaption>
        </figure>
    }
}
