//! Editing never breaks a design.

use proptest::prelude::*;
use taperwright::base::choice::Choice as _;
use taperwright::base::units::{LinearDensity, Mass};
use taperwright::braid::threads::Build;
use taperwright::braid::track::{Direction, Pattern};
use taperwright::design::machine::ReadyMade;
use taperwright::design::pin::DraftPin;
use taperwright::design::refusal::Refusal;
use taperwright::design::settings::{DIAMETER, POSITION, Setting};
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::{Along, Edit, LevelStretch, LineEnds, MoveOptions};
use taperwright::plan::Plan;

use crate::designs::{design, parsed, point, usual};
use crate::lines::{any_design, cases, usual_design};

/// A wish as a pointer may give it: far outside, undefined, anywhere.
fn wish() -> impl Strategy<Value = DraftPoint> {
    let odd = proptest::sample::select(vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        1e300,
        -1e300,
    ]);
    let number = |range: core::ops::Range<f64>| prop_oneof![1 => odd.clone(), 4 => range];
    (number(-10.0..120.0), number(-1.0..12.0))
        .prop_map(|(at_m, diameter_mm)| DraftPoint { at_m, diameter_mm })
}

/// The level stretch stays level, and each end changes alone.
const ALONE: MoveOptions = MoveOptions {
    level: LevelStretch::Stays,
    ends: LineEnds::Apart,
    along: Along::Alone,
};

/// A point more in the middle of the stretch after one.
fn behind(design: &Design, index: usize) -> Result<Design, Refusal> {
    let points = &design.draft().points;
    let before = index.min(points.len() - 2);
    let at_m = f64::midpoint(points[before].at_m, points[before + 1].at_m);
    let ends = LineEnds::Apart;
    Edit::Add { at_m, ends }.apply(design)
}

/// A point less.
fn without(design: &Design, index: usize) -> Result<Design, Refusal> {
    let ends = LineEnds::Apart;
    Edit::Remove { index, ends }.apply(design)
}

fn drawn(design: &Design) -> Mass {
    Plan::of(design)
        .sections
        .iter()
        .map(|section| section.drawn)
        .sum()
}

proptest! {
    #![proptest_config(cases(300))]

    /// Any wish gives a valid design; points keep their order, their number and their neighbours' places.
    #[test]
    fn moving_a_point_never_breaks_a_design(design in any_design(), index in 0_usize..70, wish in wish()) {
        let moved = Edit::Move { index, wish, options: ALONE }.apply(&design);
        let moved = moved.unwrap_or_else(|refusal| panic!("{wish:?}: {refusal}"));
        prop_assert_eq!(Design::parse(moved.draft().clone()), Ok(moved.clone()));
        let (before, after) = (&design.draft().points, &moved.draft().points);
        prop_assert_eq!(before.len(), after.len());
        prop_assert!(after.windows(2).all(|pair| pair[0].at_m < pair[1].at_m));
        for other in (0..before.len()).filter(|&other| other != index) {
            prop_assert_eq!(before[other].at_m, after[other].at_m);
        }
        prop_assert_eq!(after[0].at_m, 0.0);
    }

    /// A wish that is possible is granted, to the step of the grid.
    #[test]
    fn a_possible_wish_is_granted(share in 0.05_f64..0.95, diameter_mm in 0.5_f64..2.0) {
        let design = usual();
        let points = &design.draft().points;
        let at_m = points[1].at_m + share * (points[3].at_m - points[1].at_m);
        let moved = Edit::Move { index: 2, wish: point(at_m, diameter_mm), options: ALONE }.apply(&design);
        let found = moved.unwrap_or_else(|refusal| panic!("{refusal}")).draft().points[2];
        prop_assert!((found.at_m - at_m).abs() <= 0.5 / f64::from(POSITION.steps) + 1e-12);
        prop_assert!((found.diameter_mm - diameter_mm).abs() <= 0.5 / f64::from(DIAMETER.steps) + 1e-12);
    }

    /// A point added is on the curve except for the grid: half a step in size, and half a step along a slope. That
    /// bulge, at most, of the mass that depends on the diameter; μ grows with it by at most 2μ/(d − 2·film).
    #[test]
    fn adding_a_point_keeps_the_drawn_mass(design in usual_design(), pick in 0.0_f64..1.0) {
        let points = &design.draft().points;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = (pick * (points.len() - 1) as f64) as usize;
        let (a, b) = (points[index], points[index + 1]);
        let length = b.at_m - a.at_m;
        prop_assume!(length >= 0.021);
        let added = behind(&design, index);
        let added = added.unwrap_or_else(|refusal| panic!("{refusal}"));
        prop_assert_eq!(added.draft().points.len(), points.len() + 1);
        let bulge_mm = 0.5e-4 + ((b.diameter_mm - a.diameter_mm) / length).abs() * 0.5e-4;
        let thick = a.diameter_mm.max(b.diameter_mm);
        let level = parsed(crate::designs::draft(&[], &[(0.0, thick), (1.0, thick)]));
        let per_metre = drawn(&level);
        let most = per_metre * (0.5 * length * bulge_mm * 2.0 / (thick - 0.02));
        let change = (drawn(&added) - drawn(&design)).abs();
        // The thickest place grows fastest, so its rate bounds all; a billionth more for the sums' own rounding.
        prop_assert!(change <= most * 1.01 + drawn(&design) * 1e-9, "{} g of {} g", change.grams(), most.grams());
    }
}

