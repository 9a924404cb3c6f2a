//! The drawings of words show what their notes say. All of this is analytic: proportions of the drawings themselves.

use taperwright::paper::chart::term_pictures::{Ink, SIZE, TermLayer, TermPicture};
use taperwright::paper::terms::Term;

use crate::near;
use crate::outline::{Point, any_holds, pieces};

const ALL: [TermPicture; 17] = [
    TermPicture::End,
    TermPicture::Thread,
    TermPicture::Angle,
    TermPicture::Lay,
    TermPicture::Float,
    TermPicture::Crossing,
    TermPicture::Rib,
    TermPicture::Cover,
    TermPicture::HornGear,
    TermPicture::Carrier,
    TermPicture::Gap,
    TermPicture::TakeOff,
    TermPicture::Lag,
    TermPicture::Level,
    TermPicture::Taper,
    TermPicture::Belly,
    TermPicture::RunningLine,
];

fn of(picture: TermPicture, ink: Ink) -> Vec<Vec<Point>> {
    let layers = picture.layers();
    let drawn = |layer: &TermLayer| pieces(&layer.path);
    let found = layers.iter().filter(|layer| layer.ink == ink);
    found.flat_map(drawn).collect()
}

fn middle(piece: &[Point]) -> Point {
    let count = piece.len() as f64;
    let sum = piece
        .iter()
        .fold((0.0, 0.0), |sum, point| (sum.0 + point.0, sum.1 + point.1));
    (sum.0 / count, sum.1 / count)
}

fn width(pieces: &[Vec<Point>]) -> (f64, f64) {
    let all = pieces.iter().flatten().map(|point| point.0);
    all.fold((f64::MAX, f64::MIN), |(low, high), x| {
        (low.min(x), high.max(x))
    })
}

/// The level piece of a dimension line: the only one that is level and not alone on its height.
fn dimension(picture: TermPicture) -> f64 {
    let lines = of(picture, Ink::Line);
    let level = lines.iter().find(|line| {
        let is_level = line.len() == 2 && line[0].1 == line[1].1;
        let ticks = lines
            .iter()
            .filter(|tick| tick.len() == 2 && tick[0].0 == tick[1].0);
        is_level && ticks.count() == 2
    });
    let level = level.expect("a dimension line");
    level[1].0 - level[0].0
}

#[test]
fn every_drawing_is_used_and_stays_on_its_paper() {
    for picture in ALL {
        let is_used = Term::ALL.iter().any(|term| term.picture() == Some(picture));
        assert!(is_used, "{picture:?} belongs to no word");
        let layers = picture.layers();
        assert!(!layers.is_empty());
        for layer in layers {
            let drawn = pieces(&layer.path);
            assert!(!drawn.is_empty(), "{picture:?}: {:?} is empty", layer.ink);
            for (x, y) in drawn.into_iter().flatten() {
                let is_inside =
                    (2.0..=SIZE.0 - 2.0).contains(&x) && (2.0..=SIZE.1 - 2.0).contains(&y);
                assert!(is_inside, "{picture:?}: {x}, {y}");
            }
        }
    }
}

#[test]
fn words_with_the_same_drawing_are_few() {
    let alike = Term::ALL.iter().filter(|term| {
        let same = |other: &&Term| other.picture().is_some() && other.picture() == term.picture();
        Term::ALL.iter().filter(same).count() > 1
    });
    assert!(alike.count() <= 2, "only thread and ply share one");
}

#[test]
fn the_dimension_of_the_lay_is_one_turn() {
    // In front the thread runs from one edge to the other in half a turn.
    let fronts = of(TermPicture::Lay, Ink::Strong);
    assert_eq!(fronts.len(), 2);
    let (first, next) = (fronts[0][0], fronts[1][0]);
    near(first.1, next.1, 0.11);
    near(next.0 - first.0, dimension(TermPicture::Lay), 0.11);
    let half = fronts[0].last().expect("a thread has an end").0 - first.0;
    near(2.0 * half, dimension(TermPicture::Lay), 0.11);
}

#[test]
fn the_arc_spans_the_angle_between_axis_and_thread() {
    let thread = &of(TermPicture::Angle, Ink::Strong)[0];
    let axis = &of(TermPicture::Angle, Ink::Soft)[0];
    let slope = (thread[0].1 - thread[1].1) / (thread[1].0 - thread[0].0);
    let arc = &of(TermPicture::Angle, Ink::Line)[0];
    let (from, to) = (arc[0], arc[arc.len() - 1]);
    near(from.1, axis[0].1, 0.11);
    near(to.1, thread[0].1 - slope * (to.0 - thread[0].0), 0.2);
}

#[test]
fn the_float_is_above_three_others_in_a_row() {
    let (left, right) = width(&of(TermPicture::Float, Ink::Strong));
    near(right - left, dimension(TermPicture::Float), 0.11);
    let others: Vec<_> = of(TermPicture::Float, Ink::Body)
        .iter()
        .map(|one| middle(one))
        .collect();
    let under = others
        .iter()
        .filter(|(x, _)| (left - 1.0..=right + 1.0).contains(x));
    assert_eq!(under.count(), 3);
    // Just beyond, on either side, the thread is below.
    let way = &of(TermPicture::Float, Ink::Line)[0];
    let beside = way.iter().filter(|(x, _)| {
        *x > left - 25.0 && *x < right + 25.0 && (*x < left - 1.0 || *x > right + 1.0)
    });
    let beside: Vec<_> = beside.collect();
    assert_eq!(beside.len(), 2);
    assert!(beside.iter().all(|(_, y)| *y > others[0].1));
}

