//! Whole plans against an independent calculation by a general library: the same formulas written afresh over `NumPy`
//! (`tests/against/plan.py`), which shares no line of code with the core.

use taperwright::base::choice::Choice;
use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::design::Design;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::edit::Edit;
use taperwright::edit::starts::Start;
use taperwright::plan::Plan;

use crate::designs::usual;

#[path = "../against/mod.rs"]
mod against;
use against::compare::{self, Difference};

/// Figures that are counted or chosen: equal, or wrong.
const EXACT: [&str; 4] = [
    "threads on every interval",
    "heavier threads on every interval",
    "ratio of the wheels",
    "class",
];
/// All others, as a share: a tenth of a millimetre in a hundred metres. Both calculate the same formulas in doubles; integrals of
/// the late angle, by four places here and six there, are what could differ most.
const CLOSE: f64 = 1e-6;

fn is_near(difference: &Difference) -> bool {
    let tolerance = if EXACT.contains(&difference.figure) {
        1e-12
    } else {
        CLOSE
    };
    difference.relative <= tolerance
}

fn differences(design: &Design, theirs: &Design) -> Vec<Difference> {
    let calculated = against::numpy(theirs).expect("Python with NumPy");
    compare::with_script(design, &Plan::of(design), &calculated)
}

fn hold(name: &str, design: &Design) {
    let differences = differences(design, design);
    assert_eq!(differences.len(), 18);
    let off: Vec<_> = differences
        .into_iter()
        .filter(|difference| !is_near(difference))
        .collect();
    assert!(off.is_empty(), "{name}: {off:#?}");
}

fn edited(design: &Design, edits: &[Edit]) -> Design {
    let mut edits = edits.iter().cloned();
    let edited = edits.try_fold(design.clone(), |design, edit| edit.apply(&design));
    edited.expect("a line can be changed so")
}

#[test]
fn the_ready_lines_agree_with_numpy() {
    hold("the example", &demo());
    hold("the tests' own", &usual());
    for start in Start::ALL {
        hold(start.key(), &start.design());
    }
}

/// Other ways to make a line thicker, every train, stops of several changes, a braid that follows late, tails cut flush, and
/// too few threads for the belly.
#[test]
fn lines_of_other_machines_agree_with_numpy() {
    let changes = [
        vec![Edit::Build(Build::HeavierThreads)],
        vec![
            Edit::Set(Setting::MostThreads, 12.0),
            Edit::Set(Setting::HeavierEnds, 18.0),
            Edit::Build(Build::Both),
        ],
        vec![Edit::Train(Train::Driven)],
        vec![Edit::Train(Train::FreePair)],
        vec![Edit::Set(Setting::LeastSpacing, 700.0)],
        vec![Edit::Set(Setting::GuideRadius, 120.0)],
        vec![
            Edit::Set(Setting::BuriedTail, 0.0),
            Edit::Set(Setting::TargetAngle, 35.0),
        ],
        vec![Edit::Set(Setting::MostThreads, 11.0)],
        vec![Edit::Set(Setting::GearChangePrice, 2.0)],
    ];
    for change in changes {
        hold(&format!("{change:?}"), &edited(&demo(), &change));
    }
}

/// Yarn heavier by a hundredth is seen: the comparison can fail.
#[test]
fn a_difference_of_a_hundredth_is_seen() {
    let heavier = edited(&demo(), &[Edit::Set(Setting::YarnFactor, 101.0)]);
    let off: Vec<_> = differences(&demo(), &heavier)
        .into_iter()
        .filter(|difference| !is_near(difference))
        .collect();
    let seen = |figure: &str| off.iter().any(|difference| difference.figure == figure);
    assert!(
        seen("mass of the first 30 ft") && seen("places of the stops") && seen("bare diameter"),
        "{off:#?}"
    );
}
