//! The parts of the line: length, weight against the drawing, silk size letters.

use leptos::prelude::*;

use super::bench::bench;
use super::terms::TermWord;
use super::words;
use crate::letters::Letter;
use crate::plan::SectionWeight;
use crate::terms::Term;
use crate::units::show::{self, Units};

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
        </section>
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
