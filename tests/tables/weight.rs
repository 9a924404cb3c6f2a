//! Line weight: classes, and mass between places.

use taperwright::base::units::{Length, Mass};
use taperwright::braid::stretch::Stretch;
use taperwright::braid::track::Direction;
use taperwright::braid::weight::two_handed::{KINDS, TARGETS};
use taperwright::braid::weight::{CLASSES, Verdict};
use taperwright::design::Design;
use taperwright::design::settings::Setting;
use taperwright::paper::figures::{two_handed_words, verdict_title, verdict_words};
use taperwright::plan::Plan;

use crate::FOOT;
use crate::designs::{design, usual};
use crate::row::agree;

/// AFFTA (formerly AFTMA) fly line weight standard: class, lowest, target and highest grains of the first 30 ft.
const STANDARD: [(u8, f64, f64, f64); 15] = [
    (1, 54.0, 60.0, 66.0),
    (2, 74.0, 80.0, 86.0),
    (3, 94.0, 100.0, 106.0),
    (4, 114.0, 120.0, 126.0),
    (5, 134.0, 140.0, 146.0),
    (6, 152.0, 160.0, 168.0),
    (7, 177.0, 185.0, 193.0),
    (8, 202.0, 210.0, 218.0),
    (9, 230.0, 240.0, 250.0),
    (10, 270.0, 280.0, 290.0),
    (11, 318.0, 330.0, 342.0),
    (12, 368.0, 380.0, 392.0),
    (13, 435.0, 450.0, 465.0),
    (14, 485.0, 500.0, 515.0),
    (15, 535.0, 550.0, 565.0),
];

fn verdict(grains: f64) -> Verdict {
    Verdict::of(Mass::from_grains(grains))
}

#[test]
fn the_classes_are_those_of_the_standard() {
    let ours = CLASSES.map(|class| (class.number, class.low, class.target, class.high));
    assert_eq!(ours, STANDARD);
}

#[test]
fn a_band_holds_its_own_ends() {
    for (number, low, target, high) in STANDARD {
        for grains in [low, target, high] {
            assert_eq!(verdict(grains).number(), Some(number), "{grains} gr");
        }
    }
}

#[test]
fn between_the_bands_lie_gaps() {
    for pair in STANDARD.windows(2) {
        let ((below, .., high), (above, low, ..)) = (pair[0], pair[1]);
        for grains in [high + 0.01, f64::midpoint(high, low), low - 0.01] {
            assert_eq!(
                verdict_title(&verdict(grains)),
                format!("Between {below} and {above}"),
                "{grains} gr"
            );
            assert_eq!(verdict(grains).number(), None);
        }
    }
    assert_eq!(verdict_title(&verdict(130.0)), "Between 4 and 5");
}

#[test]
fn beyond_the_table_there_is_no_class() {
    for grains in [0.0, 20.0, 53.99] {
        let light = verdict(grains);
        assert!(
            matches!(light, Verdict::UnderFirst(_)),
            "{grains} gr: {light:?}"
        );
        assert_eq!(light.number(), None);
        assert_eq!(verdict_title(&light), "Lighter than class 1");
        let words = format!("Lighter than class 1, {grains:.1}\u{202f}gr");
        assert_eq!(verdict_words(&light), words);
    }
    for grains in [565.01, 600.0, 1e6] {
        let heavy = verdict(grains);
        assert!(
            matches!(heavy, Verdict::OverLast(_)),
            "{grains} gr: {heavy:?}"
        );
        assert_eq!(heavy.number(), None);
        assert_eq!(verdict_title(&heavy), "Heavier than class 15");
        let words = format!("Heavier than class 15, {grains:.1}\u{202f}gr");
        assert_eq!(verdict_words(&heavy), words);
    }
}

/// A design whose finished line is bare silk at the target angle: mass per length is ρφ·πd²/4 and nothing else.
fn bare(points: &[(f64, f64)]) -> Design {
    let nothing = [
        Setting::OilFill,
        Setting::VarnishFill,
        Setting::Film,
        Setting::Grease,
    ];
    design(&nothing.map(|setting| (setting, 0.0)), points)
}

