//! The laws know of no metre: with every length, time and mass in other units, the same cast comes out. Densities stay what they are,
//! for the leader is of nylon; so masses grow with the third power of lengths.

use taperwright::base::choice::Choice;
use taperwright::base::units::text::read;
use taperwright::turnover::{Cast, CastNumber, Moment, Surroundings, turn_over};

use crate::lines::{Piece, cast, head_mass, line, of_head_mass, with};
use crate::row::agree;

/// Numbers of the cast that stay on their steps when lengths are 1.25 times as long.
const NUMBERS: [f64; 9] = [8.0, 0.4, 15.0, 2.4, 0.4, 0.16, 0.4, 0.064, 8.0];
const LENGTH: f64 = 1.25;
/// What is bound to metres and seconds is small: where sums along the line are cut, and how steps begin.
const SMALL: f64 = 5e-5;

fn taper(length: f64) -> [Piece; 2] {
    let size = |millimetres: f64| millimetres * length;
    [
        (2.0 * length, size(0.7), size(1.1), 1.05),
        (20.0 * length, size(1.1), size(1.1), 1.05),
    ]
}

fn scaled(time: f64) -> (Cast, Surroundings) {
    let mass = LENGTH.powi(3);
    let by = [
        LENGTH,
        LENGTH,
        LENGTH / time,
        LENGTH,
        LENGTH,
        LENGTH,
        LENGTH,
        mass,
        LENGTH,
    ];
    let numbers = core::array::from_fn(|index| NUMBERS[index] * by[index]);
    let usual = Surroundings::USUAL;
    let air = Surroundings {
        viscosity: usual.viscosity * LENGTH * LENGTH / time,
        gravity: usual.gravity * LENGTH / (time * time),
        ..usual
    };
    (cast(numbers), air)
}

#[test]
fn a_cast_in_other_units_is_the_same_cast() {
    let first = turn_over(&line(&taper(1.0)), &cast(NUMBERS), &Surroundings::USUAL);
    for time in [0.75, 1.0, 1.25] {
        let (cast, air) = scaled(time);
        let other = turn_over(&line(&taper(LENGTH)), &cast, &air);
        for (one, other) in [
            (first.start, other.start),
            (first.at_leader, other.at_leader),
            (first.at_fly, other.at_fly),
        ] {
            same(&one, &other, time);
        }
        agree(other.energy_left(), first.energy_left(), SMALL);
        let slowest = first.slowest.metres_per_second() * LENGTH / time;
        agree(other.slowest.metres_per_second(), slowest, SMALL);
    }
}

#[track_caller]
fn same(one: &Moment, other: &Moment, time: f64) {
    let (speed, mass) = (LENGTH / time, LENGTH.powi(3));
    let (v, w) = (
        one.speed.metres_per_second(),
        other.speed.metres_per_second(),
    );
    agree(w, v * speed, SMALL);
    agree(
        other.energy.joules(),
        one.energy.joules() * mass * speed * speed,
        SMALL,
    );
    agree(other.seconds, one.seconds * time, SMALL);
    agree(other.drop.metres(), one.drop.metres() * LENGTH, SMALL);
    agree(other.to_fly.metres(), one.to_fly.metres() * LENGTH, SMALL);
    agree(other.lean, one.lean, SMALL);
}

/// A cast typed in feet, inches and grains is the one typed in metric units, to the step of each number.
#[test]
fn feet_and_grains_make_the_same_cast() {
    let imperial = [
        "30 ft", "2 ft", "50 ft/s", "9 ft", "0.02 in", "0.007 in", "24 in", "1 gr", "0.3 in",
    ];
    let metric = [
        "9.144 m",
        "0.61 m",
        "15.24 m/s",
        "2.743 m",
        "0.508 mm",
        "0.178 mm",
        "0.61 m",
        "0.065 g",
        "7.6 mm",
    ];
    let typed = |texts: [&str; 9]| {
        let both = CastNumber::ALL.iter().zip(texts);
        both.fold(Cast::default(), |cast, (&number, text)| {
            let value = read(text, number.rule().unit).expect("a number");
            with(cast, number, value)
        })
    };
    assert_eq!(typed(imperial), typed(metric));
}

/// 30 ft of 140 gr are 9.144 m of 9.0718 g: grain and foot are defined as 64.798 91 mg and 0.3048 m.
#[test]
fn a_head_in_grains_and_feet_weighs_the_same_in_metric_units() {
    let line = of_head_mass(&[(0.0, 1.0), (40.0, 1.0)], 140.0);
    agree(head_mass(&line).grams(), 140.0 * 0.064_798_91, 1e-12);
    agree(line.length().metres(), 40.0 * 0.3048, 1e-12);
}
