//! The take-off: what one tooth does, what a train draws, and how a machine constant is found.

use taperwright::base::units::{Angle, Length};
use taperwright::braid::geometry::{Braiding, angle_of};
use taperwright::braid::takeoff::{Measured, TakeOff, Train, Wheels};

use crate::designs::usual;
use crate::row::{agree, row};

fn take_off(train: Train, gears: &[u32]) -> TakeOff {
    TakeOff {
        train,
        gears: gears.to_vec(),
        partner: 40,
        pair_sum: 60,
        constant: Length::from_millimetres(3.2),
    }
}

fn driver(teeth: u32) -> Wheels {
    Wheels {
        driver: teeth,
        driven: 40,
        train: Train::Driver,
    }
}

/// What can be fitted, as the maker would write it, with the lay it draws in mm.
fn fitted(take_off: &TakeOff) -> Vec<(String, f64)> {
    let lay = |wheels: Wheels| take_off.lay(wheels).millimetres();
    let written = |wheels: Wheels| (wheels.to_string(), lay(wheels));
    take_off.choices().into_iter().map(written).collect()
}

#[track_caller]
fn draws(take_off: &TakeOff, wanted: &[(&str, &str)]) {
    let found = fitted(take_off);
    let names: Vec<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
    let wanted_names: Vec<&str> = wanted.iter().map(|&(name, _)| name).collect();
    assert_eq!(names, wanted_names);
    for ((_, lay), (_, printed)) in found.iter().zip(wanted) {
        row(*lay, printed);
    }
}

/// Analytic: one tooth more on a change gear of z teeth draws 1/z more where it drives, and z/(z + 1) where it is driven.
#[test]
fn one_tooth_is_a_step_of_one_in_z() {
    let rows = [
        (20, "5.00", "-4.76"),
        (40, "2.50", "-2.44"),
        (80, "1.25", "-1.23"),
    ];
    for (teeth, more, less) in rows {
        for (train, percent) in [(Train::Driver, more), (Train::Driven, less)] {
            let found = fitted(&take_off(train, &[teeth, teeth + 1]));
            let lay_of = |teeth: u32| {
                let written = found.iter().find(|(name, _)| *name == teeth.to_string());
                written.expect("it is owned").1
            };
            row(100.0 * (lay_of(teeth + 1) / lay_of(teeth) - 1.0), percent);
        }
    }
}

/// Analytic: equal teeth draw the machine constant.
#[test]
fn equal_teeth_draw_the_machine_constant() {
    let take_off = take_off(Train::Driver, &[40]);
    agree(take_off.lay(driver(40)).millimetres(), 3.2, 1e-15);
    agree(take_off.lay(driver(20)).millimetres(), 1.6, 1e-15);
}

/// Analytic: a circuit draws C·z/z₀ where the change gear drives, C·z₀/z where it is driven, with C 3.2 mm and z₀ 40.
#[test]
fn a_single_change_gear_draws_by_its_side_of_the_train() {
    let gears = [20, 25, 50];
    draws(
        &take_off(Train::Driver, &gears),
        &[("20", "1.600"), ("25", "2.000"), ("50", "4.000")],
    );
    draws(
        &take_off(Train::Driven, &gears),
        &[("50", "2.560"), ("25", "5.120"), ("20", "6.400")],
    );
}

/// Analytic: on fixed centres only wheels of 60 teeth together mesh, 3.2 mm · z/(60 − z); a wheel meshes with its like
/// only where two of it are owned.
#[test]
fn fixed_centres_take_pairs_of_one_sum() {
    let wanted = [("20/40", "1.600"), ("24/36", "2.133")];
    let back = [("36/24", "4.800"), ("40/20", "6.400")];
    let gears = [20, 24, 25, 30, 36, 40];
    draws(
        &take_off(Train::FixedCentres, &gears),
        &[wanted, back].concat(),
    );
    let with_two = [&gears[..], &[30]].concat();
    let even = [("30/30", "3.200")];
    draws(
        &take_off(Train::FixedCentres, &with_two),
        &[&wanted[..], &even, &back].concat(),
    );
}

