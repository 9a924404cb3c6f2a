//! A line reshaped: of the same class, it turns over as wanted as it will be braided, within the limits of a small change.
//!
//! Sources: none needed. What is offered is compared with what was there, by the plan of each.

use core::mem::discriminant;

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::braid::weight::Verdict;
use taperwright::design::demo::demo;
use taperwright::design::{Design, Draft, DraftPoint};
use taperwright::edit::ends_are_alike;
use taperwright::edit::starts::Start;
use taperwright::edit::turnover::{
    LEAST_GAIN, MOST_CHANCE_LOST, MOST_OF_THE_WAY, MOST_POINTS, MOST_RESIZED, MOST_SHIFTED,
    NoReshape, Reshaped, Wish, influences, reshape,
};
use taperwright::keep::share::file;
use taperwright::plan::{Notice, Plan};
use taperwright::turnover::{Cast, CastNumber, Surroundings, turn_over};

use crate::designs::{design, parsed, usual};
use crate::likely::likely;
use crate::lines::{any_design, cases, some_of};

const AIR: Surroundings = Surroundings::USUAL;

/// What sums of rounded numbers may be off by: far below the steps of sizes and places.
const ROUNDING: f64 = 1e-6;

fn reshaped(design: &Design, wish: Wish) -> Result<Reshaped, NoReshape> {
    reshape(design, wish, &Cast::default(), &AIR)
}

fn energy_left(plan: &Plan, cast: &Cast) -> f64 {
    let line = plan.fly_line().expect("a plan has a line");
    turn_over(&line, cast, &AIR).energy_left()
}

fn chance(plan: &Plan) -> f64 {
    let Verdict::Within(class) = plan.verdict else {
        panic!("{:?} is no class", plan.verdict);
    };
    let prediction = plan.prediction.as_ref();
    prediction.map_or(0.0, |prediction| prediction.chance_of(&class))
}

/// Nothing but points differs, each within its limits.
#[track_caller]
fn differs_little(before: &Design, after: &Design) {
    let (old, new) = (&before.draft().points, &after.draft().points);
    let but_for_points = Draft {
        points: old.clone(),
        ..after.draft().clone()
    };
    assert_eq!(&but_for_points, before.draft());
    let ends = |points: &[DraftPoint]| [points[0], points[points.len() - 1]].map(|end| end.at_m);
    assert_eq!((old.len(), ends(old)), (new.len(), ends(new)));
    for (a, b) in old.iter().zip(new) {
        let resized = (b.diameter_mm / a.diameter_mm - 1.0).abs();
        assert!(resized <= MOST_RESIZED + ROUNDING, "{a:?} {b:?}");
        let shifted = (b.at_m - a.at_m).abs();
        assert!(shifted <= MOST_SHIFTED + ROUNDING, "{a:?} {b:?}");
    }
    for (a, b) in old.windows(2).zip(new.windows(2)) {
        let stretch = |pair: &[DraftPoint]| pair[1].at_m - pair[0].at_m;
        let least = stretch(a) * (1.0 - 2.0 * MOST_OF_THE_WAY);
        assert!(stretch(b) >= least - ROUNDING, "{a:?} {b:?}");
    }
    keeps_its_shape(before, after);
}

/// What is level stays level, and what rises or falls still does. Two ends that are alike stay so.
#[track_caller]
fn keeps_its_shape(before: &Design, after: &Design) {
    let (old, new) = (&before.draft().points, &after.draft().points);
    for (a, b) in old.windows(2).zip(new.windows(2)) {
        let rise = |pair: &[DraftPoint]| pair[1].diameter_mm - pair[0].diameter_mm;
        // Up to a micrometre counts as level.
        if rise(a).abs() < 0.0011 {
            assert!(rise(b).abs() < 0.0011, "{a:?} {b:?}");
        } else {
            assert!(rise(a) * rise(b) > 0.0, "{a:?} {b:?}");
        }
    }
    assert!(!ends_are_alike(before) || ends_are_alike(after));
}

