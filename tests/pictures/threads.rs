//! The threads of the braid drawn: path data are read back as a pen would draw them, and unrolled again.

use core::f64::consts::{FRAC_PI_2, PI};

use taperwright::base::units::{Angle, Length};
use taperwright::braid::geometry::{cover, cover_factor};
use taperwright::braid::track::{Direction, Pattern};
use taperwright::paper::chart::braid_view::{BraidView, SIZE, Surface};

use crate::braid::{PATH, radius, rolled, unrolled, view, width};
use crate::outline::{Point, any_holds, pieces};
use crate::{MACHINES, all_on, mounted, near, ring};

/// Analytic: on the unrolled surface a thread is straight and rises by tan α for each step along the axis.
#[test]
fn threads_lie_at_the_braid_angle() {
    for degrees in [20.0, 45.0, 62.5_f64] {
        let drawn = view(16, Pattern::Regular, &all_on(16), degrees, 0.5);
        let mut measured = 0;
        for edge in pieces(&drawn.above.edges) {
            let (from, to) = (
                unrolled(&drawn, edge[0]),
                unrolled(&drawn, edge[edge.len() - 1]),
            );
            let (along, round) = (to.0 - from.0, to.1 - from.1);
            // Near the outline a tenth of a pixel is a long way round; short ends give no angle.
            let is_plain = [from, to].iter().all(|at| at.1.abs() < radius(&drawn));
            if is_plain && along.hypot(round) > 15.0 {
                near((round / along).atan().to_degrees().abs(), degrees, 0.9);
                near_in_the_middle(&edge, degrees);
                measured += 1;
            }
        }
        assert!(
            measured >= 20,
            "{degrees}: {measured} edges were long enough to measure"
        );
    }
}

/// The piece of an edge that crosses the axis is seen square on.
fn near_in_the_middle(edge: &[Point], degrees: f64) {
    let axis = SIZE.1 / 2.0;
    for pair in edge.windows(2) {
        let (along, down) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        let crosses = (pair[0].1 - axis) * (pair[1].1 - axis) < 0.0;
        if crosses && along.hypot(down) > 5.0 {
            near((down / along).atan().to_degrees().abs(), degrees, 1.6);
        }
    }
}

/// The share of the surface that is covered is 2F − F² (analytic, the algebra of a cable's braided screen), counted on a
/// grid of places of the unrolled front.
#[test]
fn the_cover_drawn_is_the_cover_told() {
    for (degrees, share) in [(45.0, 0.4), (45.0, 0.75), (30.0, 0.6), (60.0, 0.5)] {
        let drawn = view(16, Pattern::Regular, &all_on(16), degrees, share);
        let factor = cover_factor(16, width(16, share), PATH, Angle::from_degrees(degrees));
        near(covered(&drawn), cover(factor), 0.02);
    }
    let touching = view(16, Pattern::Regular, &all_on(16), 45.0, 1.3);
    assert!(
        covered(&touching) > 0.995,
        "threads that press on one another leave no gap"
    );
}

fn covered(drawn: &BraidView) -> f64 {
    let layers = [&drawn.above, &drawn.below];
    let all: Vec<_> = layers
        .iter()
        .flat_map(|layer| [&layer.clockwise, &layer.counter_clockwise])
        .flat_map(|data| pieces(data))
        .collect();
    let most = FRAC_PI_2 * radius(drawn) * 0.97;
    let (columns, rows) = (83, 61);
    let mut hits = 0;
    for column in 0..columns {
        for row in 0..rows {
            let along = drawn.width * (f64::from(column) + 0.5) / f64::from(columns);
            let round = most * (2.0 * (f64::from(row) + 0.5) / f64::from(rows) - 1.0);
            hits += u32::from(any_holds(&all, rolled(drawn, along, round)));
        }
    }
    f64::from(hits) / f64::from(columns * rows)
}

/// Threads of one shape of section are as wide as the root of their ends: four times the ends, twice the width. Measured
/// across a thread that runs alone.
#[test]
fn heavier_threads_are_wider() {
    let measure = |ends: u32| {
        let one = mounted(16, |way, place| match way {
            Direction::Clockwise => (place == 0).then_some(ends),
            Direction::CounterClockwise => Some(1),
        });
        let drawn = view(16, Pattern::Regular, &one, 45.0, 0.5);
        let thread = [&drawn.above.clockwise, &drawn.below.clockwise]
            .map(|d| pieces(d))
            .concat();
        // Across at 45°, on the unrolled surface, in steps of a tenth of a pixel from where it is drawn broadest.
        let (x, middle) = crossing_of_axis(&drawn);
        let is_on = |off: f64| {
            let (along, round) = (x + off * 0.5_f64.sqrt(), middle - off * 0.5_f64.sqrt());
            any_holds(&thread, rolled(&drawn, along, round))
        };
        let steps = (-600..600)
            .filter(|&step| is_on(f64::from(step) / 10.0))
            .count();
        (steps as f64 / 10.0, drawn.pixels_per_metre)
    };
    let ((narrow, scale), (wide, _)) = (measure(12), measure(48));
    near(narrow, width(16, 0.5).metres() * scale, 0.4);
    near(wide, 2.0 * narrow, 0.6);
}

