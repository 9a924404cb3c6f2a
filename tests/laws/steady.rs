//! What a plan must not do however the line is drawn: jump to another swelling, hide an angle, run the machine backwards.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::braid::takeoff::Train;
use taperwright::design::demo::demo;
use taperwright::design::pin::DraftPin;
use taperwright::design::settings::Setting;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::Edit;
use taperwright::plan::Plan;

use crate::designs::{parsed, point};
use crate::lines::{any_design, cases};

/// The demo's yarn and machine with another drawing and other gears.
fn drawn(points: &[(f64, f64)], gears: &[f64]) -> Design {
    let mut draft = demo().draft().clone();
    draft.points = points
        .iter()
        .map(|&(at, size)| point(at, size))
        .collect::<Vec<DraftPoint>>();
    draft.gears = gears.to_vec();
    parsed(draft)
}

/// A small swelling before a large one, its peak anywhere around where a thread more would be called for: a change belongs
/// to its own swelling, so the line weighs what it is drawn, to what whole threads leave open.
#[test]
fn a_change_stays_with_its_own_swelling() {
    for gears in [
        (16..=34).map(f64::from).collect(),
        vec![16.0, 20.0, 24.0, 28.0, 32.0],
    ] {
        for step in 0..=280 {
            let peak = 0.9 + 0.0005 * f64::from(step);
            let swelling = [(0.0, 0.825), (3.0, peak), (4.0, peak), (6.0, 0.825)];
            let belly = [(12.0, 0.825), (15.0, 1.085), (20.0, 1.085), (25.0, 0.825)];
            let plan = Plan::of(&drawn(&[&swelling[..], &belly[..]].concat(), &gears));
            let (planned, asked) = (plan.head_mass, plan.head_drawn);
            let off = planned
                .zip(asked)
                .map(|(planned, asked)| planned / asked - 1.0);
            assert!(
                off.is_some_and(|off| off.abs() < 0.05),
                "peak {peak}: {off:?}"
            );
            // Those of the swelling lie on it, those of the belly around the belly.
            for stop in &plan.layout.stops {
                let on_swelling = stop.at < Length::from_metres(6.5);
                let asked = stop.steps[0].change.at < Length::from_metres(6.5);
                assert_eq!(on_swelling, asked, "peak {peak}: {stop:?}");
            }
        }
    }
}

/// What is said to be outside the tolerance is what a walk along the line finds, in steps of a millimetre.
#[test]
fn an_angle_outside_the_tolerance_is_told_wherever_it_is() {
    let steep = [(0.0, 0.825), (5.0, 0.825), (5.02, 1.085), (20.0, 1.085)];
    let gentle = [(0.0, 0.825), (5.0, 0.825), (8.0, 1.085), (20.0, 1.085)];
    for (points, gears) in [
        (&steep[..], vec![16.0, 34.0]),
        (&steep[..], vec![20.0, 28.0]),
        (&gentle[..], vec![18.0, 30.0]),
        (&gentle[..], (16..=34).map(f64::from).collect()),
    ] {
        let design = drawn(points, &gears);
        let (plan, target) = (Plan::of(&design), design.target_angle());
        let tolerance = design.angle_tolerance();
        let said: Length = plan
            .line
            .stretches()
            .iter()
            .flat_map(|stretch| stretch.outside(target, tolerance))
            .map(|(from, to)| to - from)
            .sum();
        let walked = (0..20_000).filter(|&step| {
            let at = Length::from_millimetres(f64::from(step) + 0.5);
            (plan.station(at).braid.angle - target).abs() > tolerance
        });
        let walked = Length::from_millimetres(walked.count() as f64);
        let ends = 1e-3 * 2.0 * plan.line.stretches().len() as f64;
        assert!(
            (said - walked).abs().metres() <= ends,
            "{gears:?}: {said:?} said, {walked:?} walked"
        );
    }
}

/// The take-off draws, it never pushes: also where two gears far apart change the lay by a multiple.
#[test]
fn two_gears_far_apart_never_run_the_machine_backwards() {
    let far = Edit::Gears(vec![20.0, 60.0]).apply(&demo());
    let far = far.and_then(|design| Edit::Train(Train::FreePair).apply(&design));
    let far = far.and_then(|design| Edit::Set(Setting::FewestThreads, 3.0).apply(&design));
    let far = far.expect("two gears make pairs");
    // Nobody would: the belly drawn nine times as fast as the tapers.
    let fast = DraftPin::Wheels {
        threads: Plan::of(&far).threads_max(),
        heavy: 0,
        at_m: 10.0,
        driver: 60,
        driven: 20,
    };
    let pin = Edit::Pin {
        pin: fast,
        replaces: None,
    };
    let plan = Plan::of(&pin.apply(&far).expect("a pin of the belly"));
    assert!(plan.gear_changes() > 0);
    assert!(
        plan.events.iter().all(|event| event.circuits >= 0.0),
        "{:#?}",
        plan.events
    );
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn the_machine_never_runs_backwards(design in any_design()) {
        let plan = Plan::of(&design);
        for event in &plan.events {
            prop_assert!(event.circuits >= -1e-9, "{:?}", event);
        }
    }

    /// Nothing is done on the tip itself, or where the line already ends.
    #[test]
    fn no_change_lies_on_the_tip_or_the_end(design in any_design()) {
        let plan = Plan::of(&design);
        for stop in plan.layout.stops.iter().filter(|stop| !stop.is_pinned()) {
            prop_assert!(Length::ZERO < stop.at && stop.at < plan.length, "{:?} of {:?}", stop, plan.length);
        }
    }
}
