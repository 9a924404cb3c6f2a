//! Random valid drafts: every setting over its whole range with its ends, every fibre and pattern, gears, drawings.

use proptest::prelude::*;
use taperwright::choice::Choice as _;
use taperwright::design::refusal::LEAST_SPACING;
use taperwright::design::settings::{DIAMETER, POSITION, Rule, Setting, Settings, TEETH};
use taperwright::design::{Design, Draft, DraftPoint};
use taperwright::track::{MOST_CARRIERS, Pattern, Track};
use taperwright::yarn::{Condition, Fibre};

use crate::designs::{parsed, usual};

/// Few enough cases that the whole suite takes seconds; the same ones every time, so that a failure can be repeated.
pub(crate) fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(0x7A9E),
        ..ProptestConfig::default()
    }
}

/// A value on a rule's grid, both ends of the range often.
fn value(rule: Rule) -> impl Strategy<Value = f64> {
    let (low, high) = (rule.quanta(rule.low), rule.quanta(rule.high));
    prop_oneof![1 => Just(low), 1 => Just(high), 3 => low..=high]
        .prop_map(move |quanta| rule.value(quanta))
}

/// A pattern, a number of carriers it has a track for, and a number of threads to begin with.
fn machine() -> impl Strategy<Value = (Pattern, u32, u32)> {
    let exists = |&(pattern, carriers): &(Pattern, u32)| Track::new(carriers, pattern).is_some();
    let tracks: Vec<_> = Pattern::ALL
        .iter()
        .flat_map(|&pattern| (0..=MOST_CARRIERS).map(move |carriers| (pattern, carriers)))
        .filter(exists)
        .collect();
    proptest::sample::select(tracks)
        .prop_flat_map(|(pattern, carriers)| (Just(pattern), Just(carriers), 3..=carriers))
}

/// Every setting somewhere in its range, those of machine, label and packing so that they fit each other.
fn settings(carriers: u32, fewest: u32) -> impl Strategy<Value = Settings> {
    Setting::ALL
        .map(|setting| value(setting.rule()))
        .prop_map(move |values| {
            let mut settings = Settings::default();
            for (setting, value) in Setting::ALL.into_iter().zip(values) {
                settings.set(setting, value);
            }
            let label = [Setting::LabelLow, Setting::LabelHigh].map(|end| settings.get(end));
            settings.set(Setting::LabelLow, label[0].min(label[1]));
            settings.set(Setting::LabelHigh, label[0].max(label[1]));
            let fibre =
                [Setting::FibreFraction, Setting::ThreadPacking].map(|share| settings.get(share));
            settings.set(Setting::FibreFraction, fibre[0].min(fibre[1]));
            settings.set(Setting::Carriers, f64::from(carriers));
            settings.set(Setting::FewestThreads, f64::from(fewest));
            settings
        })
}

/// A drawing of 2 to 60 points; steps from the least allowed to a sixtieth of the longest line.
pub(crate) fn points(
    diameter: impl Strategy<Value = f64>,
) -> impl Strategy<Value = Vec<DraftPoint>> {
    let least = POSITION.quanta(LEAST_SPACING);
    let step = prop_oneof![1 => Just(least), 4 => least..=POSITION.quanta(POSITION.high / 60.0)];
    proptest::collection::vec((step, diameter), 2..=60).prop_map(|steps| {
        let mut at = 0;
        let point = |(index, (step, diameter_mm)): (usize, (u32, f64))| {
            at += if index == 0 { 0 } else { step };
            DraftPoint {
                at_m: POSITION.value(at),
                diameter_mm,
            }
        };
        steps.into_iter().enumerate().map(point).collect()
    })
}

/// Diameters the usual workshop can braid in 8 to 16 threads, 25 µm apart so that neighbours are often equal.
pub(crate) fn usual_diameter() -> impl Strategy<Value = f64> {
    (30_u32..=43).prop_map(|step| f64::from(step) * 0.025)
}

fn texts() -> impl Strategy<Value = (String, String)> {
    ("[a-zA-Zäß✓ -]{0,20}", "[a-z0-9 ,;\n]{0,60}")
}

/// Any valid draft.
pub(crate) fn draft() -> impl Strategy<Value = Draft> {
    let gears = proptest::collection::vec(value(TEETH), 1..=20);
    let words = (
        proptest::sample::select(Fibre::ALL),
        proptest::sample::select(Condition::ALL),
        texts(),
    );
    (machine(), words, gears, points(value(DIAMETER))).prop_flat_map(
        |(machine, words, gears, points)| {
            let (pattern, carriers, fewest) = machine;
            let (fibre, condition, (name, notes)) = words;
            settings(carriers, fewest).prop_map(move |settings| Draft {
                name: name.clone(),
                notes: notes.clone(),
                fibre,
                condition,
                pattern,
                gears: gears.clone(),
                settings,
                points: points.clone(),
            })
        },
    )
}

/// Any valid design.
pub(crate) fn any_design() -> impl Strategy<Value = Design> {
    draft().prop_map(parsed)
}

/// A design of the usual workshop with a random drawing, such as a maker might braid.
pub(crate) fn usual_design() -> impl Strategy<Value = Design> {
    points(usual_diameter()).prop_map(|points| {
        let mut draft = usual().draft().clone();
        draft.points = points;
        parsed(draft)
    })
}
