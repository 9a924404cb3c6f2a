//! What holds of the taper in any readings.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::measured::{Asked, FoundTaper, Reading, Trust, find};

use crate::lines::cases;
use crate::measured_lines::{MeasuredLine, Measuring, STATED_MICROMETRES, WRONG, asked, reading};
use crate::simulated::all;

const LINES: u64 = 150;

fn lines() -> impl Iterator<Item = MeasuredLine> {
    let measuring = Measuring {
        noise: 8.0,
        spacing: 0.1,
        wrong: WRONG,
    };
    (0..LINES).map(move |seed| MeasuredLine::of(seed, measuring))
}

/// Places and diameters of the points, in metres.
fn points(found: &FoundTaper) -> Vec<(f64, f64)> {
    let point =
        |point: &taperwright::measured::FoundPoint| (point.at.metres(), point.diameter.metres());
    found.points.iter().map(point).collect()
}

/// Whether two lists of points agree within a millimetre of place and a tenth of a micrometre of diameter.
fn are_alike(one: &[(f64, f64)], other: &[(f64, f64)]) -> bool {
    let near =
        |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).abs() < 1e-3 && (a.1 - b.1).abs() < 1e-7;
    one.len() == other.len() && one.iter().zip(other).all(near)
}

#[test]
fn the_order_of_readings_does_not_matter() {
    for line in lines() {
        let found = line.found();
        let mut turned = line.readings.clone();
        turned.reverse();
        let middle = turned.len() / 3;
        turned.rotate_left(middle);
        let other = find(&turned, &asked(STATED_MICROMETRES)).expect("the same readings");
        assert_eq!(points(&found), points(&other));
        let mut back = other.left_out.clone();
        back.rotate_right(middle);
        back.reverse();
        assert_eq!(found.left_out, back);
    }
}

/// How many pairs of lines are alike; all have the same points within the width of a thumb and a micrometre. Rounding decides where
/// the search settles if two places of a point are equally good, as they can be on either side of a reading.
fn alike(pairs: impl Iterator<Item = (Vec<(f64, f64)>, Vec<(f64, f64)>)>) -> (u64, u64) {
    let (mut same, mut all) = (0, 0);
    for (one, other) in pairs {
        all += 1;
        same += u64::from(are_alike(&one, &other));
        let near = |(a, b): (&(f64, f64), &(f64, f64))| {
            (a.0 - b.0).abs() < 0.02 && (a.1 - b.1).abs() < 1e-6
        };
        assert!(
            one.len() == other.len() && one.iter().zip(&other).all(near),
            "{one:?} {other:?}"
        );
    }
    (same, all)
}

/// Measured in another unit, the line is the same.
#[test]
fn a_larger_line_has_larger_points() {
    for factor in [0.5, 2.0, 1.3] {
        let (same, all) = alike(lines().map(|line| {
            let larger = |one: &Reading| Reading {
                diameter: one.diameter * factor,
                ..*one
            };
            let larger: Vec<Reading> = line.readings.iter().map(larger).collect();
            let found =
                points(&find(&larger, &asked(factor * STATED_MICROMETRES)).expect("a line"));
            let smaller = found
                .iter()
                .map(|point| (point.0, point.1 / factor))
                .collect();
            (smaller, points(&line.found()))
        }));
        println!("the same at {factor} of the size: {same} of {all}");
        assert!(same * 100 >= all * 97, "{same} of {all}");
    }
}

#[test]
fn a_thicker_line_has_thicker_points() {
    let more = Length::from_millimetres(0.2);
    let (same, all) = alike(lines().map(|line| {
        let thicker = |one: &Reading| Reading {
            diameter: one.diameter + more,
            ..*one
        };
        let thicker: Vec<Reading> = line.readings.iter().map(thicker).collect();
        let found = points(&find(&thicker, &asked(STATED_MICROMETRES)).expect("a line"));
        let thinner = found
            .iter()
            .map(|point| (point.0, point.1 - more.metres()))
            .collect();
        (thinner, points(&line.found()))
    }));
    assert!(same * 100 >= all * 97, "{same} of {all}");
}

