//! What moves along when a point is moved, and what does not. Analytic: lengths of stretches add up.

use proptest::prelude::*;
use taperwright::base::units::Length;
use taperwright::base::units::show::Units;
use taperwright::design::settings::POSITION;
use taperwright::design::{Design, DraftPoint};
use taperwright::edit::snap::{GuideKind, Snap, round_length, thread_beside};
use taperwright::edit::{
    Along, Edit, LevelStretch, LineEnds, MoveLimit, MoveOptions, ends_are_alike,
};
use taperwright::plan::Plan;

use crate::designs::{design, point, usual};
use crate::lines::{any_design, cases};

/// Half a step of the grid of positions, in metres.
const HALF_STEP: f64 = 0.000_05;

/// The design after a move, and what held that back.
fn held(
    design: &Design,
    index: usize,
    wish: DraftPoint,
    options: MoveOptions,
) -> (Design, Option<MoveLimit>) {
    let moved = taperwright::edit::moved(design, index, wish, options);
    moved.expect("a move is held back, not refused")
}

fn lengths(design: &Design) -> Vec<f64> {
    let points = &design.draft().points;
    points
        .windows(2)
        .map(|pair| pair[1].at_m - pair[0].at_m)
        .collect()
}

fn is_near(a: f64, b: f64) -> bool {
    (a - b).abs() < HALF_STEP
}

/// A drawing that is its own mirror image: half the stretches and sizes drawn, the rest reflected.
fn alike() -> impl Strategy<Value = Design> {
    let half = proptest::collection::vec((100_u32..30_000, 2_000_u32..20_000), 1..5);
    (half, any::<bool>(), 2_000_u32..20_000).prop_map(|(half, has_middle, middle)| {
        let mut sizes: Vec<u32> = half.iter().map(|half| half.1).collect();
        let mut stretches: Vec<u32> = half.iter().map(|half| half.0).collect();
        let back_sizes: Vec<u32> = sizes.iter().rev().copied().collect();
        if has_middle {
            let back: Vec<u32> = stretches.iter().rev().copied().collect();
            sizes.push(middle);
            stretches.extend(back);
        } else {
            let back: Vec<u32> = stretches[..stretches.len() - 1]
                .iter()
                .rev()
                .copied()
                .collect();
            stretches.extend(back);
        }
        sizes.extend(back_sizes);
        let mut at = 0;
        let mut points = vec![(0.0, f64::from(sizes[0]) / 1e4)];
        for (stretch, size) in stretches.iter().zip(&sizes[1..]) {
            at += stretch;
            points.push((POSITION.value(at), f64::from(*size) / 1e4));
        }
        design(&[], &points)
    })
}

fn moved(design: &Design, index: usize, wish: DraftPoint, along: Along, ends: LineEnds) -> Design {
    let options = MoveOptions {
        level: LevelStretch::Stays,
        ends,
        along,
    };
    let edit = Edit::Move {
        index,
        wish,
        options,
    };
    edit.apply(design)
        .expect("a move is held back, never refused")
}