/// Analytic: any two, either way round, 3.2 mm · z₁/z₂; of pairs that draw alike the one of fewer teeth stands.
#[test]
fn free_pairs_take_any_two() {
    draws(
        &take_off(Train::FreePair, &[20, 30, 45]),
        &[
            ("20/45", "1.422"),
            ("20/30", "2.133"),
            ("30/20", "4.800"),
            ("45/20", "7.200"),
        ],
    );
}

/// Analytic: C = (H/2)·π·D·train, 4 · π · 50 mm · train for eight horn gears and a roller of 50 mm.
#[test]
fn a_roller_draws_its_girth() {
    for (train, millimetres) in [(0.005, "3.142"), (0.01, "6.283"), (0.02, "12.566")] {
        let roller = Measured::Roller {
            horn_gears: 8.0,
            diameter: Length::from_millimetres(50.0),
            train,
        };
        row(roller.constant().millimetres(), millimetres);
    }
}

/// Analytic: ten circuits of 3.2 mm · 22/40 are 17.6 mm.
#[test]
fn counted_circuits_give_the_constant_back() {
    let counted = Measured::Circuits {
        circuits: 10.0,
        length: Length::from_millimetres(17.6),
        ratio: 22.0 / 40.0,
    };
    row(counted.constant().millimetres(), "3.200");
}

/// Analytic: P = N/(2L), so that 16 threads on a lay of 4.000 mm cross 20.00 times in a centimetre, and 8 on 3.260 mm
/// 12.270 times; with the wheels 20/40 fitted the constant is twice the lay.
#[test]
fn counted_crossings_give_the_constant_back() {
    for (threads, per_centimetre, constant) in [(16.0, 20.00, "8.000"), (8.0, 12.270, "6.520")] {
        let counted = Measured::Crossings {
            crossings: 5.0 * per_centimetre,
            length: Length::from_millimetres(50.0),
            threads,
            ratio: 0.5,
        };
        row(counted.constant().millimetres(), constant);
    }
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
        let train = take_off(Train::Driver, &gears);
        let choices = train.choices();
        for threads in 8..=16_u32 {
            for target in [35.0, 45.0, 52.0] {
                let target = Angle::from_degrees(target);
                let off = |teeth| {
                    let lay = train.lay(driver(teeth));
                    (braiding.at_lay(threads, lay).angle - target).abs()
                };
                let nearest = train.nearest(&choices, &braiding, threads.into(), target);
                let fitted = nearest.expect("some gear is owned").wheels.teeth();
                seen.insert(fitted);
                assert!(gears.contains(&fitted));
                assert!(
                    gears.iter().all(|&teeth| off(fitted) <= off(teeth)),
                    "{gears:?} {threads}"
                );
            }
        }
    }
    assert!(seen.len() > 8, "the cases hardly differ: {seen:?}");
}

/// By trying every wheel there may be: none comes nearer than the one called nearest among all that could be bought.
#[test]
fn no_wheel_beats_the_ideal_one() {
    let braiding = usual().braiding();
    for (threads, degrees) in [
        (8_u32, 45.0),
        (16, 45.0),
        (11, 38.0),
        (16, 20.0),
        (16, 70.0),
    ] {
        let target = Angle::from_degrees(degrees);
        let train = take_off(Train::Driver, &[22]);
        let off = |teeth: u32| {
            let lay = train.lay(driver(teeth));
            (braiding.at_lay(threads, lay).angle - target).abs()
        };
        let bought = train.choices_with_one_more(8..=200);
        let ideal = train.nearest(&bought, &braiding, threads.into(), target);
        let ideal = ideal.expect("there are wheels to buy").wheels.teeth();
        assert!(
            (8..=200).all(|teeth| off(ideal) <= off(teeth)),
            "{ideal} teeth"
        );
    }
}
