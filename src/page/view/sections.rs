//! The parts of the line: length, weight against the drawing, silk size letters.

use leptos::prelude::*;

use super::bench::bench;
use super::rows::Rows;
use super::terms::TermWord;
use crate::base::units::show;
use crate::braid::letters::Letter;
use crate::braid::taper::Section;
use crate::braid::weight::two_handed::TwoHanded;
use crate::paper::figures::two_handed_words;
use crate::paper::terms::Term;
use crate::plan::SectionWeight;

/// One row for each part.
#[component]
pub(crate) fn Sections() -> impl IntoView {
    let bench = bench();
    let sections = Memo::new(move |_| bench.plan.with(|plan| plan.sections.clone()));
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
                <tbody><Rows of=sections row /></tbody>
            </table>
            <p class="hint">
                "Silk size letters follow the diameter, after tables reprinted in Healy, Pocket Guide to Fishing Knots. Lists that turn letters into classes differ by a whole class: weigh the line."
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
                            <th>"off the target"</th>
                        </tr>
                    </thead>
                    <tbody><Rows of=weighed row=two_handed /></tbody>
                </table>
                <p class="hint">
                    "Two-handed lines are weighed to the length of their heads. The standard gives targets but no bands, so the difference is shown. Source: AFFTA fly line weight standard."
                </p>
            </details>
        </Show>
    }
}

fn two_handed(weighed: Memo<TwoHanded>) -> AnyView {
    let kind = move || weighed.read().kind;
    let mass = move || weighed.read().mass;
    let class = move || weighed.read().class.to_string();
    let words = move || two_handed_words(&weighed.read());
    view! {
        <tr data-two-handed=move || kind().feet data-mass=move || mass().kilograms() data-class=class>
            <th scope="row">{move || format!("{} ft, {}", kind().feet, kind().name)}</th>
            <td>{move || show::grains(mass())}</td>
            <td>{words}</td>
            <td>{move || show::deviation(weighed.read().off())}</td>
        </tr>
    }
    .into_any()
}

fn row(section: Memo<SectionWeight>) -> AnyView {
    let units = bench().units;
    let part = Memo::new(move |_| section.read().section.part);
    let name = move || part.get().name();
    let length = move || {
        let Section { from, to, .. } = section.read().section;
        units.get().show_position(to - from)
    };
    let mass = move || section.read().mass;
    let off = move || section.read().off();
    view! {
        <tr data-section=name data-mass=move || mass().kilograms() data-off=off>
            <th scope="row">{move || view! { <TermWord term=Term::of_part(part.get()) word=name() /> }}</th>
            <td>{length}</td>
            <td>{move || show::grams(mass())}</td>
            <td>{move || show::deviation(off())}</td>
            <td>{move || letters(&section.read())}</td>
        </tr>
    }
    .into_any()
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
