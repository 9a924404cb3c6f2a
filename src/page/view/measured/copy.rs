//! To braid it: a design on the maker's own machine, with what differs from the original.

use core::time::Duration;
use std::sync::Arc;

use leptos::prelude::*;

use super::state::OpenMeasured;
use crate::base::choice::Choice as _;
use crate::base::units::show::{self, Units};
use crate::base::units::{Length, LinearDensity};
use crate::design::Design;
use crate::edit::copied::{Difference, Keeps, LineCopy, Original, copied};
use crate::measured::{FoundTaper, MadeOf};
use crate::page::places::Place;
use crate::page::view::bench::bench;
use crate::page::view::new_line::sources;
use crate::page::view::places::places;
use crate::paper::chart::measured_picture::finished_sizes;
use crate::paper::words;

/// What came of copying.
#[derive(Clone, Debug, PartialEq)]
enum Outcome {
    /// It was not asked for yet.
    Unasked,
    /// It is being calculated.
    Coming,
    /// The copy.
    Made(Arc<LineCopy>),
    /// Why there is none.
    Nothing(String),
}

/// The copy of the open measured line.
#[derive(Clone, Copy)]
pub(super) struct Copied {
    open: OpenMeasured,
    keeps: RwSignal<Keeps>,
    /// Machine and yarn; nothing until they are chosen.
    source: RwSignal<Option<Design>>,
    outcome: RwSignal<Outcome>,
}

impl Copied {
    pub(super) fn of(open: OpenMeasured) -> Self {
        let copied = Self {
            open,
            keeps: RwSignal::new(Keeps::default()),
            source: RwSignal::new(None),
            outcome: RwSignal::new(Outcome::Unasked),
        };
        // What was made of other readings, weights or another name is not shown beside these.
        let made_from = Memo::new(move |_| {
            let name = open.line.with(|line| line.draft().name.clone());
            (open.found.get(), open.made_of.get(), name)
        });
        Effect::watch(
            move || made_from.get(),
            move |_, _, _| {
                copied.outcome.set(Outcome::Unasked);
                copied.keeps.set(Keeps::default());
            },
            false,
        );
        copied
    }

    fn made(self) -> Option<Arc<LineCopy>> {
        match self.outcome.get() {
            Outcome::Made(copy) => Some(copy),
            _ => None,
        }
    }

    /// Its finished sizes along the line, once it is made.
    pub(super) fn sizes(self) -> Option<Arc<Vec<(Length, Length)>>> {
        self.made().map(|copy| Arc::new(finished_sizes(&copy.plan)))
    }

    /// What it is called.
    pub(super) fn title(self) -> Option<String> {
        self.made().map(|_| "your copy".to_owned())
    }

    /// Calculates it, a moment later: the search takes a while, and the button must answer first.
    fn calculate(self) {
        self.outcome.set(Outcome::Coming);
        let asked = self.asked();
        set_timeout(
            move || {
                self.outcome.try_set(asked.outcome());
            },
            Duration::from_millis(30),
        );
    }

    /// What is asked for now.
    fn asked(self) -> Asked {
        let workshop = self.source.get_untracked();
        Asked {
            found: self.open.found.get_untracked(),
            made_of: self.open.made_of.get_untracked(),
            name: self
                .open
                .line
                .with_untracked(|line| line.draft().name.clone()),
            workshop: workshop.unwrap_or_else(|| bench().settled.get_untracked()),
            keeps: self.keeps.get_untracked(),
        }
    }
}

/// What a copy is made from.
struct Asked {
    found: Option<Arc<FoundTaper>>,
    made_of: Option<Arc<MadeOf>>,
    name: String,
    workshop: Design,
    keeps: Keeps,
}

impl Asked {
    fn outcome(&self) -> Outcome {
        let (Some(found), Some(made_of)) = (&self.found, &self.made_of) else {
            return Outcome::Nothing("Two places at least are needed to find a taper.".to_owned());
        };
        let original = Original {
            name: &self.name,
            taper: &found.taper(),
            made_of,
        };
        match copied(&original, &self.workshop, self.keeps) {
            Ok(copy) => Outcome::Made(Arc::new(copy)),
            Err(why) => Outcome::Nothing(why.to_string()),
        }
    }
}

