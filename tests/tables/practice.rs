//! What the trade is known to do. Common practice, no source.

use taperwright::base::units::Mass;
use taperwright::braid::weight::HEAD_LENGTH;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::plan::Plan;

use crate::FOOT;
use crate::designs::{design, parsed, usual};
use taperwright::design::demo::demo;

/// A double taper of 84 ft in 16 threads of 12 ends of 20/22 denier silk at 45°, tips of 8 threads, default dressing;
/// both diameters are those at which the workshop's own staircase has whole threads.
fn double_taper(front_feet: f64) -> Design {
    let sizes = Plan::of(&usual()).staircase;
    let (tip, belly) = (
        sizes.diameter(8.0).millimetres(),
        sizes.diameter(16.0).millimetres(),
    );
    let (front, whole) = (front_feet * FOOT, 84.0 * FOOT);
    let design = design(
        &[],
        &[
            (0.0, tip),
            (front, belly),
            (whole - front, belly),
            (whole, tip),
        ],
    );
    let practice = [
        (Setting::LabelLow, 20.0),
        (Setting::LabelHigh, 22.0),
        (Setting::EndsPerThread, 12.0),
        (Setting::HornGears, 8.0),
        (Setting::TargetAngle, 45.0),
    ];
    assert!(
        practice
            .iter()
            .all(|&(setting, value)| design.setting(setting) == value)
    );
    design
}

/// The same with a take-off of fine steps: a tooth of the many owned is half to nine tenths of a percent of lay.
fn finely_geared(coarse: &Design) -> Design {
    let mut draft = coarse.draft().clone();
    draft.gears = (114..144)
        .chain((144..=200).step_by(2))
        .map(f64::from)
        .collect();
    draft.settings.set(Setting::PartnerTeeth, 200.0);
    draft.settings.set(Setting::MachineConstant, 2.35);
    parsed(draft)
}

/// Degrees by which the angle is off where the line settles, tails left out: a buried one makes the braid thicker
/// than its gear is meant for, which no gear can mend and which passes with its 50 mm.
fn farthest_at_rest(plan: &Plan, target: f64) -> f64 {
    let stretches = plan.line.stretches().iter();
    let without_tails = stretches.filter(|stretch| stretch.piece.load.buried == 0.0);
    let off = without_tails.map(|stretch| (stretch.steady.angle.degrees() - target).abs());
    off.fold(0.0, f64::max)
}

#[track_caller]
fn is_class_five(mass: Option<Mass>, what: &str) {
    let grains = mass.expect("84 ft hold a head").grains();
    assert!((134.0..=146.0).contains(&grains), "{what}: {grains} gr");
}

#[test]
fn a_class_five_double_taper_has_sixteen_threads_of_twelve_ends() {
    for front in [6.0, 7.0, 8.0, 9.0, 10.0] {
        let coarse = double_taper(front);
        let plan = Plan::of(&coarse);
        assert_eq!((plan.threads_min(), plan.threads_max()), (8, 16));
        assert!((plan.head.to - plan.head.from) == HEAD_LENGTH);
        is_class_five(plan.head_drawn, &format!("{front} ft as drawn"));
        is_class_five(plan.head_mass, &format!("{front} ft with the usual gears"));
        let fine = Plan::of(&finely_geared(&coarse));
        let off = farthest_at_rest(&fine, 45.0);
        assert!(off < 0.3, "the fine gears are {off}° off");
        is_class_five(fine.head_mass, &format!("{front} ft with fine gears"));
    }
}

/// Cutting where half a thread more is called for keeps the mass of the drawing; with fine gears whole threads weigh
/// what was drawn to within half a percent. Analytic in the limit, so only roughly here.
#[test]
fn whole_threads_weigh_what_was_drawn() {
    for front in [6.0, 8.0, 10.0] {
        let plan = Plan::of(&finely_geared(&double_taper(front)));
        let (mass, drawn) = (
            plan.head_mass.unwrap_or_default(),
            plan.head_drawn.unwrap_or_default(),
        );
        assert!(
            (mass / drawn - 1.0).abs() < 5e-3,
            "{} against {} gr",
            mass.grains(),
            drawn.grains()
        );
    }
}

/// The demo is a class 5 line on a machine that holds its angle, and gives a maker nothing to worry about.
#[test]
fn the_demo_is_a_class_five_line() {
    let plan = Plan::of(&demo());
    is_class_five(plan.head_mass, "demo");
    assert_eq!(plan.verdict.number(), Some(5));
    assert_eq!(plan.notices, []);
}
