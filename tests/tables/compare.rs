//! Two level lines beside each other, calculated by hand.

use core::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_4};

use taperwright::base::units::Angle;
use taperwright::base::units::show::Units;
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::paper::compare::{Compared, Comparison};
use taperwright::plan::Plan;

use crate::designs::{design, parsed};
use crate::row::agree;

/// By how much the angle may be off its 45°: the length drawn is set to 1 µm of some 2 mm, which is worth 0.015°.
const SHARE: f64 = 1e-3;

/// A bare level line: so many threads of 12 ends of 21 denier silk at 45°, drawn by one gear made for them.
fn level(threads: u32, metres: f64) -> Design {
    let undressed = [
        Setting::OilFill,
        Setting::VarnishFill,
        Setting::Film,
        Setting::Grease,
    ];
    let settings = undressed.map(|setting| (setting, 0.0));
    let mut draft = design(&settings, &[(0.0, 1.0), (metres, 1.0)])
        .draft()
        .clone();
    let braiding = design(&settings, &[(0.0, 1.0), (metres, 1.0)]).braiding();
    let lay = braiding.at_angle(threads, Angle::from_degrees(45.0)).lay;
    for (setting, value) in [
        (Setting::FewestThreads, f64::from(threads)),
        (Setting::MostThreads, f64::from(threads)),
        (Setting::MachineConstant, lay.millimetres()),
    ] {
        draft.settings.set(setting, value);
    }
    draft.gears = vec![40.0];
    parsed(draft)
}

/// Analytic: thread of 12 × 21 denier is 0.028 g/m; with 2 % crimp, at an angle whose cosine is √½, each adds this much to
/// a metre of line, in grams.
fn grams_per_metre(threads: f64) -> f64 {
    threads * 12.0 * 21.0 / 9000.0 * 1.02 / FRAC_1_SQRT_2
}

/// Analytic: m = ρφ·πd²/4, with silk of 1.34 g/cm³ filling 0.55 of the section; in mm.
fn diameter(threads: f64) -> f64 {
    (grams_per_metre(threads) / (FRAC_PI_4 * 1.34 * 0.55)).sqrt()
}

#[track_caller]
fn row(comparison: &Comparison, key: &str) -> Compared {
    let found = comparison.figures.iter().find(|row| row.key == key);
    *found.unwrap_or_else(|| panic!("{key} is not compared"))
}

fn compared(mine: &Design, other: &Design) -> Comparison {
    Comparison::of((mine, &Plan::of(mine)), (other, &Plan::of(other)))
}

/// 16 threads over 25 m against 12 over 20 m: analytic, mass per metre times length.
#[test]
fn two_level_lines_differ_by_mass_per_metre_times_length() {
    let comparison = compared(&level(16, 25.0), &level(12, 20.0));
    let (thick, thin) = (grams_per_metre(16.0), grams_per_metre(12.0));
    for (key, wanted) in [
        ("head-mass", 9.144 * (thick - thin) / 1e3),
        ("belly-mass", (25.0 * thick - 20.0 * thin) / 1e3),
        ("total-mass", (25.0 * thick - 20.0 * thin) / 1e3),
        ("length", 5.0),
        ("tip-diameter", (diameter(16.0) - diameter(12.0)) / 1e3),
        ("belly-diameter", (diameter(16.0) - diameter(12.0)) / 1e3),
        ("threads-min", 4.0),
        ("threads-max", 4.0),
    ] {
        let found = row(&comparison, key).difference();
        agree(found.expect(key), wanted, SHARE);
    }
    // A level line is all belly.
    for key in ["tip-mass", "front-mass", "rear-mass"] {
        assert_eq!(row(&comparison, key).difference(), Some(0.0), "{key}");
    }
}

