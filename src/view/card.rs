//! The card: one page to pin above the machine. It shows the settled design, is always there for the printer, and on
//! screen only when asked for.

use leptos::prelude::*;

use super::bench::bench;
use super::chart::PrintedChart;
use super::overlay::{Overlay, Sheet};
use super::words;
use crate::bobbins::Bobbin;
use crate::choice::Choice;
use crate::design::Design;
use crate::figures::{
    FIGURES, ON_CARD, prediction_detail, range_detail, verdict_detail, verdict_title,
};
use crate::plan::{Action, Event, Notice, Plan};
use crate::takeoff::Train;
use crate::units::show::{self, Units};

/// With more stops than this the card is set closer, so that it keeps to one page up to some 40 of them.
const MOST_ROOMY_STOPS: usize = 19;
/// Room that a warning takes, in stops.
const STOPS_PER_WARNING: usize = 4;
/// From so many stops on, the card's schedule stands in two tables side by side.
const FEWEST_STOPS_FOR_TWO: usize = 8;

/// The card, with its buttons when on screen.
#[component]
pub(crate) fn Card() -> impl IntoView {
    let bench = bench();
    let page = move || {
        let units = bench.units.get();
        bench
            .settled
            .with(|design| bench.settled_plan.with(|plan| sheet(design, plan, units)))
    };
    view! {
        <Overlay sheet=Sheet::Card label="Card">
            <article class="card">
                {page}
            </article>
        </Overlay>
    }
}

fn sheet(design: &Design, plan: &Plan, units: Units) -> impl IntoView + use<> {
    let notes = design.draft().notes.clone();
    let allowance = format!(
        "To ply: {}. {} for leading in and waste are counted in each time a thread comes in; so are tails and lead-in.",
        plan.plying
            .iter()
            .map(|kind| words::ply(kind, units))
            .collect::<Vec<_>>()
            .join("; "),
        units.show_yarn(design.thread_allowance(), 1)
    );
    let lead_in = words::lead_in(design.lead_in(), units);
    let tails = words::tails(design.buried_tail(), units);
    let pair = words::pair(design.draft().train);
    let stops: Vec<&[Event]> = plan.stops().collect();
    let warnings = plan
        .notices
        .iter()
        .filter(|notice| words::is_grave(notice))
        .count();
    let is_dense = stops.len() + STOPS_PER_WARNING * warnings > MOST_ROOMY_STOPS;
    let in_one = if stops.len() < FEWEST_STOPS_FOR_TWO {
        stops.len()
    } else {
        stops.len().div_ceil(2)
    };
    let tables = stops
        .chunks(in_one.max(1))
        .map(|stops| table(stops, units))
        .collect_view();
    view! {
        <div class="sheet" class:dense=is_dense>
            <header>
                <h1>{design.title().to_owned()}</h1>
                <p class="class">{verdict_title(&plan.verdict)}</p>
                <p class="detail">{verdict_detail(plan, units)}</p>
                <p class="made-of">{made_of(design)}</p>
                <p class="detail">{prediction_detail(plan)}". "{range_detail(plan)}</p>
                {plan.notices.iter().filter(|notice| words::is_grave(notice)).map(|notice| warning(notice, units)).collect_view()}
            </header>
            <PrintedChart />
            <section class="card-figures">{figures(plan, units)}</section>
            <section class="card-schedule">
                <h2>"At the machine"</h2>
                <p>{start_words(plan)}</p>
                <div class="tables">{tables}</div>
                <p class="rules">{lead_in}" "{words::MEASURING}" "{tails}" "{pair}" "{words::NUMBERING}</p>
            </section>
            <section class="card-bobbins" class:kinds={plan.plying.len() > 1}>
                <h2>"Bobbins"</h2>
                <p>{allowance}</p>
                <ol>{plan.bobbins.iter().map(|wound| bobbin(wound, plan.plying.len() > 1, units)).collect_view()}</ol>
            </section>
            <footer>
                <p>{notes}</p>
                <p>
                    "Machine at rest before you reach in. Oily rags catch fire by themselves: spread flat outdoors or drown in a
                    closed metal can; hang the oiled line open. Solvents: ventilate, no flame. Product safety data sheets, local
                    codes and licensed practice come first."
                </p>
            </footer>
        </div>
    }
}

fn warning(notice: &Notice, units: Units) -> impl IntoView + use<> {
    view! { <p class="warning">{words::notice(notice, units)}</p> }
}