/// Measured from the other end, it is the same line. The search looks at one end first, so that a line in a hundred may settle
/// with another point where two answers cost nearly the same.
#[test]
fn from_the_other_end_it_is_the_same_line() {
    let mut same = 0;
    for line in lines() {
        let found = points(&line.found());
        let length = found[found.len() - 1].0;
        let turned = |one: &Reading| Reading {
            at: Length::from_metres(length - one.at.metres()),
            ..*one
        };
        let turned: Vec<Reading> = line.readings.iter().map(turned).collect();
        let other = points(&find(&turned, &asked(STATED_MICROMETRES)).expect("a line"));
        let other: Vec<(f64, f64)> = other
            .iter()
            .rev()
            .map(|point| (length - point.0, point.1))
            .collect();
        same += u64::from(are_alike(&found, &other));
    }
    println!("the same from the other end: {same} of {LINES}");
    assert!(same * 100 >= LINES * 97, "{same} of {LINES}");
}

#[test]
fn a_double_taper_is_found_mirrored() {
    let doubles = all(LINES, |seed| {
        let line = MeasuredLine::of(
            seed,
            Measuring {
                noise: 5.0,
                spacing: 0.1,
                wrong: WRONG,
            },
        );
        let is_double = line.points[0].1 == line.points[line.points.len() - 1].1;
        let found = line.found();
        if found.is_mirrored {
            let points = points(&found);
            let length = points[points.len() - 1].0;
            for (one, other) in points.iter().zip(points.iter().rev()) {
                assert!(
                    (one.0 + other.0 - length).abs() < 1e-12 && one.1 == other.1,
                    "{points:?}"
                );
            }
        }
        (is_double, found.is_mirrored)
    });
    let count = |pair| doubles.iter().filter(|&&one| one == pair).count();
    assert!(count((true, true)) > 50 && count((false, false)) > 50);
    assert!(
        count((true, false)) <= 2 && count((false, true)) == 0,
        "{doubles:?}"
    );
}

/// With each step of closeness a point costs half as much. From the simplest to the middle and to the closest there are never fewer
/// points. Between neighbouring steps there may be, where the search settles in another place: about one step in twelve.
#[test]
fn closer_has_no_fewer_points() {
    let mut falls = 0;
    for line in lines().take(15) {
        let count = |closeness| {
            let asked = Asked {
                closeness,
                ..asked(STATED_MICROMETRES)
            };
            find(&line.readings, &asked).expect("a line").points.len()
        };
        let counts: Vec<usize> = (-4..=4).map(count).collect();
        falls += counts.windows(2).filter(|pair| pair[1] < pair[0]).count();
        assert!(
            counts[0] <= counts[4] && counts[4] <= counts[8],
            "{counts:?}"
        );
        assert_eq!((count(-100), count(100)), (counts[0], counts[8]));
    }
    println!(
        "a step closer has fewer points in {falls} of {} steps",
        15 * 8
    );
    assert!(falls * 100 <= 15 * 8 * 15, "{falls}");
}

#[test]
fn what_the_maker_says_of_a_reading_holds() {
    for line in lines() {
        let mut readings = line.readings.clone();
        let wrong = line.is_wrong.iter().position(|wrong| *wrong);
        let Some(wrong) = wrong.filter(|&wrong| wrong != 5) else {
            continue;
        };
        readings[wrong].trust = Trust::Used;
        readings[5].trust = Trust::LeftOut;
        let found = find(&readings, &asked(STATED_MICROMETRES)).expect("a line");
        assert!(!found.left_out[wrong] && found.left_out[5]);
        // What is left out is as if it had not been read.
        let mut without = readings.clone();
        without.remove(5);
        let other = find(&without, &asked(STATED_MICROMETRES)).expect("a line");
        assert_eq!(found.points, other.points);
    }
}

