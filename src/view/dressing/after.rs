//! The line bare, oiled and finished: a table, and what a metre of it weighs along its length.

use leptos::prelude::*;

use crate::chart::heft::{Finish, heft};
use crate::plan::Plan;
use crate::units::show::{self, Units};
use crate::units::{Density, Length, Mass};
use crate::view::bench::bench;

/// Size of the picture, in units of its own; the page stretches it to the width there is.
const PICTURE: (f64, f64) = (600.0, 120.0);

/// Weights, thickness and density in the three states, and their picture.
#[component]
pub(super) fn AfterEach() -> impl IntoView {
    let bench = bench();
    let rows = move || {
        let units = bench.units.get();
        bench.plan.with(|plan| {
            let row = |finish| row(plan, finish, units);
            Finish::ALL.map(row).into_iter().collect_view()
        })
    };
    view! {
        <table class="states">
            <thead>
                <tr>
                    <th></th>
                    <th>"whole line"</th>
                    <th>"first 30 ft"</th>
                    <th>"belly"</th>
                    <th>"density"</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
        <Picture />
    }
}

fn row(plan: &Plan, finish: Finish, units: Units) -> impl IntoView + use<> {
    let making = plan.line.making();
    let dressing = finish.dressing(&making.dressing);
    let mass = |from, to| plan.line.mass_with(&dressing, Density::ZERO, from, to);
    let whole = mass(Length::ZERO, plan.length);
    let head = plan.head_mass.map(|_| mass(plan.head.from, plan.head.to));
    let belly = dressing.dress(&plan.belly.braid, making.braiding.fibre_fraction);
    let density = belly.linear_density / belly.diameter.circle();
    view! {
        <tr data-state=finish.name() data-mass=whole.kilograms() data-head=head.map(Mass::kilograms)>
            <th scope="row">{finish.name()}</th>
            <td>{show::grams(whole)}</td>
            <td>{head.map_or_else(|| "–".to_owned(), show::grains)}</td>
            <td>{units.show_diameter_short(belly.diameter)}</td>
            <td>{format!("{:.2}", density.grams_per_cubic_centimetre())}</td>
        </tr>
    }
}

#[component]
fn Picture() -> impl IntoView {
    let bench = bench();
    let heft = Memo::new(move |_| bench.settled_plan.with(|plan| heft(plan, PICTURE)));
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