fn any_along() -> impl Strategy<Value = Along> {
    proptest::sample::select(vec![Along::Alone, Along::Stretch, Along::AllAfter])
}

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn ends_alike_stay_alike(
        design in alike(), pick in 0_usize..40, along in any_along(), at in 0.0..60.0_f64, size in 0.2..2.0_f64,
    ) {
        prop_assert!(ends_are_alike(&design));
        let index = pick % design.draft().points.len();
        let after = moved(&design, index, point(at, size), along, LineEnds::Alike);
        prop_assert!(ends_are_alike(&after), "{:?}", after.draft().points);
        let last = after.draft().points.len() - 1;
        let points = &after.draft().points;
        prop_assert_eq!(points[index].diameter_mm, points[last - index].diameter_mm);
    }

    /// A point that no neighbour, end or symmetry limits goes to the place asked for.
    #[test]
    fn what_is_not_held_arrives(
        design in any_design(), pick in 0_usize..40, along in any_along(), at in 0.0..90.0_f64, size in 0.2..2.0_f64,
    ) {
        let index = pick % design.draft().points.len();
        let wish = point(at, size);
        let options = MoveOptions { level: LevelStretch::Stays, ends: LineEnds::Apart, along };
        let after = moved(&design, index, wish, along, LineEnds::Apart);
        let found = after.draft().points[index];
        let arrived = is_near(found.at_m, at) && (found.diameter_mm - size).abs() < 1e-4;
        let (same, limit) = held(&design, index, wish, options);
        prop_assert_eq!(limit.is_none(), arrived);
        prop_assert_eq!(same, after);
    }

    #[test]
    fn a_stretch_is_moved_whole(design in any_design(), pick in 0_usize..40, at in 0.0..90.0_f64) {
        let (before, count) = (lengths(&design), design.draft().points.len());
        let index = 1 + pick % (count - 1);
        let wish = point(at, design.draft().points[index].diameter_mm);
        let after = lengths(&moved(&design, index, wish, Along::Stretch, LineEnds::Apart));
        for (k, (a, b)) in before.iter().zip(&after).enumerate() {
            prop_assert!(is_near(*a, *b) || k + 1 == index || k == index + 1, "{k} of {index}");
        }
        let grown: f64 = after.iter().sum::<f64>() - before.iter().sum::<f64>();
        prop_assert!(is_near(grown, 0.0) || index + 2 >= count);
    }

    #[test]
    fn all_behind_goes_along(design in any_design(), pick in 0_usize..40, at in 0.0..90.0_f64) {
        let before = lengths(&design);
        let index = 1 + pick % before.len();
        let wish = point(at, design.draft().points[index].diameter_mm);
        let after = lengths(&moved(&design, index, wish, Along::AllAfter, LineEnds::Apart));
        for (k, (a, b)) in before.iter().zip(&after).enumerate() {
            prop_assert!(is_near(*a, *b) || k + 1 == index, "{k} of {index}");
        }
    }

    /// A part gets exactly the length asked for; its own proportions, and every stretch beyond it, are kept.
    #[test]
    fn a_part_lengthened_keeps_its_proportions(
        design in any_design(), a in 0_usize..40, b in 0_usize..40, times in 0.3..2.0_f64,
    ) {
        let before = lengths(&design);
        let first = a % before.len();
        let last = first + 1 + b % (before.len() - first);
        let part: f64 = before[first..last].iter().sum();
        let length_m = POSITION.value(POSITION.quanta(part * times));
        let edit = Edit::Lengthen { first, last, length_m, ends: LineEnds::Apart };
        // Refused only where the line or a stretch would leave its range.
        let Ok(longer) = edit.apply(&design) else {
            let whole: f64 = before.iter().sum();
            let shortest = before[first..last].iter().copied().fold(f64::INFINITY, f64::min);
            prop_assert!(whole + length_m - part > 100.0 - HALF_STEP || shortest * times < 0.010_2);
            return Ok(());
        };
        let after = lengths(&longer);
        prop_assert!(is_near(after[first..last].iter().sum(), length_m));
        for (k, (old, new)) in before.iter().zip(&after).enumerate() {
            if (first..last).contains(&k) {
                prop_assert!((new - old * length_m / part).abs() <= 2.0 * HALF_STEP + 1e-9);
            } else {
                prop_assert!(is_near(*old, *new));
            }
        }
    }
}

/// Both tapers of a double taper get longer, level ends and belly stay as they are, the line grows by twice as much.
#[test]
fn a_taper_lengthened_at_one_end_is_lengthened_at_the_other() {
    let before = lengths(&usual());
    let edit = Edit::Lengthen {
        first: 1,
        last: 2,
        length_m: before[1] + 1.0,
        ends: LineEnds::Alike,
    };
    let after = lengths(&edit.apply(&usual()).expect("a longer taper"));
    let grown: Vec<f64> = before.iter().zip(&after).map(|(a, b)| b - a).collect();
    for (found, wanted) in grown.iter().zip([0.0, 1.0, 0.0, 1.0, 0.0]) {
        assert!(is_near(*found, wanted), "{grown:?}");
    }
}

#[test]
fn a_point_added_or_taken_away_at_one_end_is_so_at_the_other() {
    let ends = LineEnds::Alike;
    let more = Edit::Add { at_m: 1.5, ends }.apply(&usual()).expect("room");
    assert_eq!(more.draft().points.len(), usual().draft().points.len() + 2);
    assert!(ends_are_alike(&more));
    // Where there is no room for two there is one, in the middle.
    let middle = usual().draft().points[5].at_m / 2.0;
    let at_m = middle + 0.004;
    let one = Edit::Add { at_m, ends }.apply(&usual()).expect("room");
    assert_eq!(one.draft().points.len(), usual().draft().points.len() + 1);
    assert!(ends_are_alike(&one));
    let fewer = Edit::Remove { index: 2, ends }
        .apply(&more)
        .expect("enough left");
    assert_eq!(fewer, usual());
}