/// A level tip stays level, a level belly too: size is given to the whole run, place only to the point.
#[test]
fn a_level_run_keeps_level() {
    let moved = Edit::Move {
        options: ALONE,
        index: 3,
        wish: point(20.0, 1.2),
    }
    .apply(&usual());
    let points = moved
        .unwrap_or_else(|refusal| panic!("{refusal}"))
        .draft()
        .points
        .clone();
    let sizes: Vec<f64> = points.iter().map(|point| point.diameter_mm).collect();
    assert_eq!(sizes, [0.76, 0.76, 1.2, 1.2, 0.76, 0.76]);
    assert_eq!(points[3].at_m, 20.0);
}

/// What cannot be done is refused, and the design given is untouched.
#[test]
fn impossible_edits_are_refused() {
    let two = design(&[], &[(0.0, 1.0), (20.0, 1.0)]);
    assert!(without(&two, 1).is_err());
    assert!(without(&usual(), 0).is_err());
    assert!(behind(&design(&[], &[(0.0, 1.0), (0.015, 1.0)]), 0).is_err());
    assert!(
        Edit::Place {
            options: ALONE,
            index: 1,
            point: point(30.0, 1.0)
        }
        .apply(&usual())
        .is_err()
    );
    let full: Vec<_> = (0..1000).map(|k| (f64::from(k) * 0.1, 1.0)).collect();
    assert!(behind(&design(&[], &full), 5).is_err());
    let fewer = without(&usual(), 1).unwrap_or_else(|refusal| panic!("{refusal}"));
    assert_eq!(fewer.draft().points.len(), usual().draft().points.len() - 1);
}

/// An undefined wish is no wish for the thickest line there is.
#[test]
fn an_undefined_wish_takes_the_lower_bound() {
    let moved = Edit::Move {
        options: ALONE,
        index: 2,
        wish: point(f64::NAN, f64::NAN),
    }
    .apply(&usual());
    let found = moved
        .unwrap_or_else(|refusal| panic!("{refusal}"))
        .draft()
        .points[2];
    assert_eq!(found.diameter_mm, DIAMETER.low);
    assert!((found.at_m - usual().draft().points[1].at_m - 0.01).abs() < 1e-9);
}

#[test]
fn a_level_stretch_bends_when_told_to() {
    let design = usual();
    let DraftPoint { at_m, diameter_mm } = design.draft().points[2];
    let wish = point(at_m, diameter_mm + 0.05);
    let bent = Edit::Move {
        index: 2,
        wish,
        options: MoveOptions {
            level: LevelStretch::Bends,
            ..ALONE
        },
    };
    let bent = bent.apply(&design).expect("a valid move");
    assert_eq!(bent.draft().points[3], design.draft().points[3]);
    assert!(bent.draft().points[2].diameter_mm > diameter_mm);
}

/// Analytic: H horn gears of S slots have H·S/2 places; the ring stays where it exists with the new slots.
#[test]
fn choosing_a_pattern_mounts_every_place_of_the_nearest_ring() {
    for (pattern, carriers) in [
        (Pattern::Hercules, 24),
        (Pattern::Diamond, 8),
        (Pattern::Regular, 16),
    ] {
        let chosen = Edit::Pattern(pattern)
            .apply(&usual())
            .expect("always a track");
        assert_eq!(chosen.setting(Setting::HornGears), 8.0);
        assert_eq!(chosen.track().carriers(), carriers);
        assert_eq!(chosen.setting(Setting::MostThreads), f64::from(carriers));
        assert_eq!(chosen.setting(Setting::FewestThreads), 8.0);
    }
    let largest = Edit::Set(Setting::HornGears, 32.0)
        .apply(&usual())
        .and_then(|design| Edit::Pattern(Pattern::Hercules).apply(&design))
        .expect("always a track");
    assert_eq!(
        largest.setting(Setting::HornGears),
        20.0,
        "60 carriers are the most of six slots"
    );
}

