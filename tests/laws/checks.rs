//! Checks of the braid at the machine: what is expected, and how a measured value is judged.

use taperwright::base::units::Length;
use taperwright::design::demo::demo;
use taperwright::design::settings::Setting;
use taperwright::photo::Estimate;
use taperwright::plan::Plan;
use taperwright::plan::run::{CheckKind, CheckLevel, MOST_CHECKS, Measured, NoCheck, Run};

use crate::designs::parsed;

fn by_hand(kind: CheckKind, value: f64) -> Measured {
    Measured::by_hand(kind, value)
}

/// The braid of the example against the standard relations of a biaxial braid, worked from its lay and its path alone: along a
/// rib one crossing every 2L/N, and tan α = πD/L. Source: the kinematics of a maypole braid, Du & Popper 1994, J. Text.
/// Inst. 85, as in the model of the braid; the numbers follow by hand from what the machine is set to.
#[test]
fn what_is_expected_follows_from_the_machine() {
    let design = demo();
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run::default();
    let expected = run
        .expected(&adjusted, &design, Length::ZERO)
        .expect("the lead-in");
    // The take-off draws 3.25 mm in a circuit at equal teeth, against a fixed gear of 40.
    let start = &adjusted.events[0];
    let threads = f64::from(start.level.threads);
    let teeth = f64::from(start.wheels.driver);
    let lay = design.setting(Setting::MachineConstant) * teeth / 40.0;
    let per_cm = threads / (2.0 * lay) * 10.0;
    assert!(
        (expected.crossings.planned - per_cm).abs() < 1e-6,
        "{} {per_cm}",
        expected.crossings.planned
    );
    let braid = plan.line.stretches()[0].steady;
    let angle = (core::f64::consts::PI * braid.path_diameter.millimetres() / lay)
        .atan()
        .to_degrees();
    assert!(
        (expected.angle.planned - angle).abs() < 1e-6,
        "{} {angle}",
        expected.angle.planned
    );
    assert!((expected.diameter.planned - braid.diameter.millimetres()).abs() < 1e-9);
    // A tolerance of 1.5° and a protractor of 1° make √3.25 = 1.803°.
    assert!(
        (expected.angle.fine - 1.803).abs() < 1e-3,
        "{}",
        expected.angle.fine
    );
}

/// 20 crossings where 21 were planned: a lay longer by a twentieth. 16 threads at a lay of 2 mm cross 16/(2 · 0.2 cm) = 40 times a
/// centimetre along a rib, analytic.
#[test]
fn crossings_show_the_lay() {
    let design = demo();
    let adjusted = Plan::of(&design).unadjusted();
    let run = Run::default().tick(&adjusted);
    let expected = run
        .expected(&adjusted, &design, Length::ZERO)
        .expect("braided");
    let planned = expected.crossings.planned;
    let judged = expected
        .judge(by_hand(CheckKind::Crossings, planned * 20.0 / 21.0))
        .expect("it can be");
    assert!(
        (judged.drawn.expect("a lay") - 1.05).abs() < 1e-9,
        "{judged:?}"
    );
    let at = taperwright::braid::geometry::crossings_per_metre(16, Length::from_millimetres(2.0));
    assert!((at / 100.0 - 40.0).abs() < 1e-9);
    // A larger angle is a shorter lay.
    let angle = expected.angle.planned;
    let steeper = expected
        .judge(by_hand(CheckKind::Angle, angle + 2.0))
        .expect("it can be");
    assert!(steeper.drawn.expect("a lay") < 1.0);
    let same = expected
        .judge(by_hand(CheckKind::Angle, angle))
        .expect("it can be");
    assert!((same.drawn.expect("a lay") - 1.0).abs() < 1e-9);
    assert_eq!(
        expected
            .judge(by_hand(CheckKind::Diameter, 0.8))
            .expect("it can be")
            .drawn,
        None
    );
}

