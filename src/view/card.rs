//! The card: one page to pin above the machine. It shows the settled design, is always there for the printer, and on
//! screen only when asked for.

use leptos::prelude::*;

use super::bench::bench;
use super::chart::PrintedChart;
use super::words;
use crate::bobbins::Bobbin;
use crate::choice::Choice;
use crate::design::Design;
use crate::figures::{FIGURES, verdict_detail, verdict_title};
use crate::plan::{Action, Event, Plan};
use crate::units::show::{self, Units};

/// From so many stops on, the card's schedule stands in two columns.
const FEWEST_STOPS_FOR_TWO_COLUMNS: usize = 8;

/// The card, with its buttons when on screen.
#[component]
pub(crate) fn Card() -> impl IntoView {
    let bench = bench();
    let print = move |_| {
        if window().print().is_err() {
            bench.say("The browser would not print.".to_owned());
        }
    };
    let page = move || {
        let units = bench.units.get();
        bench
            .settled
            .with(|design| bench.settled_plan.with(|plan| sheet(design, plan, units)))
    };
    view! {
        <div class="card-desk" class:shown=move || bench.card_open.get()>
            <nav class="card-actions" aria-label="Card">
                <button data-action="print" class="main" on:click=print>"Print"</button>
                <button data-action="card-close" on:click=move |_| bench.card_open.set(false)>"Back to the bench"</button>
            </nav>
            <article class="card">
                {page}
            </article>
        </div>
    }
}

fn sheet(design: &Design, plan: &Plan, units: Units) -> impl IntoView + use<> {
    let notes = design.draft().notes.clone();
    let stops = plan.events.chunk_by(|a, b| a.at == b.at);
    let in_two = stops.clone().count() >= FEWEST_STOPS_FOR_TWO_COLUMNS;
    view! {
        <header>
            <h1>{design.title().to_owned()}</h1>
            <p class="class">{verdict_title(&plan.verdict)}</p>
            <p class="detail">{verdict_detail(plan, units)}</p>
            <p class="made-of">{made_of(design)}</p>
        </header>
        <PrintedChart />
        <section class="card-figures">{figures(plan, units)}</section>
        <section class="card-schedule" class:two=in_two>
            <h2>"At the machine"</h2>
            <p class="carriers">{start_words(plan)}</p>
            <ol>{stops.map(|events| stop(events, units)).collect_view()}</ol>
        </section>
        <section class="card-bobbins">
            <h2>"Bobbins"</h2>
            <ol>{plan.bobbins.iter().map(bobbin).collect_view()}</ol>
        </section>
        <footer>
            <p>{notes}</p>
            <p>
                "Machine at rest before you reach in. Oily rags catch fire by themselves: spread flat outdoors or drown in a
                closed metal can; hang the oiled line open. Solvents: ventilate, no flame. Product safety data sheets, local
                codes and licensed practice come first."
            </p>
        </footer>
    }
}

/// Yarn and machine in one line.
fn made_of(design: &Design) -> String {
    use crate::design::settings::Setting;
    let label = |setting| show::trimmed(design.setting(setting), 2);
    format!(
        "{}, {} ends of {}/{} denier a thread; {} carriers, {}; {}° aimed at, tolerance {}°; gears over a {}-tooth partner",
        design.draft().fibre.name(),
        label(Setting::EndsPerThread),
        label(Setting::LabelLow),
        label(Setting::LabelHigh),
        label(Setting::Carriers),
        design.draft().pattern.name(),
        label(Setting::TargetAngle),
        label(Setting::AngleTolerance),
        label(Setting::PartnerTeeth),
    )
}

fn figures(plan: &Plan, units: Units) -> impl IntoView + use<> {
    let row = |figure: &crate::figures::Figure| {
        view! { <p><span>{figure.name}</span><b>{(figure.value)(plan, units).text}</b></p> }
    };
    FIGURES.iter().map(row).collect_view()
}

fn start_words(plan: &Plan) -> String {
    match plan.events.first().map(|event| &event.action) {
        Some(Action::Start(set)) => format!(
            "Threaded at the start: {}. cw: clockwise, ccw: counter-clockwise, each numbered from 1.",
            words::carriers(set)
        ),
        _ => String::new(),
    }
}

/// All that is done at one place: one box to tick.
fn stop(events: &[Event], units: Units) -> Option<impl IntoView + use<>> {
    let (first, last) = (events.first()?, events.last()?);
    let deeds: Vec<String> = events.iter().map(card_deed).collect();
    let state = format!("{} threads, {}", last.threads, show::angle(last.angle));
    Some(view! {
        <li>
            <span class="box"></span>
            <span class="at">{units.show_position(first.at)}</span>
            <span class="deed">{deeds.join(", ")}</span>
            <span class="state">{state}</span>
        </li>
    })
}

/// On paper directions are abbreviated, and the gear that comes off goes without saying.
fn card_deed(event: &Event) -> String {
    match event.action {
        Action::Add(carrier) => format!("Add {}", words::short(carrier)),
        Action::Drop(carrier) => format!("Drop {}", words::short(carrier)),
        Action::Gear { to, .. } => format!("gear {to}"),
        Action::Start(_) => format!("Start, gear {}", event.gear),
        Action::End(_) => words::deed(event),
    }
}

fn bobbin(bobbin: &Bobbin) -> impl IntoView + use<> {
    view! {
        <li>
            <span>{words::short(bobbin.carrier)}</span>
            <b>{format!("{:.1}\u{202f}m, {}", bobbin.length.metres(), show::grams(bobbin.mass))}</b>
        </li>
    }
}