/// Diameter in mm of bare silk, 1.34 g/cm³ at a fibre fraction of 0.55, of so many grams per metre.
fn bare_diameter(grams_per_metre: f64) -> f64 {
    (grams_per_metre / (core::f64::consts::FRAC_PI_4 * 1.34 * 0.55)).sqrt()
}

/// Analytic, by the volume of a truncated cone, π/12·ℓ(d₁² + d₁d₂ + d₂²): class 5 at 140 gr with a front taper of
/// 10 ft linear in diameter, tip 0.60 of the belly, no level tip: belly 1.1217 g/m, tip 0.4038 g/m. The drawing is
/// rounded to 0.1 µm, which is worth 0.02 gr.
#[test]
fn a_ten_foot_taper_weighs_its_cone() {
    let belly = bare_diameter(1.1217);
    let tip = 0.60 * belly;
    let plan = Plan::of(&bare(&[
        (0.0, tip),
        (10.0 * FOOT, belly),
        (90.0 * FOOT, belly),
    ]));
    let drawn = plan.head_drawn.expect("90 ft hold a head").grains();
    assert!((drawn - 140.0).abs() < 0.025, "{drawn} gr");
    assert_eq!(plan.head.from.metres(), 0.0);
    let front = plan.sections[0].drawn.grams();
    let cone = 10.0 * FOOT / 3.0 * (0.4038 + (0.4038_f64 * 1.1217).sqrt() + 1.1217);
    agree(front, cone, 3e-4);
}

/// The standard weighs from the end of the level tip; that at most 6 in are left out is from memory.
#[test]
fn the_head_begins_behind_the_level_tip() {
    for (tip_feet, left_out_feet) in [(0.25, 0.25), (0.5, 0.5), (0.75, 0.5), (3.0, 0.5)] {
        let plan = Plan::of(&bare(&[
            (0.0, 0.8),
            (tip_feet * FOOT, 0.8),
            (10.0 * FOOT, 1.1),
            (90.0 * FOOT, 1.1),
        ]));
        agree(plan.head.from.feet(), left_out_feet, 1e-9);
        agree((plan.head.to - plan.head.from).metres(), 9.144, 1e-12);
    }
    let level = Plan::of(&bare(&[(0.0, 1.0), (20.0, 1.0)]));
    assert_eq!(level.head.from.metres(), 0.0);
}

/// The standard again: a line shorter than its head has no class, and the plan says what is missing.
#[test]
fn nothing_shorter_than_thirty_feet_has_a_class() {
    let plan = Plan::of(&bare(&[(0.0, 0.8), (0.5 * FOOT, 0.8), (30.0 * FOOT, 1.1)]));
    let Verdict::Missing(missing) = plan.verdict else {
        panic!("a short line was given {:?}", plan.verdict);
    };
    assert!((missing.feet() - 0.5).abs() < 1e-3);
    assert_eq!((plan.head_mass, plan.head_drawn), (None, None));
    let plan = Plan::of(&bare(&[(0.0, 0.8), (0.5 * FOOT, 0.8), (30.5 * FOOT, 1.1)]));
    assert!(plan.head_mass.is_some());
}

/// A numeric sum in steps of at most 0.1 mm, worked out here from thread counts and angles alone.
fn thread_over(stretch: &Stretch) -> f64 {
    let (from, length) = (stretch.from(), stretch.length());
    let steps = (length.metres() / 1e-4).ceil();
    let middles = core::iter::successors(Some(0.5), |at| Some(at + 1.0));
    let places = middles.take_while(|&at| at < steps);
    let take_up = |at: f64| {
        let angle = stretch.angle_at(from + length * (at / steps));
        1.02 / angle.radians().cos()
    };
    places.map(take_up).sum::<f64>() * length.metres() / steps
}