/// Within the range fine, up to twice drifting, beyond it stop: on either side.
#[test]
fn values_are_judged_by_their_range() {
    let design = demo();
    let adjusted = Plan::of(&design).unadjusted();
    let run = Run::default().tick(&adjusted);
    let expected = run
        .expected(&adjusted, &design, Length::ZERO)
        .expect("braided");
    for kind in CheckKind::ALL {
        let range = expected.of(kind);
        assert!(range.low() > 0.0 && range.low() < range.planned && range.planned < range.high());
        for (shares, level) in [
            (0.0, CheckLevel::Fine),
            (0.99, CheckLevel::Fine),
            (1.01, CheckLevel::Drifting),
            (1.99, CheckLevel::Drifting),
            (2.01, CheckLevel::Stop),
        ] {
            for side in [-1.0, 1.0] {
                let value = range.planned + side * shares * range.fine;
                let judged = expected.judge(by_hand(kind, value)).expect("it can be");
                assert_eq!(judged.level, level, "{kind:?} {value}");
                let kept = run
                    .checked(&adjusted, &design, Length::ZERO, by_hand(kind, value))
                    .expect("there is room");
                assert_eq!(kept.checks[0].level(), level);
            }
        }
    }
}

/// A photo's own error joins the tolerance in the place of the instrument's, as the root of the sum of their squares: 1.5° with 0.5°
/// make √2.5 = 1.581°. The kept check has the range of its own error.
#[test]
fn a_value_of_a_photo_is_judged_by_its_own_error() {
    let design = demo();
    let adjusted = Plan::of(&design).unadjusted();
    let run = Run::default().tick(&adjusted);
    let expected = run
        .expected(&adjusted, &design, Length::ZERO)
        .expect("braided");
    let with = |kind, error| Measured {
        kind,
        value: expected.of(kind).planned,
        error,
    };
    let fine = |kind, error| expected.of_measured(with(kind, error)).fine;
    let half = fine(CheckKind::Angle, Some(0.5));
    assert!((half - 2.5_f64.sqrt()).abs() < 1e-9, "{half}");
    // An error of 1° is that of a protractor; one crossing in 5 cm is a count's.
    for (kind, usual) in [(CheckKind::Angle, 1.0), (CheckKind::Crossings, 0.2)] {
        assert!((fine(kind, Some(usual)) - expected.of(kind).fine).abs() < 1e-12);
        let apart = fine(kind, Some(3.0)).powi(2) - fine(kind, Some(2.0)).powi(2);
        assert!((apart - 5.0).abs() < 1e-9, "{kind:?} {apart}");
    }
    // What cannot be an error is none, and a micrometer has its own.
    for error in [None, Some(0.0), Some(-0.5), Some(90.0), Some(f64::NAN)] {
        assert_eq!(fine(CheckKind::Angle, error), expected.angle.fine);
    }
    let diameter = fine(CheckKind::Diameter, Some(0.001));
    assert_eq!(diameter, expected.diameter.fine);
    // 1.7° off is fine by a protractor, and drifts by a photo.
    let off = expected.angle.planned + 1.7;
    for (error, level) in [(None, CheckLevel::Fine), (Some(0.5), CheckLevel::Drifting)] {
        let measured = Measured {
            kind: CheckKind::Angle,
            value: off,
            error,
        };
        let judged = expected.judge(measured).expect("it can be");
        assert_eq!(judged.level, level);
        let kept = run
            .checked(&adjusted, &design, Length::ZERO, measured)
            .expect("there is room");
        assert_eq!(
            (kept.checks[0].level(), kept.checks[0].error),
            (level, error)
        );
        // A value typed at the same place takes its place, and its error goes with it.
        let typed = kept
            .checked(
                &adjusted,
                &design,
                Length::ZERO,
                by_hand(CheckKind::Angle, off),
            )
            .expect("there is room");
        assert_eq!((typed.checks.len(), typed.checks[0].error), (1, None));
    }
}