/// What must be true of every answer.
fn check(readings: &[Reading], asked: &Asked, found: &FoundTaper) {
    let points = points(found);
    assert!(points.len() >= 2 && points[0].0 == 0.0, "{points:?}");
    for pair in points.windows(2) {
        assert!(pair[1].0 - pair[0].0 >= 0.01 - 1e-6, "{points:?}");
    }
    assert!(
        points
            .iter()
            .all(|point| point.1 > 0.0 && point.1.is_finite()),
        "{points:?}"
    );
    let usable = |one: &&Reading| {
        one.trust != Trust::LeftOut
            && (0.0..=1e4).contains(&one.at.metres())
            && (1e-6..=1.0).contains(&one.diameter.metres())
    };
    let last = readings
        .iter()
        .filter(usable)
        .map(|one| one.at.metres())
        .fold(0.0, f64::max);
    let given = asked.length.map_or(0.0, Length::metres);
    let length = if given <= 1e4 { last.max(given) } else { last };
    assert_eq!(points[points.len() - 1].0, length);
    assert_eq!(found.is_level.len(), points.len() - 1);
    for (pair, &is_level) in points.windows(2).zip(&found.is_level) {
        assert!(!is_level || pair[0].1 == pair[1].1, "{points:?}");
    }
    assert!(found.scatter > Length::ZERO && found.scatter.is_finite());
    for point in &found.points {
        let spreads = [point.at_spread, point.diameter_spread];
        assert!(
            spreads
                .iter()
                .all(|spread| spread.is_finite() && *spread >= Length::ZERO)
        );
    }
    assert_eq!(
        (found.residuals.len(), found.left_out.len()),
        (readings.len(), readings.len())
    );
    let taper = found.taper();
    for (index, one) in readings.iter().enumerate() {
        let left = one.diameter - taper.diameter_at(one.at);
        assert!(left == found.residuals[index] || left.metres().is_nan());
        match one.trust {
            Trust::LeftOut => assert!(found.left_out[index]),
            Trust::Used => assert_eq!(found.left_out[index], !usable(&one)),
            Trust::Judged => assert!(usable(&one) || found.left_out[index]),
        }
    }
}

/// Numbers that no micrometer shows, among many that it does.
fn any_number(usual: core::ops::Range<f64>) -> impl Strategy<Value = f64> {
    let odd = vec![
        0.0,
        -0.0,
        -1.0,
        1e-300,
        1e300,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::NAN,
        1e-7,
        0.01,
    ];
    prop_oneof![20 => usual, 1 => proptest::sample::select(odd)]
}

fn any_reading() -> impl Strategy<Value = Reading> {
    // Whole decimetres come twice and more.
    let place = prop_oneof![
        any_number(0.0..30.0),
        (0_u32..40).prop_map(|at| f64::from(at) / 10.0)
    ];
    let diameter = prop_oneof![
        any_number(0.0003..0.0015),
        Just(0.001),
        any_number(0.0..2.0)
    ];
    let trust = proptest::sample::select(vec![
        Trust::Judged,
        Trust::Judged,
        Trust::Used,
        Trust::LeftOut,
    ]);
    (place, diameter, trust).prop_map(|(place, diameter, trust)| Reading {
        at: Length::from_metres(place),
        diameter: Length::from_metres(diameter),
        trust,
    })
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn whatever_is_read_has_an_answer(
        readings in prop_oneof![
            proptest::collection::vec(any_reading(), 0..12),
            proptest::collection::vec(any_reading(), 0..120),
        ],
        error in any_number(0.000_001..0.00005),
        length in proptest::option::of(any_number(0.0..40.0)),
        closeness in any::<i8>(),
    ) {
        let asked = Asked {
            error: Length::from_metres(error),
            length: length.map(Length::from_metres),
            closeness,
        };
        if let Some(found) = find(&readings, &asked) {
            check(&readings, &asked, &found);
        }
    }
}

#[test]
fn every_line_measured_has_an_answer_in_order() {
    for line in lines() {
        check(&line.readings, &asked(STATED_MICROMETRES), &line.found());
    }
}

#[test]
fn two_places_make_a_straight_line() {
    let asked = asked(5.0);
    assert_eq!(find(&[], &asked), None);
    let one = [reading(1.0, 0.8), reading(1.0, 0.9)];
    assert_eq!(find(&one, &asked), None);
    let two = [reading(4.0, 1.2), reading(0.0, 0.8)];
    let found = find(&two, &asked).expect("two places");
    check(&two, &asked, &found);
    assert_eq!(found.points.len(), 2);
    assert!((found.points[0].diameter.millimetres() - 0.8).abs() < 1e-6);
    let left_out = two.map(|one| Reading {
        trust: Trust::LeftOut,
        ..one
    });
    assert_eq!(find(&left_out, &asked), None);
}
