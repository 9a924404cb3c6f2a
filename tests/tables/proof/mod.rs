//! Whole plans against the stepped braider: what the maker reads from a plan is what comes off the machine.

mod compare;
mod interlace;
mod job;

use taperwright::braid::takeoff::Train;
use taperwright::braid::threads::Build;
use taperwright::braid::track::Pattern;
use taperwright::design::demo::demo;
use taperwright::design::machine::Mounted;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, Draft};
use taperwright::plan::{Action, Plan};

use crate::designs::{draft, parsed, usual};
use crate::row::agree;
use compare::Braided;

/// A weight forward line with a long running line after its belly, invented.
const WEIGHT_FORWARD: [(f64, f64); 6] = [
    (0.0, 0.80),
    (0.3, 0.80),
    (2.5, 1.08),
    (9.0, 1.08),
    (10.5, 0.76),
    (27.0, 0.76),
];
/// A line that swells twice before its belly, invented.
const TWO_SWELLINGS: [(f64, f64); 9] = [
    (0.0, 0.76),
    (1.5, 0.98),
    (3.0, 0.98),
    (4.5, 0.84),
    (6.0, 1.07),
    (11.0, 1.07),
    (12.0, 0.95),
    (14.0, 0.80),
    (15.0, 0.80),
];
/// A short double taper, invented.
const DOUBLE_TAPER: [(f64, f64); 6] = [
    (0.0, 0.78),
    (0.2, 0.78),
    (2.0, 1.07),
    (10.0, 1.07),
    (12.0, 0.78),
    (12.3, 0.78),
];

fn swaps(plan: &Plan) -> usize {
    let is_swap = |action: &Action| matches!(action, Action::Swap { .. });
    let actions = plan.events.iter().map(|event| &event.action);
    actions.filter(|action| is_swap(action)).count()
}

fn changed(mut draft: Draft, change: impl FnOnce(&mut Draft)) -> Design {
    change(&mut draft);
    parsed(draft)
}

#[track_caller]
fn braids_as_planned(design: Design) -> Plan {
    let braided = Braided::of(design);
    braided.agrees();
    braided.plan
}

#[test]
fn the_demo() {
    let plan = braids_as_planned(demo());
    assert!(plan.head_mass.is_some());
}

#[test]
fn the_usual_double_taper() {
    braids_as_planned(usual());
}

#[test]
fn a_level_line() {
    let plan = braids_as_planned(parsed(draft(&[], &[(0.0, 1.0), (12.0, 1.0)])));
    assert_eq!(plan.line.stretches().len(), 1);
}

#[test]
fn a_weight_forward_line_with_a_long_running_line() {
    let plan = braids_as_planned(parsed(draft(&[], &WEIGHT_FORWARD)));
    assert!(plan.head_mass.is_some());
}

#[test]
fn a_compound_line_with_two_swellings() {
    braids_as_planned(parsed(draft(&[], &TWO_SWELLINGS)));
}

#[test]
fn heavier_threads_only() {
    let settings = [
        (Setting::FewestThreads, 12.0),
        (Setting::EndsPerThread, 10.0),
        (Setting::HeavierEnds, 18.0),
    ];
    let design = changed(draft(&settings, &DOUBLE_TAPER), |draft| {
        draft.build = Build::HeavierThreads;
    });
    let plan = braids_as_planned(design);
    assert_eq!(swaps(&plan), plan.thread_changes());
    assert!(plan.thread_changes() > 10);
}

#[test]
fn more_threads_then_heavier_ones() {
    let settings = [(Setting::MostThreads, 12.0), (Setting::HeavierEnds, 18.0)];
    let design = changed(draft(&settings, &DOUBLE_TAPER), |draft| {
        draft.build = Build::Both;
    });
    let plan = braids_as_planned(design);
    let swaps = swaps(&plan);
    assert!(swaps > 4 && swaps < plan.thread_changes());
}

#[test]
fn sixteen_carriers_on_every_second_place_of_a_ring() {
    let design = changed(
        draft(&[(Setting::HornGears, 16.0)], &DOUBLE_TAPER),
        |draft| {
            draft.mounted = Mounted::every(2, 16);
        },
    );
    braids_as_planned(design);
}