/// By that sum: thread on a carrier = ∫(1 + c)/cos α dx where it is engaged, 50 mm of tail for each time it goes out,
/// 300 mm of lead-in for those that begin, and the allowance for each time one comes in.
#[test]
fn bobbins_hold_the_integral_of_their_carrier() {
    let plan = Plan::of(&usual());
    let stretches = plan.line.stretches();
    let braided: Vec<f64> = stretches.iter().map(thread_over).collect();
    let lead_in = 0.3 * 1.02 / stretches[0].angle_at(Length::ZERO).radians().cos();
    for (rank, bobbin) in (0_u32..).zip(&plan.bobbins) {
        let (mut length, mut engagements, mut was_in) = (0.0, 0_u32, false);
        for (stretch, braided) in stretches.iter().zip(&braided) {
            let is_in = stretch.piece.load.threads > rank;
            let from = stretch.from().metres();
            let begins = is_in && from == 0.0;
            engagements += u32::from(is_in && !was_in);
            length += f64::from(u8::from(is_in)) * braided;
            length += f64::from(u8::from(begins)) * lead_in;
            if was_in && !is_in {
                length += f64::min(0.05, plan.length.metres() - from);
            }
            was_in = is_in;
        }
        assert_eq!(bobbin.engagements, engagements, "{}", bobbin.carrier);
        let wanted = length + 0.8 * f64::from(engagements);
        agree(bobbin.length.metres(), wanted, 1e-6);
        agree(
            bobbin.mass.grams(),
            bobbin.length.metres() * 12.0 * 21.0 / 9000.0,
            1e-12,
        );
    }
    let each_way = |direction| {
        plan.bobbins
            .iter()
            .filter(|b| b.carrier.direction == direction)
            .count()
    };
    assert_eq!(
        (
            each_way(Direction::Clockwise),
            each_way(Direction::CounterClockwise)
        ),
        (8, 8)
    );
}

/// A line of exactly its level tip and 30 ft has a class, whatever the last bits of its numbers: tips in the steps in
/// which a position can be drawn.
#[test]
fn thirty_feet_behind_any_tip_are_enough() {
    for tenths in 127..=1524_u32 {
        let tip = f64::from(tenths) / 1e4;
        let line = design(&[], &[(0.0, 0.8), (tip, 0.8), (tip + 9.144, 1.0)]);
        assert!(Plan::of(&line).head_mass.is_some(), "a tip of {tip} m");
    }
    let short = design(&[], &[(0.0, 0.8), (0.1, 0.8), (0.1 + 9.1439, 1.0)]);
    assert!(Plan::of(&short).head_mass.is_none());
}

/// AFFTA fly line weight standard, two-handed lines: grains to 40, 55, 65 and 80 ft. In every row the short belly is 170 over
/// the shooting head, the mid belly 40 over that and the long belly 140 more.
#[test]
fn two_handed_targets_are_those_of_the_standard() {
    let heads = [250.0, 300.0, 360.0, 430.0, 510.0, 600.0, 700.0];
    assert_eq!(TARGETS.len(), heads.len());
    for ((number, targets), (class, head)) in TARGETS.into_iter().zip((6_u8..).zip(heads)) {
        assert_eq!((number, targets[0]), (class, head));
        let steps: Vec<f64> = targets.windows(2).map(|pair| pair[1] - pair[0]).collect();
        assert_eq!(steps, [170.0, 40.0, 140.0], "class {number}");
    }
    assert_eq!(KINDS.map(|kind| kind.feet), [40.0, 55.0, 65.0, 80.0]);
}

/// Analytic: a level line of bare silk of 1 g/m weighs 12.192 g, 188.2 gr, to 40 ft and so on; a line of 60 ft has no 65 ft.
#[test]
fn a_level_line_is_weighed_to_each_length_it_has() {
    let diameter = bare_diameter(1.0);
    let plan = Plan::of(&bare(&[(0.0, diameter), (60.0 * FOOT, diameter)]));
    let per_metre = plan.line.bare_mass(Length::ZERO, plan.length) / plan.length.metres();
    assert_eq!(plan.two_handed.len(), 2);
    // 225 gr and less is more than half a step below class 6 with 250.
    let words: Vec<String> = plan.two_handed.iter().map(two_handed_words).collect();
    assert_eq!(words, ["lighter than class 6", "lighter than class 6"]);
    for weighed in &plan.two_handed {
        let known = per_metre.grains() * weighed.kind.feet * FOOT;
        assert!((weighed.mass.grains() / known - 1.0).abs() < 1e-9);
        assert!((weighed.off() - (known / weighed.target.grains() - 1.0)).abs() < 1e-9);
    }
}