/// Yarn and machine in one line.
fn made_of(design: &Design) -> String {
    use crate::design::settings::Setting;
    let label = |setting| show::trimmed(design.setting(setting), 2);
    let track = design.track();
    format!(
        "{}, ends of {}/{} denier; {} carriers on {} horn gears of {} slots; {}° aimed at, tolerance {}°; {}",
        design.draft().fibre.name(),
        label(Setting::LabelLow),
        label(Setting::LabelHigh),
        track.carriers(),
        track.horn_gears(),
        track.slots(),
        label(Setting::TargetAngle),
        label(Setting::AngleTolerance),
        train(
            design,
            &label(Setting::PartnerTeeth),
            &label(Setting::PairSum)
        ),
    )
}

fn train(design: &Design, partner: &str, sum: &str) -> String {
    let name = design.draft().train.name();
    match design.draft().train {
        Train::Driver | Train::Driven => format!("{name}, of {partner} teeth"),
        Train::FixedCentres => format!("{name}, {sum} teeth together"),
        Train::FreePair => name.to_owned(),
    }
}

fn figures(plan: &Plan, units: Units) -> impl IntoView + use<> {
    let row = |figure: &crate::figures::Figure| {
        view! { <p><span>{figure.name}</span><b>{(figure.value)(plan, units).text}</b></p> }
    };
    let on_card = FIGURES
        .iter()
        .filter(|figure| ON_CARD.contains(&figure.key));
    on_card.map(row).collect_view()
}

fn start_words(plan: &Plan) -> String {
    match plan.events.first().map(|event| &event.action) {
        Some(Action::Start(set)) => format!(
            "Threaded at the start: {}. cw is clockwise, ccw counter\u{2011}clockwise. The last column counts crossings along one rib.",
            words::set(set)
        ),
        _ => String::new(),
    }
}

/// Stops in one table with its heads.
fn table(stops: &[&[Event]], units: Units) -> impl IntoView + use<> {
    let rows = stops
        .iter()
        .filter_map(|events| stop(events, units))
        .collect_view();
    let per = units.show_crossings_unit();
    view! {
        <table>
            <thead>
                <tr>
                    <th></th>
                    <th>"at"</th>
                    <th class="deed">"do"</th>
                    <th>"gear"</th>
                    <th>"threads"</th>
                    <th>"angle"</th>
                    <th>{per}</th>
                </tr>
            </thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// All that is done at one place: one box to tick.
fn stop(events: &[Event], units: Units) -> Option<impl IntoView + use<>> {
    let (first, last) = (events.first()?, events.last()?);
    let mut deeds: Vec<String> = events.iter().filter_map(card_deed).collect();
    if deeds.is_empty() {
        deeds.push("gear only".to_owned());
    }
    let is_geared = |event: &Event| matches!(event.action, Action::Start(_) | Action::Gear { .. });
    let gear = events
        .iter()
        .any(is_geared)
        .then(|| last.wheels.to_string());
    Some(view! {
        <tr>
            <td><span class="box"></span></td>
            <td class="at">{units.show_position(first.at)}</td>
            <td class="deed">{deeds.join(", ")}</td>
            <td class="gear">{gear}</td>
            <td>{last.threads()}</td>
            <td>{show::angle(last.angle)}</td>
            <td>{units.show_crossings_number(last.crossings)}</td>
        </tr>
    })
}

/// On paper directions are abbreviated; gears have a column of their own.
fn card_deed(event: &Event) -> Option<String> {
    match event.action {
        Action::Add { carrier, .. } => Some(format!("Add {}", words::short(carrier))),
        Action::Drop { carrier, .. } => Some(format!("Drop {}", words::short(carrier))),
        Action::Swap { carrier, to, .. } => {
            Some(format!("Swap {}, {to} ends", words::short(carrier)))
        }
        Action::Gear { .. } => None,
        Action::Start(_) => Some("Start".to_owned()),
        Action::End(_) => Some("End".to_owned()),
    }
}

/// One bobbin; its ends only where there are several kinds of thread.
fn bobbin(bobbin: &Bobbin, has_kinds: bool, units: Units) -> impl IntoView + use<> {
    let ends = if has_kinds {
        format!(", {} ends", bobbin.ends)
    } else {
        String::new()
    };
    view! {
        <li>
            <span>{words::short(bobbin.carrier)}{ends}</span>
            <b>{format!("{}, {}", units.show_yarn(bobbin.length, 1), show::grams(bobbin.mass))}</b>
        </li>
    }
}