#[test]
fn a_ring_with_carriers_on_uneven_places() {
    let design = changed(
        draft(&[(Setting::HornGears, 12.0)], &DOUBLE_TAPER),
        |draft| {
            draft.mounted = Mounted {
                clockwise: vec![0, 1, 3, 4, 6, 7, 9, 10],
                counter_clockwise: vec![0, 2, 3, 5, 6, 8, 9, 11],
            };
        },
    );
    braids_as_planned(design);
}

#[test]
fn a_diamond_track() {
    let design = changed(
        draft(&[(Setting::HornGears, 16.0)], &DOUBLE_TAPER),
        |draft| {
            draft.pattern = Pattern::Diamond;
        },
    );
    braids_as_planned(design);
}

/// Six horn gears: carriers meet each other once over and once under.
#[test]
fn a_ring_of_six_horn_gears() {
    let settings = [
        (Setting::HornGears, 6.0),
        (Setting::MostThreads, 12.0),
        (Setting::EndsPerThread, 16.0),
    ];
    braids_as_planned(parsed(draft(&settings, &DOUBLE_TAPER)));
}

#[test]
fn few_gears_and_an_angle_far_off() {
    let design = changed(
        draft(&[(Setting::GearChangePrice, 0.0)], &DOUBLE_TAPER),
        |draft| {
            draft.gears = vec![17.0, 20.0, 24.0];
        },
    );
    let plan = braids_as_planned(design);
    assert!(
        plan.worst_angle.off.degrees() > 3.0,
        "{:?}",
        plan.worst_angle
    );
    assert!(plan.gear_changes() >= 2);
}

#[test]
fn a_train_of_free_pairs() {
    let design = changed(
        draft(&[(Setting::GearChangePrice, 0.02)], &DOUBLE_TAPER),
        |draft| {
            draft.train = Train::FreePair;
            draft.gears = vec![20.0, 23.0, 28.0, 33.0, 41.0];
        },
    );
    let plan = braids_as_planned(design);
    assert!(plan.gear_changes() >= 2);
}

#[test]
fn a_driven_gear_and_a_wide_guide() {
    let settings = [(Setting::GuideRadius, 60.0), (Setting::TargetAngle, 35.0)];
    let design = changed(draft(&settings, &DOUBLE_TAPER), |draft| {
        draft.train = Train::Driven;
        draft.gears = (30..=80).map(f64::from).collect();
    });
    braids_as_planned(design);
}

#[test]
fn tails_cut_flush() {
    braids_as_planned(parsed(draft(&[(Setting::BuriedTail, 0.0)], &TWO_SWELLINGS)));
}

#[test]
fn long_tails_that_overlap() {
    braids_as_planned(parsed(draft(
        &[(Setting::BuriedTail, 200.0)],
        &TWO_SWELLINGS,
    )));
}

#[test]
fn several_changes_at_one_stop() {
    let plan = braids_as_planned(parsed(draft(
        &[(Setting::LeastSpacing, 400.0)],
        &DOUBLE_TAPER,
    )));
    assert!(plan.layout.stops.iter().any(|stop| stop.steps.len() > 1));
}

/// The stepped braider again, with every end 1/21 finer and heavier than the middle of its label of 20 to 22 denier, the
/// machine told the same: what the head may weigh. Nothing is put on the line, so that bare mass is all there is.
#[test]
fn the_head_over_the_range_of_the_label() {
    let nothing = [
        (Setting::OilFill, 0.0),
        (Setting::VarnishFill, 0.0),
        (Setting::Film, 0.0),
        (Setting::Grease, 0.0),
    ];
    let design = parsed(draft(&nothing, &DOUBLE_TAPER));
    let plan = Plan::of(&design);
    let range = plan.head_range.expect("it is long enough");
    let braided = |denier: f64| {
        let mut job = job::job(&design, &plan);
        job.yarn.end *= denier / 21.0;
        job.run()
            .mass(plan.head.from.metres(), plan.head.to.metres())
    };
    let middle = braided(21.0);
    for (denier, told) in [(20.0, range.low), (22.0, range.high)] {
        let found = braided(denier);
        agree(told.kilograms(), found, 1e-5);
        // Heavier yarn also makes a thicker path and a steeper angle.
        let more = (found / middle - 1.0).abs();
        assert!(more > 1.0 / 21.0 && more < 2.0 / 21.0, "{more}");
    }
}