/// What is kept, on which machine, and what comes of it.
#[component]
pub(super) fn CopyCard(copied: Copied) -> impl IntoView {
    let bench = bench();
    let tile = move |keeps: &'static Keeps| {
        let choose = move |_| {
            copied.keeps.set(*keeps);
            copied.calculate();
        };
        view! {
            <button
                class="tile"
                data-action="copy-keeps"
                data-keeps=keeps.key()
                aria-pressed=move || (copied.keeps.get() == *keeps).to_string()
                on:click=choose
            >
                {keeps.name()}
            </button>
        }
    };
    let all = StoredValue::new(sources(bench));
    let option = |(index, (name, _)): (usize, (String, Design))| {
        view! { <option value=index.to_string()>{name}</option> }
    };
    let choose = move |text: String| {
        let index: usize = text.parse().unwrap_or(0);
        let chosen = all.with_value(|all| all.get(index).map(|(_, design)| design.clone()));
        copied.source.set(chosen);
        if copied.outcome.get_untracked() != Outcome::Unasked {
            copied.calculate();
        }
    };
    copied
        .source
        .set(all.with_value(|all| all.first().map(|(_, design)| design.clone())));
    let state = move || match copied.outcome.get() {
        Outcome::Unasked => "unasked",
        Outcome::Coming => "coming",
        Outcome::Made(_) => "copy",
        Outcome::Nothing(_) => "nothing",
    };
    let shown = move || {
        match copied.outcome.get() {
        Outcome::Unasked => {
            view! { <p class="hint">"Another material cannot have both. Choose one to see what comes of it."</p> }
                .into_any()
        }
        Outcome::Coming => view! { <p class="hint">"Calculating …"</p> }.into_any(),
        Outcome::Made(copy) => view! { <Made copy made_of=copied.open.made_of.get_untracked() /> }.into_any(),
        Outcome::Nothing(why) => view! { <p class="said" role="alert">{why}</p> }.into_any(),
    }
    };
    view! {
        <section class="card" aria-label="Braid it" data-copy=state>
            <h3>"Braid it"</h3>
            <label class="field">
                <span class="label">"Machine and yarn"</span>
                <select data-action="copy-source" on:change:target=move |event| choose(event.target().value())>
                    {all.get_value().into_iter().enumerate().map(option).collect_view()}
                </select>
            </label>
            <p id="copy-keeps">"What should your line keep of the original?"</p>
            <div class="tiles" role="group" aria-labelledby="copy-keeps">{Keeps::ALL.iter().map(tile).collect_view()}</div>
            <div role="status">{shown}</div>
            <BraidThis copied />
            {move || copied.made().map(|copy| view! {
                <Differences of=copy.differences.clone() title="Your copy and the original" own="copy" />
            })}
        </section>
    }
}

/// Opens the copy as a line of its own.
#[component]
fn BraidThis(copied: Copied) -> impl IntoView {
    let (bench, places) = (bench(), places());
    let braid = move |_| {
        // Asked for at once, it keeps the sizes.
        if copied.outcome.get_untracked() == Outcome::Unasked {
            copied.outcome.set(copied.asked().outcome());
        }
        if let Outcome::Made(copy) = copied.outcome.get_untracked() {
            bench.sheet.set(None);
            places.go(Place::Draw);
            bench.take_in(copy.design.clone());
        }
    };
    let is_off = move || matches!(copied.outcome.get(), Outcome::Coming | Outcome::Nothing(_));
    view! {
        <button class="main" data-action="braid-this" disabled=is_off on:click=braid>"Braid this"</button>
        <p class="hint">"It opens as a new line. The open line is not changed."</p>
    }
}

/// The copy in figures, beside those of the original.
#[component]
fn Made(copy: Arc<LineCopy>, made_of: Option<Arc<MadeOf>>) -> impl IntoView {
    let bench = bench();
    let kept = copy.clone();
    let facts = move || {
        words::measured::copy_facts(
            &copy.design,
            &copy.plan,
            made_of.as_deref(),
            bench.units.get(),
        )
        .into_iter()
        .map(|(name, value)| view! { <div><dt>{name}</dt><dd>{value}</dd></div> })
        .collect_view()
    };
    let warnings = move || {
        let units = bench.units.get();
        words::warnings(&kept.plan.notices)
            .map(|notice| view! { <p class="said">{words::notice(notice, units)}</p> })
            .collect_view()
    };
    view! {
        <dl class="facts">{facts}</dl>
        {warnings}
    }
}

/// What differs along the length.
#[component]
pub(super) fn Differences(
    of: Vec<Difference>,
    title: &'static str,
    own: &'static str,
) -> impl IntoView {
    let units = bench().units;
    let row = move |of: &Difference| row(of, units.get());
    let rows = move || of.iter().map(row).collect_view();
    view! {
        <table class="differences">
            <caption>{title}</caption>
            <thead>
                <tr>
                    <th scope="col">"place"</th>
                    <th scope="col">{format!("diameter → {own}")}</th>
                    <th scope="col">{format!("g in a metre → {own}")}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

fn row(of: &Difference, units: Units) -> impl IntoView + use<> {
    let (original, copy) = of.diameters;
    let metre = Length::from_metres(1.0);
    let grams = |weight: LinearDensity| format!("{:.3}", (metre * weight).grams());
    let (weight, copy_weight) = of.weights;
    let size = show::deviation(copy / original - 1.0);
    let weights = match weight {
        Some(weight) => format!("{} → {}", grams(weight), grams(copy_weight)),
        None => format!("? → {}", grams(copy_weight)),
    };
    let heavier = weight.map(|weight| {
        let share = (metre * copy_weight) / (metre * weight) - 1.0;
        view! { <small>{show::deviation(share)}</small> }
    });
    view! {
        <tr>
            <th scope="row">{units.show_position(of.at)}</th>
            <td>
                {units.show_diameter_short(original)}
                " → "
                {units.show_diameter_short(copy)}
                <small>{size}</small>
            </td>
            <td>{weights}{heavier}</td>
        </tr>
    }
}