/// A list of places is kept as long as the ring stays, and only as long.
#[test]
fn another_ring_mounts_every_place_and_the_same_ring_keeps_them() {
    let wide = Edit::Set(Setting::HornGears, 16.0)
        .apply(&usual())
        .expect("a ring of 32 places");
    let even = (0..16).step_by(2).collect::<Vec<u32>>();
    let half = Edit::Mount(Direction::Clockwise, even.clone())
        .apply(&wide)
        .and_then(|design| Edit::Mount(Direction::CounterClockwise, even).apply(&design))
        .expect("one way after the other can be mounted in part");
    assert_eq!(half.track().carriers(), 16);
    assert_eq!(half.setting(Setting::MostThreads), 16.0);
    let same = Edit::Set(Setting::HornGears, 16.0)
        .apply(&half)
        .expect("the ring there is");
    assert_eq!(same, half);
    let other = Edit::Set(Setting::HornGears, 12.0)
        .apply(&half)
        .expect("a ring of 24 places");
    assert_eq!(other.track().carriers(), 24);
}

/// Directions at most one apart leave two more threads than twice the weaker one, less one: 2·2 + 1.
#[test]
fn a_lopsided_machine_uses_what_runs_balanced() {
    let lopsided = Edit::Mount(Direction::Clockwise, vec![0, 4])
        .apply(&usual())
        .expect("two carriers one way");
    assert_eq!(lopsided.setting(Setting::MostThreads), 5.0);
    assert_eq!(lopsided.setting(Setting::FewestThreads), 5.0);
}

/// Every ready-made machine is put on the machine as it is called, and known again.
#[test]
fn ready_made_machines_are_known_again() {
    for &ready_made in ReadyMade::ALL {
        let design = Edit::Machine(ready_made)
            .apply(&usual())
            .expect("a machine that exists");
        let found = ReadyMade::of(design.draft());
        if ready_made == ReadyMade::Other {
            assert_eq!(design, usual());
            continue;
        }
        assert_eq!(found, ready_made);
        let carriers = design.track().carriers();
        let called = ready_made
            .name()
            .split(' ')
            .next()
            .and_then(|word| word.parse().ok());
        assert_eq!(called, Some(carriers), "{}", ready_made.name());
        assert_eq!(design.setting(Setting::MostThreads), f64::from(carriers));
    }
}

/// Choosing a build that swaps gives the heavier thread more ends than the standard one.
#[test]
fn a_build_of_heavier_threads_has_a_heavier_thread() {
    let heavy = Edit::Set(Setting::HeavierEnds, 5.0)
        .apply(&usual())
        .expect("nothing is swapped yet");
    for build in [Build::HeavierThreads, Build::Both] {
        let built = Edit::Build(build).apply(&heavy).expect("a build");
        assert!(built.setting(Setting::HeavierEnds) > built.setting(Setting::EndsPerThread));
        let back = Edit::Build(Build::MoreThreads)
            .apply(&built)
            .expect("a build");
        assert_eq!(back.draft().build, Build::MoreThreads);
    }
}

/// Pins are added at the end, replace one, and are removed.
#[test]
fn pins_come_replace_and_go() {
    let pin = |threads| DraftPin::Carrier {
        threads,
        direction: Direction::Clockwise,
        number: 2,
    };
    let put = |design: &Design, threads, replaces| {
        Edit::Pin {
            pin: pin(threads),
            replaces,
        }
        .apply(design)
        .expect("a pin")
    };
    let two = put(&put(&usual(), 9, None), 11, None);
    assert_eq!(two.draft().pins, [pin(9), pin(11)]);
    assert_eq!(put(&two, 13, Some(0)).draft().pins, [pin(13), pin(11)]);
    assert_eq!(
        put(&two, 13, Some(7)).draft().pins,
        [pin(9), pin(11), pin(13)]
    );
    let one = Edit::Unpin(0).apply(&two).expect("a pin less");
    assert_eq!(one.draft().pins, [pin(11)]);
    assert_eq!(Edit::Unpin(1).apply(&one), Ok(one));
}

#[test]
fn a_label_is_set_as_a_whole() {
    let heavier = Edit::Label {
        low: 40.0,
        high: 44.0,
    };
    let design = heavier.apply(&usual()).expect("a valid label");
    assert_eq!(design.thread().end, LinearDensity::from_denier(42.0));
    assert!(
        Edit::Label {
            low: 44.0,
            high: 40.0
        }
        .apply(&usual())
        .is_err()
    );
}

#[test]
fn no_point_is_squeezed_in_where_there_is_no_room() {
    let mut draft = usual().draft().clone();
    draft.points[1].at_m = 0.015;
    let refusal = behind(&parsed(draft), 0).expect_err("no room");
    assert!(
        refusal.to_string().contains("no room for another point"),
        "{refusal}"
    );
}