#[test]
fn what_holds_a_point_back_is_said() {
    let held_by = |index, at, size, ends| {
        let options = MoveOptions {
            ends,
            ..MoveOptions::default()
        };
        held(&usual(), index, point(at, size), options).1
    };
    let [size, middle] = [1.075, 11.0];
    assert_eq!(held_by(2, 3.0, size, LineEnds::Apart), None);
    assert_eq!(held_by(0, 1.0, size, LineEnds::Apart), Some(MoveLimit::Tip));
    assert_eq!(
        held_by(2, 90.0, size, LineEnds::Apart),
        Some(MoveLimit::Stretch(2))
    );
    assert_eq!(
        held_by(2, 0.0, size, LineEnds::Apart),
        Some(MoveLimit::Stretch(1))
    );
    assert_eq!(
        held_by(5, 190.0, size, LineEnds::Apart),
        Some(MoveLimit::LongestLine)
    );
    assert_eq!(
        held_by(2, 3.0, 0.0, LineEnds::Apart),
        Some(MoveLimit::Thinnest)
    );
    assert_eq!(
        held_by(2, 3.0, f64::NAN, LineEnds::Apart),
        Some(MoveLimit::Thinnest)
    );
    assert_eq!(
        held_by(2, 3.0, 11.0, LineEnds::Apart),
        Some(MoveLimit::Thickest)
    );
    // The ends meet in the middle of the belly.
    assert_eq!(
        held_by(2, 20.0, size, LineEnds::Alike),
        Some(MoveLimit::Stretch(2))
    );
    let odd = design(&[], &[(0.0, 0.8), (middle, 1.0), (2.0 * middle, 0.8)]);
    let options = MoveOptions::default();
    assert_eq!(
        held(&odd, 1, point(5.0, 1.0), options).1,
        Some(MoveLimit::Middle)
    );
    let typed = Edit::Place {
        index: 1,
        point: point(5.0, 1.0),
        options,
    };
    let refusal = typed.apply(&odd).expect_err("the middle stays");
    assert!(
        refusal.to_string().contains("stays in the middle"),
        "{refusal}"
    );
}

/// A level line of a size that whole threads make is made as drawn, with just those threads.
#[test]
fn a_size_of_whole_threads_is_made_as_drawn() {
    let snap = Snap {
        threads: true,
        ..Snap::default()
    };
    let guides = snap.guides(&usual());
    assert_eq!(guides.len(), 9, "8 to 16 threads");
    for (guide, threads) in guides.iter().zip(8..) {
        assert!(matches!(guide.kind, GuideKind::Threads(level) if level.threads == threads));
        let size = guide.diameter.millimetres();
        let plan = Plan::of(&design(&[], &[(0.0, size), (20.0, size)]));
        assert_eq!(plan.belly.piece.load.threads, threads);
        let (made, drawn) = (plan.head_mass, plan.head_drawn);
        let off = made.zip(drawn).map(|(made, drawn)| made / drawn - 1.0);
        // Gears come in whole teeth: half a tooth of some twenty is 2.5 % of lay, and at 45° mass follows some two thirds
        // of that. A thread less would be 6 % and more.
        assert!(
            off.is_some_and(|off| off.abs() < 0.02),
            "{threads} threads: {off:?}"
        );
    }
}

#[test]
fn one_press_is_one_thread() {
    let snap = Snap {
        threads: true,
        ..Snap::default()
    };
    let sizes: Vec<Length> = snap
        .guides(&usual())
        .iter()
        .map(|guide| guide.diameter)
        .collect();
    for pair in sizes.windows(2) {
        assert_eq!(thread_beside(&usual(), pair[0], true), pair[1]);
        assert_eq!(thread_beside(&usual(), pair[1], false), pair[0]);
        // A size that is drawn a little off counts as the threads it will be made with.
        let (thinner, thicker) = (pair[0] * 0.99, pair[1] * 1.01);
        assert_eq!(thread_beside(&usual(), thinner, true), pair[1]);
        assert_eq!(thread_beside(&usual(), thicker, false), pair[0]);
    }
    // Beyond the most threads it continues in the same steps.
    assert!(thread_beside(&usual(), sizes[8], true) > sizes[8]);
    assert!(thread_beside(&usual(), sizes[0], false) < sizes[0]);
}

/// A foot is 304.8 mm by definition (international yard and pound agreement, 1959); F is .035 in in the tables named in
/// `letters.rs`.
#[test]
fn wishes_are_drawn_to_letters_and_round_lengths() {
    let snap = Snap {
        letters: true,
        lengths: true,
        ..Snap::default()
    };
    let guides = snap.guides(&usual());
    let pulled = |at, size, units| snap.pull(point(at, size), point(0.0, 1.0), &guides, units);
    let metric = pulled(3.227, 0.9, Units::Metric);
    assert!((metric.at_m - 3.25).abs() < 1e-12 && (metric.diameter_mm - 0.889).abs() < 1e-12);
    let imperial = pulled(3.0, 0.9, Units::Imperial);
    assert!((imperial.at_m - 9.75 * 0.3048).abs() < 1e-12);
    assert!((round_length(Units::Imperial).metres() - 0.0762).abs() < 1e-12);
    let free = Snap::default().pull(point(3.227, 0.9), point(0.0, 1.0), &[], Units::Metric);
    assert_eq!(free, point(3.227, 0.9));
    // What the hand leaves as it was stays, also where it is neither a letter nor round.
    let kept = |from| snap.pull(point(3.227, 0.9), from, &guides, Units::Metric);
    assert!((kept(point(3.0, 0.9)).diameter_mm - 0.9).abs() < 1e-12);
    assert!((kept(point(3.227, 1.0)).at_m - 3.227).abs() < 1e-12);
}
