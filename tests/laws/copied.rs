//! Copies of measured lines: what is kept is kept, on machines and yarns of all kinds.
//!
//! Source: analytic. Sizes of a braid of whole threads lie on steps, so a copy keeps them as a mean over its length and within a
//! step at every place; weights in the same manner.

use taperwright::base::units::{Length, Mass};
use taperwright::braid::taper::{Point, Taper};
use taperwright::design::demo::demo;
use taperwright::edit::copied::{Difference, Keeps, NoCopy, Original, copied, silk_head};
use taperwright::measured::{MadeOf, Weighed, made_of};
use taperwright::plan::Plan;

use crate::chance::Chance;

fn taper(points: &[(f64, f64)]) -> Taper {
    let point = |&(metres, mm): &(f64, f64)| Point {
        at: Length::from_metres(metres),
        diameter: Length::from_millimetres(mm),
    };
    Taper::new(points.iter().map(point).collect()).expect("its points are in order")
}

/// An invented line a little thicker or thinner than the example, weighed as a whole so that it has this density.
fn line(chance: &mut Chance, density: f64) -> (Taper, MadeOf) {
    let mut between = |low: f64, high: f64| low + (high - low) * chance.uniform();
    let (tip, belly) = (between(0.75, 0.9), between(1.0, 1.15));
    let (front, rear) = (between(2.0, 5.0), between(15.0, 22.0));
    let line = taper(&[
        (0.0, tip),
        (0.3, tip),
        (front, belly),
        (rear, belly),
        (rear + 2.5, tip),
        (rear + 4.0, tip),
    ]);
    let micrometer = Length::from_micrometres(15.0);
    let volume = made_of(&line, &Weighed::default(), micrometer).volume;
    let weighed = Weighed {
        whole: Some(Mass::from_grams(volume.millilitres() * density)),
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, micrometer);
    (line, made)
}

fn mean(all: &[Difference], of: impl Fn(&Difference) -> f64) -> f64 {
    all.iter().map(of).sum::<f64>() / all.len() as f64
}

#[test]
fn sizes_are_kept_where_sizes_are_wanted_and_weights_where_weights_are() {
    let mut chance = Chance::of(22);
    for round in 0..12 {
        let density = 0.85 + 0.5 * chance.uniform();
        let (taper, made) = line(&mut chance, density);
        let original = Original {
            name: "Old Heron",
            taper: &taper,
            made_of: &made,
        };
        let by_size = copied(&original, &demo(), Keeps::Sizes).expect("it can be braided");
        let size = |one: &Difference| one.diameters.1 / one.diameters.0 - 1.0;
        let off = mean(&by_size.differences, size);
        assert!(off.abs() < 0.025, "round {round}: sizes off by {off}");
        for one in &by_size.differences {
            assert!(size(one).abs() < 0.06, "round {round}: {one:?}");
        }
        let (kept, points) = by_size.design.original().expect("it is a copy");
        assert_eq!(kept.title(), "Old Heron");
        // Its points are on the steps of a design's.
        let apart = (points.length() - taper.length()).abs();
        assert!(apart < Length::from_millimetres(0.1), "round {round}");

        let by_weight = copied(&original, &demo(), Keeps::Weights).expect("it can be braided");
        let one_metre = Length::from_metres(1.0);
        let weight = |one: &Difference| {
            let original = one.weights.0.expect("it was weighed");
            (one_metre * one.weights.1) / (one_metre * original) - 1.0
        };
        let whole = Mass::from_grams(made.volume.millilitres() * density);
        let off = by_weight.plan.total_mass / whole - 1.0;
        assert!(off.abs() < 0.03, "round {round}: weight off by {off}");
        let head = made.head_mass.expect("it is long enough").value;
        let copy = by_weight.plan.head_mass.expect("it is long enough");
        // No more digits than a hand can use.
        for point in &by_weight.design.draft().points[..5] {
            for value in [point.at_m, point.diameter_mm] {
                let thousandths = value * 1e3;
                assert!(
                    (thousandths - thousandths.round()).abs() < 1e-6,
                    "{point:?}"
                );
            }
        }
        let off = copy / head - 1.0;
        assert!(off.abs() < 0.025, "round {round}: the head is off by {off}");
        // Whatever the original is made of, the copy is dressed silk: 1.05 to 1.25 g/cm³.
        let own = density * (1.0 + mean(&by_size.differences, weight));
        assert!((1.05..1.25).contains(&own), "round {round}: {own} g/cm³");
    }
}

#[test]
fn what_a_line_of_silk_weighs_is_what_its_copy_weighs() {
    let mut chance = Chance::of(23);
    for _ in 0..6 {
        let (taper, made) = line(&mut chance, 1.0);
        let original = Original {
            name: "",
            taper: &taper,
            made_of: &made,
        };
        let copy = copied(&original, &demo(), Keeps::Sizes).expect("it can be braided");
        let drawn = Plan::of(&copy.design)
            .head_drawn
            .expect("it is long enough");
        let silk = silk_head(&taper, &demo()).expect("it is long enough");
        // The drawing's weight hangs on the ends in a thread by rounding only.
        assert!((drawn / silk - 1.0).abs() < 5e-3, "{drawn:?} {silk:?}");
    }
}

#[test]
fn without_a_weight_no_weights_are_kept() {
    let mut chance = Chance::of(24);
    let (taper, _) = line(&mut chance, 1.0);
    let nothing = made_of(&taper, &Weighed::default(), Length::from_micrometres(15.0));
    let original = Original {
        name: "",
        taper: &taper,
        made_of: &nothing,
    };
    let refused = copied(&original, &demo(), Keeps::Weights).expect_err("nothing was weighed");
    assert_eq!(refused, NoCopy::NotWeighed);
    assert!(refused.to_string().contains("Weigh the line"));
    assert!(copied(&original, &demo(), Keeps::Sizes).is_ok());
}

/// A line of two materials: the copy that keeps the weights is thicker where the original is denser, and steps where it does.
#[test]
fn weights_are_kept_where_the_material_changes() {
    let line = taper(&[(0.0, 1.1), (25.0, 1.1)]);
    let cut = |from: f64, to: f64, density: f64| {
        let grams = core::f64::consts::FRAC_PI_4 * 1.21 * (to - from) * density;
        (
            Length::from_metres(from),
            Length::from_metres(to),
            Mass::from_grams(grams),
        )
    };
    let weighed = Weighed {
        cuts: vec![cut(0.0, 12.0, 0.8), cut(12.0, 25.0, 1.1)],
        ..Weighed::default()
    };
    let made = made_of(&line, &weighed, Length::from_micrometres(15.0));
    let original = Original {
        name: "",
        taper: &line,
        made_of: &made,
    };
    let copy = copied(&original, &demo(), Keeps::Weights).expect("it can be braided");
    let drawn = copy.design.taper();
    let at = |metres| drawn.diameter_at(Length::from_metres(metres));
    let share = at(20.0) / at(5.0);
    // Mass per length grows with the square of the size: analytic, but for the film of varnish.
    assert!((share - (1.1_f64 / 0.8).sqrt()).abs() < 0.01, "{share}");
    assert!(at(11.9) == at(5.0) && at(12.1) == at(20.0));
}