/// No kind of notice that was not there, nor more of it.
#[track_caller]
fn has_no_new_notice(before: &Plan, after: &Plan) {
    for notice in &after.notices {
        let is_alike = |other: &&Notice| discriminant(*other) == discriminant(notice);
        let [was, is] = [before, after].map(|plan| plan.notices.iter().filter(is_alike).count());
        assert!(is <= was, "{notice:?} is new");
    }
}

/// All that is promised of what is offered.
#[track_caller]
fn keeps_its_word(design: &Design, wish: Wish, found: &Reshaped, cast: &Cast) {
    let (before, after) = (Plan::of(design), Plan::of(&found.design));
    let energies = (energy_left(&before, cast), energy_left(&after, cast));
    assert_eq!(found.energy_left, energies);
    let gain = energies.1 / energies.0 - 1.0;
    match wish {
        Wish::Gentler => assert!(gain <= -LEAST_GAIN, "{gain}"),
        Wish::Farther => assert!(gain >= LEAST_GAIN, "{gain}"),
    }
    assert!(before.verdict.number().is_some());
    assert_eq!([before.verdict, found.verdict], [after.verdict; 2]);
    assert_eq!(found.chance, (chance(&before), chance(&after)));
    assert!(found.chance.1 >= found.chance.0 - MOST_CHANCE_LOST);
    differs_little(design, &found.design);
    has_no_new_notice(&before, &after);
    assert_eq!(parsed(found.design.draft().clone()), found.design);
    let text = file::write(&found.design);
    assert_eq!(file::read(&text), Ok(found.design.clone()));
}

/// How often a wish was met.
#[track_caller]
fn met(designs: &[Design], cast: &Cast) -> usize {
    let mut met = 0;
    for design in designs {
        for &wish in Wish::ALL {
            if let Ok(found) = reshape(design, wish, cast, &AIR) {
                keeps_its_word(design, wish, &found, cast);
                met += 1;
            }
        }
    }
    met
}

/// All but the level one have a class and a taper, so both wishes are met.
#[test]
fn ready_drawings_are_reshaped_both_ways() {
    let starts = Start::ALL.iter().filter(|&&start| start != Start::Level);
    let mut designs: Vec<Design> = starts.map(|start| start.design()).collect();
    designs.extend([demo(), usual()]);
    assert_eq!(met(&designs, &Cast::default()), 2 * designs.len());
}

/// A maker's line for the usual workshop: tip, front taper with up to two points in it, belly, and often a rear taper.
fn makers_line() -> impl Strategy<Value = Design> {
    let sizes = (0.76..0.92_f64, 0.96..1.075_f64);
    let lengths = (0.05..1.0_f64, 0.5..6.0_f64, 4.0..16.0_f64);
    let inner = proptest::collection::vec((0.2..0.8_f64, -0.03..0.03_f64), 0..=2);
    let rear = proptest::option::of((0.5..4.0_f64, 0.76..0.9_f64, 0.1..12.0_f64));
    (sizes, lengths, inner, rear).prop_map(|(sizes, lengths, inner, rear)| {
        let ((tip, belly), (level, front, long)) = (sizes, lengths);
        let mut points = vec![(0.0, tip), (level, tip)];
        let mut shares = inner;
        shares.sort_by(|a, b| a.0.total_cmp(&b.0));
        shares.dedup_by(|a, b| a.0 - b.0 < 0.1);
        for (share, aside) in shares {
            points.push((level + front * share, tip + (belly - tip) * share + aside));
        }
        points.extend([(level + front, belly), (level + front + long, belly)]);
        if let Some((rear, size, level)) = rear {
            let end = points[points.len() - 1].0 + rear;
            points.extend([(end, size), (end + level, size)]);
        }
        design(&[], &points)
    })
}

/// Of random lines of a maker's that have a class, most can be reshaped either way; each that is offered keeps its word, in any cast.
#[test]
fn random_lines_are_reshaped() {
    let lines = some_of(&makers_line(), 60);
    let has_class = |design: &&Design| Plan::of(design).verdict.number().is_some();
    let lines: Vec<Design> = lines.iter().filter(has_class).cloned().collect();
    assert!(lines.len() > 10, "only {} have a class", lines.len());
    let long = Cast::default().with(CastNumber::Outside, 14.0);
    let fast = Cast::default().with(CastNumber::Speed, 25.0);
    for cast in [Ok(Cast::default()), long, fast] {
        let cast = cast.expect("it is within its range");
        let met = met(&lines, &cast);
        assert!(met > lines.len(), "{met} of {} twice", lines.len());
    }
}

