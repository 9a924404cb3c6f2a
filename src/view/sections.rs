//! The parts of the line: length, weight against the drawing, silk size letters.

use leptos::prelude::*;

use super::bench::bench;
use super::terms::TermWord;
use super::words;
use crate::letters::Letter;
use crate::plan::SectionWeight;
use crate::terms::Term;
use crate::units::show::{self, Units};
use crate::weight::two_handed::TwoHanded;

/// One row for each part.
#[component]
pub(crate) fn Sections() -> impl IntoView {
    let bench = bench();
    let sections = Memo::new(move |_| bench.plan.with(|plan| plan.sections.clone()));
    let rows = move || {
        let units = bench.units.get();
        sections.with(|sections| {
            sections
                .iter()
                .map(|section| row(section, units))
                .collect_view()
        })
    };
    view! {
        <section class="sections" aria-label="Parts of the line">
            <h3>"Parts of the line"</h3>
            <table>
                <thead>
                    <tr>
                        <th>"part"</th>
                        <th>"length"</th>
                        <th>"weight"</th>
                        <th>"against the drawing"</th>
                        <th><TermWord term=Term::SilkSize word="silk size" /></th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            <p class="hint">
                "Silk size letters go by diameter, after tables reprinted in Healy, Pocket Guide to Fishing Knots. Lists that
                turn letters into classes differ by a whole class: weigh the line."
            </p>
            <TwoHands />
        </section>
    }
}

/// The same line weighed as one for a two-handed rod, one tap away.
#[component]
fn TwoHands() -> impl IntoView {
    let bench = bench();
    let weighed = Memo::new(move |_| bench.plan.with(|plan| plan.two_handed.clone()));
    let rows = move || {
        let rows = weighed.get();
        rows.iter().map(two_handed).collect_view()
    };
    view! {
        <Show when=move || weighed.with(|weighed| !weighed.is_empty())>
            <details class="finer">
                <summary>"Weighed as a line for two hands"</summary>
                <table>
                    <thead>
                        <tr>
                            <th>"weighed to"</th>
                            <th>"weight"</th>
                            <th>"nearest class"</th>
                            <th>"off its target"</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
                <p class="hint">
                    "Two-handed lines are weighed to the length of their heads, AFFTA fly line weight standard. It gives targets;
                    no bands were found with it, so the difference is shown instead."
                </p>
            </details>
        </Show>
    }
}

fn two_handed(weighed: &TwoHanded) -> impl IntoView + use<> {
    let TwoHanded {
        kind, mass, class, ..
    } = *weighed;
    view! {
        <tr data-two-handed=kind.feet data-mass=mass.kilograms() data-class=class.to_string()>
            <th scope="row">{format!("{} ft, {}", kind.feet, kind.name)}</th>
            <td>{show::grains(mass)}</td>
            <td>{class.to_string()}</td>
            <td>{show::deviation(weighed.off())}</td>
        </tr>
    }
}

fn row(section: &SectionWeight, units: Units) -> impl IntoView + use<> {
    let part = words::part(section.section.part);
    let length = units.show_position(section.section.to - section.section.from);
    view! {
        <tr data-section=part data-mass=section.mass.kilograms() data-off=section.off()>
            <th scope="row"><TermWord term=Term::of_part(section.section.part) word=part /></th>
            <td>{length}</td>
            <td>{show::grams(section.mass)}</td>
            <td>{show::deviation(section.off())}</td>
            <td>{letters(section)}</td>
        </tr>
    }
}

fn letters(section: &SectionWeight) -> String {
    let name = |letter: Option<Letter>| letter.map_or("–", |letter| letter.name);
    let (from, to) = (name(section.letters.0), name(section.letters.1));
    if from == to {
        from.to_owned()
    } else {
        format!("{from} to {to}")
    }
}
