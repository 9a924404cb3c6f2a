//! Every figure of every ready line, of the example, and of the example built other ways, to the last bit. Whoever means to
//! change a figure sees here which ones move, and by how much; one that is not meant to sees that none did.
//!
//! After a change that is meant: `INSTA_UPDATE=always cargo test --test snapshot`, and the difference goes into the commit.

#![cfg(not(target_arch = "wasm32"))]

use std::fmt::Write as _;

use taperwright::base::choice::Choice as _;
use taperwright::base::units::show::Units;
use taperwright::braid::threads::Build;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft};
use taperwright::edit::starts::Start;
use taperwright::paper::figures::FIGURES;
use taperwright::paper::words;
use taperwright::plan::Plan;

/// The example with some of its decisions changed.
fn example(change: impl FnOnce(&mut Draft)) -> Design {
    let mut draft = demo().draft().clone();
    change(&mut draft);
    Design::parse(draft).expect("the changed example is valid")
}

/// Rust writes a floating-point number with as many digits as tell it from every other.
fn written(design: &Design) -> String {
    let plan = Plan::of(design);
    let mut out = String::new();
    figures(&mut out, &plan);
    schedule(&mut out, &plan);
    parts(&mut out, &plan);
    bobbins(&mut out, &plan);
    coats(&mut out, &plan);
    for notice in &plan.notices {
        writeln!(out, "notice: {}", words::heading(notice)).unwrap();
    }
    out
}

fn figures(out: &mut String, plan: &Plan) {
    for figure in FIGURES {
        let [metric, imperial] =
            [Units::Metric, Units::Imperial].map(|units| (figure.value)(plan, units));
        let key = figure.key;
        writeln!(
            out,
            "{key}: {:?}, {}, {}",
            metric.si, metric.text, imperial.text
        )
        .unwrap();
    }
    let grams = |mass: taperwright::base::units::Mass| mass.grams();
    let range = plan.head_range.as_ref();
    writeln!(
        out,
        "label range: {:?}",
        range.map(|range| (grams(range.low), grams(range.high)))
    )
    .unwrap();
    if let Some(prediction) = &plan.prediction {
        writeln!(
            out,
            "prediction: {:?} ± {:?} g",
            grams(prediction.mass),
            grams(prediction.spread)
        )
        .unwrap();
        writeln!(out, "chances: {:?}", prediction.chances).unwrap();
    }
}

fn schedule(out: &mut String, plan: &Plan) {
    for event in &plan.events {
        let (key, carriers) = (
            words::event_key(&event.action),
            words::carrier_keys(&event.action),
        );
        write!(
            out,
            "{:?} m {key} {}",
            event.at.metres(),
            carriers.unwrap_or_default()
        )
        .unwrap();
        write!(
            out,
            ", {} threads, {} heavier",
            event.level.threads, event.level.heavy
        )
        .unwrap();
        write!(out, ", {} ends, {:?} circuits", event.ends, event.circuits).unwrap();
        writeln!(
            out,
            ", {}/{}, {:?}°",
            event.wheels.driver,
            event.wheels.driven,
            event.angle.degrees()
        )
        .unwrap();
    }
}

fn parts(out: &mut String, plan: &Plan) {
    for weight in &plan.sections {
        let name = weight.section.part.name();
        let (mass, drawn) = (weight.mass.grams(), weight.drawn.grams());
        writeln!(out, "{name}: {mass:?} g, drawn {drawn:?} g").unwrap();
    }
}

fn bobbins(out: &mut String, plan: &Plan) {
    for bobbin in &plan.bobbins {
        let carrier = words::short(bobbin.carrier);
        let (length, mass) = (bobbin.length.metres(), bobbin.mass.grams());
        writeln!(
            out,
            "bobbin {carrier}: {} ends, {length:?} m, {mass:?} g",
            bobbin.ends
        )
        .unwrap();
    }
    for kind in &plan.plying {
        writeln!(
            out,
            "ply {} ends: {:?} m of yarn",
            kind.ends,
            kind.yarn.metres()
        )
        .unwrap();
    }
}

fn coats(out: &mut String, plan: &Plan) {
    for step in &plan.dressing {
        let (mass, diameter) = (step.ledger.after.grams(), step.diameter.millimetres());
        writeln!(
            out,
            "after {}: {mass:?} g, {diameter:?} mm, {:?} filled",
            step.step.kind.key(),
            step.filled
        )
        .unwrap();
    }
}

#[test]
fn every_ready_line_keeps_its_figures() {
    for &start in Start::ALL {
        insta::assert_snapshot!(start.key(), written(&start.design()));
    }
}

#[test]
fn the_example_keeps_its_figures_however_it_is_built() {
    let heavier = example(|draft| draft.build = Build::HeavierThreads);
    let both = example(|draft| draft.build = Build::Both);
    let few_gears = example(|draft| draft.gears = vec![20.0, 24.0, 28.0, 32.0]);
    let fewer_ends = example(|draft| draft.settings.set(Setting::EndsPerThread, 11.0));
    insta::assert_snapshot!("example", written(&demo()));
    insta::assert_snapshot!("example-heavier", written(&heavier));
    insta::assert_snapshot!("example-both", written(&both));
    insta::assert_snapshot!("example-few-gears", written(&few_gears));
    insta::assert_snapshot!("example-fewer-ends", written(&fewer_ends));
}