/// The same in words. 5 m are 16 ft and 4.85 in; 9.144 × 0.6462 g is 91.2 gr, in the gap between 86 and 94;
/// 9.144 × 0.4847 g is 68.4 gr, between 66 and 74.
#[test]
fn differences_are_said_with_their_sign() {
    let (long, short) = (level(16, 25.0), level(12, 20.0));
    let said = |key, units| row(&compared(&long, &short), key).words(units);
    let thin = '\u{202f}';
    for (key, units, wanted) in [
        ("length", Units::Metric, format!("+5.000{thin}m")),
        ("length", Units::Imperial, format!("+16′{thin}4{thin}7/8″")),
        ("threads-max", Units::Metric, "+4".to_owned()),
        ("tip-mass", Units::Metric, "same".to_owned()),
        ("class", Units::Metric, "–".to_owned()),
    ] {
        assert_eq!(said(key, units).difference, wanted, "{key}");
    }
    assert_eq!(said("class", Units::Metric).mine, "Between 2 and 3");
    assert_eq!(said("class", Units::Metric).other, "Between 1 and 2");
    assert_eq!(said("tip-mass", Units::Metric).mine, "none");
    let back = row(&compared(&short, &long), "length").words(Units::Metric);
    assert_eq!(back.difference, format!("\u{2212}5.000{thin}m"));
}

/// 5 m of 16 threads are 5 × 0.6462 g = 3.23 g, at 64.799 mg to the grain 49.9 gr.
#[test]
fn masses_differ_in_grams_and_in_grains() {
    let (long, short) = (level(16, 25.0), level(16, 20.0));
    let words = |mine, other| row(&compared(mine, other), "total-mass").words(Units::Imperial);
    let more = words(&long, &short).difference;
    assert_eq!(more, "+3.23\u{202f}g · +49.9\u{202f}gr");
    assert_eq!(
        words(&short, &long).difference,
        more.replace('+', "\u{2212}")
    );
    // Both are as heavy over their first 30 ft, which reads alike.
    let head = row(&compared(&long, &short), "head-mass").words(Units::Metric);
    assert_eq!(head.difference, "same");
}

/// Classes by the AFFTA standard: 140 gr is class 5, 185 gr class 7. 9.144 m at 140 gr are 0.9921 g/m, 24.56 of the threads
/// above; at 185 gr 1.3110 g/m, 32.46 of them; whole ones, 24 and 32, weigh 136.8 and 182.4 gr: still classes 5 and 7.
#[test]
fn classes_are_counted() {
    let [five, seven] = [24, 32].map(|threads| {
        let mut draft = level(16, 25.0).draft().clone();
        let ring = f64::from(threads) / 2.0;
        let lay = level(16, 25.0)
            .braiding()
            .at_angle(threads, Angle::from_degrees(45.0))
            .lay;
        for (setting, value) in [
            (Setting::HornGears, ring),
            (Setting::FewestThreads, f64::from(threads)),
            (Setting::MostThreads, f64::from(threads)),
            (Setting::MachineConstant, lay.millimetres()),
        ] {
            draft.settings.set(setting, value);
        }
        parsed(draft)
    });
    let words = |mine, other| row(&compared(mine, other), "class").words(Units::Metric);
    assert_eq!(words(&five, &seven).mine, "Class 5");
    assert_eq!(words(&five, &seven).other, "Class 7");
    assert_eq!(words(&five, &seven).difference, "\u{2212}2 classes");
    assert_eq!(words(&seven, &five).difference, "+2 classes");
}

/// By hand: 2.04 m lies 40 mm after 2.00 m and is told with it, 2.10 m is not; the shorter line ends at 20 m.
#[test]
fn control_points_near_each_other_are_told_as_one() {
    let mine = design(&[], &[(0.0, 0.8), (2.0, 1.0), (20.0, 1.0)]);
    let other = design(&[], &[(0.0, 0.8), (2.04, 1.0), (2.1, 0.9), (25.0, 0.9)]);
    let stations = compared(&mine, &other).places;
    let at: Vec<f64> = stations.iter().map(|station| station.at.metres()).collect();
    assert_eq!(at, [0.0, 2.0, 2.1, 20.0, 25.0]);
    let drawn = |index: usize| {
        let station = &stations[index];
        [station.mine, station.other].map(|place| place.map(|place| place.drawn.millimetres()))
    };
    // A straight line from 0.8 mm at the tip to 1.0 mm at 2.04 m is 0.8 + 0.2 × 2.00 ÷ 2.04 mm thick at 2.00 m.
    agree(drawn(1)[1].expect("it is that long"), 0.996_078, 1e-6);
    assert_eq!(drawn(2), [Some(1.0), Some(0.9)]);
    assert_eq!(drawn(4)[0], None);
    agree(drawn(4)[1].expect("it ends there"), 0.9, 1e-12);
}