/// Where clockwise thread 0 passes the middle of the front: it begins at the back, so after half a lay.
fn crossing_of_axis(drawn: &BraidView) -> Point {
    (PI * radius(drawn), 0.0)
}

/// No thread is cut, also where others are missing: along the middle of every engaged thread there is thread of its
/// direction everywhere in sight, and where a place is idle there is none.
#[test]
fn part_loads_have_gaps_and_no_cuts() {
    for (carriers, pattern) in MACHINES
        .into_iter()
        .filter(|machine| (8..=32).contains(&machine.0))
    {
        let is_on = |way: Direction, place: u32| {
            place % 4 != if way == Direction::Clockwise { 1 } else { 2 }
        };
        let some = mounted(carriers, |way, place| is_on(way, place).then_some(12));
        let drawn = view(carriers, pattern, &some, 45.0, 0.6);
        for way in [Direction::Clockwise, Direction::CounterClockwise] {
            let areas = pieces_of(&drawn, way);
            for place in 0..carriers / 2 {
                for at in along(&drawn, way, f64::from(place) / f64::from(carriers / 2)) {
                    assert_eq!(
                        any_holds(&areas, at),
                        is_on(way, place),
                        "{carriers} {pattern:?} {way:?} {place} at {at:?}"
                    );
                }
            }
        }
    }
}

fn pieces_of(drawn: &BraidView, way: Direction) -> Vec<Vec<Point>> {
    let layers = [&drawn.above, &drawn.below];
    let data = layers.map(|layer| match way {
        Direction::Clockwise => &layer.clockwise,
        Direction::CounterClockwise => &layer.counter_clockwise,
    });
    data.map(|d| pieces(d)).concat()
}

/// Places along the middle of a thread at 45° that begins at a share of the round, as far as they are well in sight: who
/// looks stands half-way round. Clockwise threads go round with the line, the others against it.
fn along(drawn: &BraidView, way: Direction, start: f64) -> Vec<Point> {
    let radius = radius(drawn);
    let sign = if way == Direction::Clockwise {
        1.0
    } else {
        -1.0
    };
    let mut places = Vec::new();
    for step in 0..200 {
        let x = drawn.width * (f64::from(step) + 0.5) / 200.0;
        let turn = (2.0 * PI * start + sign * x / radius).rem_euclid(2.0 * PI) - PI;
        if turn.abs() < 1.4 {
            places.push(rolled(drawn, x, turn * radius));
        }
    }
    assert!(!places.is_empty());
    places
}

/// The picture is a few nodes whatever the machine, and stays small where a short lay brings many crossings.
#[test]
fn steep_and_flat_braids_stay_within_the_picture() {
    for degrees in [0.5, 15.0, 70.0, 89.0, 89.99] {
        let drawn = view(16, Pattern::Regular, &all_on(16), degrees, 0.5);
        let (top, bottom) = drawn.body;
        assert!(top >= 0.0 && bottom <= SIZE.1 && drawn.width <= SIZE.0);
        let size = drawn.above.clockwise.len() + drawn.below.counter_clockwise.len();
        assert!(
            (100..100_000).contains(&size),
            "{degrees}: {size} characters"
        );
        for (x, y) in pieces_of(&drawn, Direction::Clockwise).concat() {
            assert!((-0.05..=drawn.width + 0.05).contains(&x), "{degrees}: {x}");
            assert!((top - 0.05..=bottom + 0.05).contains(&y), "{degrees}: {y}");
        }
    }
}

/// 96 CSS pixels are an inch of 25.4 mm: the CSS specification.
#[test]
fn the_scale_is_the_scale_told() {
    for millimetres in [0.2, 0.5, 0.8, 1.1, 2.7] {
        let drawn = BraidView::of(&Surface {
            ring: ring(16, Pattern::Regular),
            mounted: &all_on(16),
            path_diameter: Length::from_millimetres(millimetres),
            angle: Angle::from_degrees(45.0),
            thread_width: Length::from_millimetres(0.1),
            thread_ends: 12,
        });
        let high = drawn.body.1 - drawn.body.0;
        near(high / 96.0 * 25.4, millimetres * drawn.magnification, 1e-9);
        assert!(
            high > 85.0,
            "{millimetres} mm is drawn only {high} pixels high"
        );
        let bar = drawn.scale_bar().metres() * drawn.pixels_per_metre;
        assert!(
            (40.0..=SIZE.0 / 3.0).contains(&bar),
            "the bar is {bar} pixels long"
        );
    }
}
