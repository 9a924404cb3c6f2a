//! The take-off: what one tooth does.

use taperwright::braid::{Braiding, angle_of};
use taperwright::takeoff::TakeOff;
use taperwright::units::{Angle, Length};

use crate::designs::usual;
use crate::row::{agree, row};

fn take_off(gears: &[u32]) -> TakeOff {
    TakeOff {
        gears: gears.to_vec(),
        partner: 40,
        constant: Length::from_millimetres(3.2),
    }
}

/// Analytic: one tooth more on a change gear of z teeth draws 1/z more.
#[test]
fn one_tooth_is_a_step_of_one_in_z() {
    for (teeth, percent) in [(20, "5.00"), (40, "2.50"), (80, "1.25")] {
        let train = take_off(&[teeth]);
        row(
            100.0 * (train.lay(teeth + 1) / train.lay(teeth) - 1.0),
            percent,
        );
    }
}

/// Analytic: equal teeth draw the machine constant.
#[test]
fn equal_teeth_draw_the_machine_constant() {
    let train = take_off(&[40]);
    agree(train.lay(40).millimetres(), 3.2, 1e-15);
    agree(train.lay(20).millimetres(), 1.6, 1e-15);
}

/// Analytic: at a given path diameter dα = ½ sin 2α · dL/L; 0.286° for 1 % at 45°, 0.248° at 30°. Taken half a
/// percent to either side, so that the curvature cancels.
#[test]
fn one_percent_of_lay_turns_the_angle_by_a_known_step() {
    for (angle, step) in [(45.0_f64, "0.286"), (30.0, "0.248")] {
        let path = Length::from_millimetres(0.8);
        let drawn = path * (core::f64::consts::PI / angle.to_radians().tan());
        let turned = angle_of(path, drawn * 0.995) - angle_of(path, drawn * 1.005);
        row(turned.degrees(), step);
    }
}

/// By trying every gear owned: none may come nearer to the target than the one fitted.
#[test]
fn the_gear_fitted_is_the_nearest_of_all() {
    let braiding: Braiding = usual().braiding();
    let mut seen = std::collections::BTreeSet::new();
    for gears in [
        vec![15, 16, 17, 18, 19, 20, 23, 26, 30],
        vec![22],
        vec![10, 60],
        vec![20, 20, 25],
    ] {
        let train = take_off(&gears);
        for threads in 8..=16 {
            for target in [35.0, 45.0, 52.0] {
                let target = Angle::from_degrees(target);
                let off = |teeth| (braiding.at_lay(threads, train.lay(teeth)).angle - target).abs();
                let fitted = train.nearest(&braiding, threads, target);
                seen.insert(fitted.gear);
                assert!(gears.contains(&fitted.gear));
                assert!(
                    gears.iter().all(|&teeth| off(fitted.gear) <= off(teeth)),
                    "{gears:?} {threads}"
                );
            }
        }
    }
    assert!(seen.len() > 8, "the cases hardly differ: {seen:?}");
}

/// By trying every wheel there may be: none comes nearer than the one called ideal.
#[test]
fn no_wheel_beats_the_ideal_one() {
    let braiding = usual().braiding();
    for (threads, degrees) in [(8, 45.0), (16, 45.0), (11, 38.0), (16, 20.0), (16, 70.0)] {
        let target = Angle::from_degrees(degrees);
        let train = take_off(&[22]);
        let off = |teeth: u32| (braiding.at_lay(threads, train.lay(teeth)).angle - target).abs();
        let ideal = train.ideal(&braiding, threads, target, 8..=200).gear;
        assert!(
            (8..=200).all(|teeth| off(ideal) <= off(teeth)),
            "{ideal} teeth"
        );
    }
}
