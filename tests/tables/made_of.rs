//! What a line is made of, from size and weight: worked rows with their sources.

use taperwright::base::units::{Length, Mass};
use taperwright::braid::taper::{Point, Taper};
use taperwright::braid::weight::Verdict;
use taperwright::measured::{MadeOf, Material, Weighed, made_of};

/// One standard deviation of the micrometer in these rows.
const MICROMETER: Length = Length::from_micrometres(10.0);

fn taper(points: &[(f64, f64)]) -> Taper {
    let point = |&(feet, mm): &(f64, f64)| Point {
        at: Length::from_feet(feet),
        diameter: Length::from_millimetres(mm),
    };
    Taper::new(points.iter().map(point).collect()).expect("its points are in order")
}

fn density(made: &MadeOf) -> f64 {
    let density = made.density.expect("it was weighed");
    density.value.grams_per_cubic_centimetre()
}

/// A level line of 1.0716 mm and 1.10 g/cm³ has 0.9921 g/m, and 30 ft of it weigh 140 grains: analytic, and the target of class 5
/// in the AFFTA fly line weight standard.
#[test]
fn a_level_line_of_class_5() {
    let line = taper(&[(0.0, 1.0716), (30.0, 1.0716)]);
    let weighed = Weighed {
        whole: Some(Mass::from_grains(140.0)),
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, MICROMETER);
    assert!((density(&made) - 1.10).abs() < 5e-5, "{}", density(&made));
    assert!(matches!(made.verdict, Some(Verdict::Within(class)) if class.number == 5));
    assert_eq!(made.materials, [Material::DressedSilk]);
    let per_metre = made.linear_density(&line, Length::from_metres(3.0));
    let per_metre = per_metre.expect("it was weighed");
    let metre = Length::from_metres(1.0) * per_metre;
    assert!((metre.grams() - 0.9921).abs() < 5e-5, "{metre:?}");
}

/// Class 5 at 140 grains with a taper of 10 ft, linear in diameter from 0.60 of the belly: 1.1217 g/m in the belly, 0.4038 g/m at
/// the tip. Analytic: π/12 · l (d₁² + d₁d₂ + d₂²) and the belly's own volume. At 1.10 g/cm³ that is a belly of 1.1395 mm.
#[test]
fn a_taper_of_class_5() {
    let belly = (4.0 * 1.1217e-3 / (core::f64::consts::PI * 1_100.0)).sqrt() * 1e3;
    let line = taper(&[(0.0, 0.6 * belly), (10.0, belly), (30.0, belly)]);
    let weighed = Weighed {
        head: Some(Mass::from_grains(140.0)),
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, MICROMETER);
    assert!((belly - 1.1395).abs() < 5e-5, "{belly}");
    assert!((density(&made) - 1.10).abs() < 1e-3, "{}", density(&made));
    let at = |feet| {
        let per_metre = made.linear_density(&line, Length::from_feet(feet));
        (Length::from_metres(1.0) * per_metre.expect("it was weighed")).grams()
    };
    assert!((at(20.0) - 1.1217).abs() < 2e-3 && (at(0.0) - 0.4038).abs() < 2e-3);
}

/// The error of a density follows from those of size and weight. Analytic: the volume is quadratic in the size, so its share is
/// twice that of the size; independent shares add as squares.
#[test]
fn the_range_of_a_density_follows_from_micrometer_and_scale() {
    let line = taper(&[(0.0, 1.0), (30.0, 1.0)]);
    let weighed = Weighed {
        whole: Some(Mass::from_grams(8.0)),
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, MICROMETER);
    let density = made.density.expect("it was weighed");
    let share =
        density.spread.grams_per_cubic_centimetre() / density.value.grams_per_cubic_centimetre();
    let (size, scale) = (2.0 * 0.010 / 1.0, 0.005_f64);
    assert!((share - f64::hypot(size, scale)).abs() < 1e-9, "{share}");
}

/// A line of 25 ft has no class, and five feet and the level tip are missing. Source: AFFTA fly line weight standard, 30 ft from
/// the end of the level tip.
#[test]
fn a_short_line_has_no_class() {
    let line = taper(&[(0.0, 0.8), (0.5, 0.8), (10.0, 1.1), (25.0, 1.1)]);
    let weighed = Weighed {
        whole: Some(Mass::from_grams(6.0)),
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, MICROMETER);
    let Some(Verdict::Missing(missing)) = made.verdict else {
        panic!("{:?}", made.verdict);
    };
    assert!((missing.feet() - 5.5).abs() < 1e-9);
    assert_eq!(made.head_mass, None);
}

/// What a metre says of the first 30 ft is as uncertain as the scale made it: 0.60 g to a hundredth of a gram is 1.7 %, and so are
/// the 5.486 g of a level line. Analytic.
#[test]
fn a_head_calculated_from_a_metre_is_as_uncertain_as_the_metre() {
    let line = taper(&[(0.0, 1.0), (40.0, 1.0)]);
    let weighed = Weighed {
        cuts: vec![(
            Length::from_metres(2.0),
            Length::from_metres(3.0),
            Mass::from_grams(0.60),
        )],
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, MICROMETER);
    let head = made.head_mass.expect("it is long enough");
    assert!((head.value.grams() - 0.60 * 9.144).abs() < 1e-9, "{head:?}");
    assert!(
        (head.spread / head.value - 0.01 / 0.60).abs() < 1e-9,
        "{head:?}"
    );
}