#[test]
fn dots_on_the_braid_stand_on_crossings() {
    let threads = of(TermPicture::Rib, Ink::Thread);
    let crossed = |(x, y): Point| {
        let on = |rise: f64| {
            threads.iter().any(|thread| {
                let (from, to) = (thread[0], thread[1]);
                let slope = (to.1 - from.1) / (to.0 - from.0);
                (slope - rise).abs() < 0.05 && (from.1 + slope * (x - from.0) - y).abs() < 0.3
            })
        };
        on(1.0) && on(-1.0)
    };
    let dots: Vec<_> = of(TermPicture::Rib, Ink::Spot)
        .iter()
        .map(|dot| middle(&dot[1..]))
        .collect();
    assert!(
        dots.len() >= 4 && dots.iter().all(|&dot| crossed(dot)),
        "{dots:?}"
    );
    let only = middle(&of(TermPicture::Crossing, Ink::Spot)[0][1..]);
    assert!(crossed(only));
    assert!(!crossed((only.0 + 7.0, only.1)), "crossings everywhere");
}

#[test]
fn the_step_over_a_gap_goes_over_idle_places_only() {
    let step = &of(TermPicture::Gap, Ink::Strong)[0];
    let ring = middle(&of(TermPicture::Gap, Ink::Line)[0][1..]);
    let turn = |(x, y): Point| {
        (y - ring.1)
            .atan2(x - ring.0)
            .to_degrees()
            .rem_euclid(360.0)
    };
    let (from, to) = (turn(step[0]), turn(step[step.len() - 1]));
    let between = |marks: Vec<Vec<Point>>| {
        let within = |mark: &&Vec<Point>| {
            let at = turn(middle(&mark[1..]));
            at > from + 5.0 && at < to + if to < from { 355.0 } else { -5.0 }
        };
        marks.iter().filter(within).count()
    };
    assert_eq!(between(of(TermPicture::Gap, Ink::Body)), 2);
    assert_eq!(between(of(TermPicture::Gap, Ink::Dot)), 0);
}

#[test]
fn the_parts_of_the_line_are_what_they_are_called() {
    let meant = |picture| of(picture, Ink::Meant);
    let half = |part: &[Point], index: usize| 50.0 - part[index].1;
    let grows = |part: &[Point]| half(part, 1) - half(part, 0);
    let (tip, belly) = (&meant(TermPicture::Level)[0], &meant(TermPicture::Belly)[0]);
    let running = &meant(TermPicture::RunningLine)[0];
    for level in [tip, belly, running] {
        near(grows(level), 0.0, 1e-9);
    }
    let tapers = meant(TermPicture::Taper);
    assert!(grows(&tapers[0]) > 10.0 && grows(&tapers[1]) < -10.0);
    assert!(half(belly, 0) > half(tip, 0) && half(tip, 0) > half(running, 0));
    // Together they are the line from end to end, and none covers another.
    let ends: Vec<_> = [tip, &tapers[0], belly, &tapers[1], running]
        .iter()
        .map(|part| (part[0].0, part[1].0))
        .collect();
    assert!(ends.windows(2).all(|pair| pair[0].1 == pair[1].0));
    for picture in [
        TermPicture::Level,
        TermPicture::Taper,
        TermPicture::Belly,
        TermPicture::RunningLine,
    ] {
        let (all, (from, to)) = (
            of(picture, Ink::Body).len() + meant(picture).len(),
            width(&[of(picture, Ink::Body), meant(picture)].concat()),
        );
        assert_eq!((all, from, to), (5, ends[0].0, ends[4].1));
    }
}

#[test]
fn one_end_is_a_part_of_the_thread_and_drawn_apart_from_it() {
    assert_eq!(of(TermPicture::End, Ink::Strong).len(), 1);
    assert_eq!(of(TermPicture::Thread, Ink::Strong).len(), 0);
    let thread = of(TermPicture::Thread, Ink::Meant);
    assert_eq!(thread.len(), 1);
    let end = &of(TermPicture::End, Ink::Strong)[0];
    let (from, to) = (end[0], end[1]);
    assert!(!any_holds(&thread, from), "an end begins on its own");
    assert!(
        any_holds(&thread, (to.0 + 1.0, to.1)),
        "and goes into the thread"
    );
}

#[test]
fn the_angle_lags_behind_its_gear() {
    let (wanted, made) = (
        &of(TermPicture::Lag, Ink::Soft)[0],
        &of(TermPicture::Lag, Ink::Strong)[0],
    );
    let change = wanted[1];
    assert_eq!(change.0, wanted[2].0, "the wish jumps");
    let behind: Vec<_> = made.iter().filter(|point| point.0 >= change.0).collect();
    assert!(behind.len() > 8);
    // Never back, never beyond, and in the end nearly there.
    assert!(behind.windows(2).all(|pair| pair[1].1 <= pair[0].1));
    let last = behind[behind.len() - 1].1;
    assert!(last >= wanted[3].1 && last - wanted[3].1 < 0.05 * (change.1 - wanted[3].1));
}