/// Farther and then gentler is gentler than farther was; what is gentler twice is gentler than once.
#[test]
fn wishes_follow_each_other() {
    for design in [demo(), Start::DoubleTaper.design()] {
        let once = |design: &Design, wish: Wish| reshaped(design, wish).expect("it is met");
        let farther = once(&design, Wish::Farther);
        let back = once(&farther.design, Wish::Gentler);
        assert_eq!(back.energy_left.0, farther.energy_left.1);
        assert!(back.energy_left.1 < farther.energy_left.1);
        let mut gentle = once(&design, Wish::Gentler);
        let mut times = 1;
        while let Ok(next) = reshaped(&gentle.design, Wish::Gentler) {
            assert!(next.energy_left.1 < gentle.energy_left.1);
            assert_eq!(next.verdict, gentle.verdict);
            gentle = next;
            times += 1;
            assert!(times < 100, "it never ends");
        }
    }
}

/// A line shorter than its head, one between two classes, one with too many points, a level one, and one whose tip is as thin as its
/// threads allow.
#[test]
fn where_nothing_can_be_offered_it_is_said() {
    let says = |design: &Design, part: &str| {
        for &wish in Wish::ALL {
            let refusal = reshaped(design, wish).expect_err("it is refused");
            assert!(refusal.to_string().contains(part), "{refusal}");
        }
    };
    says(
        &design(&[], &[(0.0, 0.8), (5.0, 1.0)]),
        "Draw it longer first",
    );
    let mut sizes =
        (0..60).map(|step| design(&[], &[(0.0, 0.76), (10.0, 0.9 + f64::from(step) * 0.003)]));
    let is_between = |design: &Design| matches!(Plan::of(design).verdict, Verdict::Between(..));
    let between = sizes.find(is_between).expect("one is between two classes");
    says(&between, "Bring it to a class first");
    says(&Start::Level.design(), "Draw a taper at the tip first");
    let mut many = demo().draft().clone();
    let last = many.points.pop().expect("it has points");
    let at = |share: f64| last.at_m * share;
    many.points = (0..=MOST_POINTS)
        .map(|index| DraftPoint {
            at_m: at(index as f64 / MOST_POINTS as f64),
            diameter_mm: if index == 0 { 0.825 } else { 1.06 },
        })
        .collect();
    let many = parsed(many);
    assert!(Plan::of(&many).verdict.number().is_some());
    says(&many, "Remove some");
}

/// Where all is done and the tip has as few threads as are allowed, that is named.
#[test]
fn a_tip_of_the_fewest_threads_is_named() {
    let mut design = demo();
    assert_eq!(Plan::of(&design).layout.first, 0);
    while let Ok(next) = reshaped(&design, Wish::Gentler) {
        design = next.design;
    }
    assert_eq!(
        reshaped(&design, Wish::Gentler),
        Err(NoReshape::FewestThreads)
    );
}

proptest! {
    #![proptest_config(cases(60))]

    /// Whatever the line, machine, yarn and pins: nothing panics, and what is offered keeps its word.
    #[test]
    fn any_design_may_be_asked(design in prop_oneof![any_design(), likely()]) {
        let cast = Cast::default();
        let count = design.draft().points.len();
        let influences = influences(&design, &cast, &AIR);
        prop_assert_eq!(influences.len(), if count > MOST_POINTS { 0 } else { count });
        for influence in influences {
            prop_assert!(influence.size.energy_left.is_finite());
            prop_assert!(influence.place.is_none_or(|place| place.energy_left.is_finite()));
        }
        for &wish in Wish::ALL {
            match reshape(&design, wish, &cast, &AIR) {
                Ok(found) => keeps_its_word(&design, wish, &found, &cast),
                Err(refusal) => prop_assert!(refusal.to_string().ends_with('.')),
            }
        }
    }
}