/// Half a turn is π, and a metre has 100 cm. What a photo gives is kept with few digits.
#[test]
fn a_photo_is_kept_in_the_units_of_a_check() {
    let radians = |degrees: f64| degrees.to_radians();
    let angle = Measured::angle_by_photo(Estimate {
        value: radians(46.238),
        error: radians(0.4567),
    });
    assert_eq!((angle.value, angle.error), (46.24, Some(0.46)));
    let crossings = Measured::crossings_by_photo(Estimate {
        value: 3_123.44,
        error: 31.55,
    });
    assert_eq!((crossings.value, crossings.error), (31.234, Some(0.32)));
    for error in [f64::NAN, 0.0, -1.0, f64::INFINITY, 2.0] {
        let angle = Measured::angle_by_photo(Estimate { value: 0.8, error });
        assert_eq!(angle.error, None, "{error}");
    }
}

#[test]
fn values_that_cannot_be_are_refused() {
    let design = demo();
    let adjusted = Plan::of(&design).unadjusted();
    let run = Run::default().tick(&adjusted);
    let refused = |kind, value| {
        let checked = run.checked(&adjusted, &design, Length::ZERO, by_hand(kind, value));
        checked
            .expect_err("it cannot be")
            .words(|planned| format!("{planned:.1}"))
    };
    for kind in CheckKind::ALL {
        for value in [0.0, -3.0, f64::NAN, f64::INFINITY] {
            assert!(refused(kind, value).contains("above 0"), "{kind:?} {value}");
        }
    }
    assert!(refused(CheckKind::Angle, 90.0).contains("less than 90°"));
    for (kind, value) in [
        (CheckKind::Angle, 89.5),
        (CheckKind::Angle, 2.0),
        (CheckKind::Crossings, 900.0),
        (CheckKind::Diameter, 0.05),
    ] {
        assert!(
            refused(kind, value).contains("cannot be right"),
            "{kind:?} {value}"
        );
    }
    let mut full = run.clone();
    for index in 0..MOST_CHECKS {
        let at = Length::from_millimetres(index as f64 + 1.0);
        full = full
            .checked(&adjusted, &design, at, by_hand(CheckKind::Angle, 45.0))
            .expect("there is room");
    }
    let more = full.checked(
        &adjusted,
        &design,
        Length::ZERO,
        by_hand(CheckKind::Angle, 45.0),
    );
    assert_eq!(more, Err(NoCheck::TooMany));
    // Typed again at its place, a value takes the place of the one before.
    let again = full.checked(
        &adjusted,
        &design,
        Length::from_millimetres(5.0),
        by_hand(CheckKind::Angle, 44.0),
    );
    assert_eq!(again.expect("it replaces one").checks.len(), MOST_CHECKS);
}

/// After a stop the angle moves to where it settles: what is expected near the stop lies between the two, and the length it still
/// takes shrinks on the way.
#[test]
fn the_angle_settles_after_a_stop() {
    // With one gear every change of threads changes the angle.
    let mut draft = demo().draft().clone();
    draft.gears = vec![24.0];
    let design = parsed(draft);
    let plan = Plan::of(&design);
    let adjusted = plan.unadjusted();
    let run = Run {
        done: 2,
        ..Run::default()
    };
    let at = run.stands_at(&adjusted);
    let far = run.expected(&adjusted, &design, at).expect("braided");
    let near = run
        .expected(&adjusted, &design, at + Length::from_millimetres(2.0))
        .expect("braided");
    let before = adjusted.line.station_before(at).braid.angle.degrees();
    let between = [before, far.angle.planned];
    assert!(
        near.angle.planned > between[0].min(between[1])
            && near.angle.planned < between[0].max(between[1])
    );
    let long = near.settles_after.expect("it is not settled yet");
    let later = run
        .expected(&adjusted, &design, at + Length::from_millimetres(10.0))
        .expect("braided");
    if let Some(after) = later.settles_after {
        assert!(after < long);
    }
    let settled = at + long + Length::from_millimetres(5.0);
    let there = run.expected(&adjusted, &design, settled).expect("braided");
    // The length is that of a small step, which falls away by the same share everywhere; this one is large.
    assert!((there.angle.planned - far.angle.planned).abs() <= 0.55);
}
