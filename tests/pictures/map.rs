//! The ring from above.

use taperwright::braid::track::{Direction, Pattern};
use taperwright::paper::chart::track_map::{CarrierMark, TrackMap};

use crate::outline::pieces;
use crate::{MACHINES, all_on, mounted, near, ring, track};

fn full(carriers: u32, pattern: Pattern) -> TrackMap {
    TrackMap::of(ring(carriers, pattern), &all_on(carriers))
}

/// From the middle of the map: how far, and which share of the round clockwise from the top.
fn polar(map: &TrackMap, mark: &CarrierMark) -> (f64, f64) {
    let (x, y) = (mark.x - map.side / 2.0, mark.y - map.side / 2.0);
    let share = x.atan2(-y) / core::f64::consts::TAU;
    (x.hypot(y), share.rem_euclid(1.0))
}

#[test]
fn marks_never_touch_and_never_leave_the_map() {
    for (carriers, pattern) in MACHINES {
        let map = full(carriers, pattern);
        for (index, one) in map.marks.iter().enumerate() {
            for other in &map.marks[..index] {
                let apart = (one.x - other.x).hypot(one.y - other.y);
                assert!(
                    apart > 2.0 * map.size.reach,
                    "{carriers} {pattern:?}: {} and {} are {apart} apart",
                    one.mounted.carrier,
                    other.mounted.carrier
                );
            }
            let (out, _) = polar(&map, one);
            assert!(
                out + map.size.reach <= map.side / 2.0,
                "{carriers} {pattern:?}"
            );
        }
        for track in [&map.clockwise, &map.counter_clockwise] {
            for (x, y) in pieces(track).concat() {
                let is_inside = [x, y].iter().all(|at| (0.0..=map.side).contains(at));
                assert!(is_inside, "{carriers} {pattern:?}: a track leaves the map");
            }
        }
    }
}

/// 320 pixels wide is the narrowest phone; 24 of them are the page's margins and 12 pixels the least that is asked of the
/// numbers of 16 carriers.
#[test]
fn the_numbers_of_sixteen_carriers_are_read_on_the_narrowest_phone() {
    for pattern in [Pattern::Diamond, Pattern::Regular] {
        let map = full(16, pattern);
        assert!(
            map.size.number * (296.0 / map.side).min(1.0) >= 12.0,
            "{pattern:?}"
        );
        // Two digits are at most 1.3 times as wide as they are high, and must fit into their mark.
        assert!(1.3 * map.size.number < 2.0 * map.size.radius);
    }
}

/// Analytic: after the share τ of a circuit clockwise place i of n is at (i + τn)/n of the round and counter-clockwise j at
/// (j − τn)/n; half-way between meetings τ = 1/(2N).
#[test]
fn every_carrier_is_where_half_a_step_has_brought_it() {
    for (carriers, pattern) in MACHINES {
        let map = full(carriers, pattern);
        let (each_way, half_step) = (f64::from(carriers / 2), 0.5 / f64::from(carriers));
        for mark in &map.marks {
            let gone = match mark.mounted.carrier.direction {
                Direction::Clockwise => half_step,
                Direction::CounterClockwise => -half_step,
            };
            let wanted = (f64::from(mark.mounted.place) / each_way + gone).rem_euclid(1.0);
            near(polar(&map, mark).1, wanted, 1e-9);
        }
    }
}

/// A carrier that is over at the meeting just gone and at the one to come rides the outer rim; under at both, the inner one;
/// between one and the other it changes gears in the middle of the ring. The rule of the meetings is checked against a
/// stepped track in the tables.
#[test]
fn the_side_of_the_gear_is_that_of_the_meetings_around() {
    for (carriers, pattern) in MACHINES {
        let (map, track) = (full(carriers, pattern), track(carriers, pattern));
        let middle = map.marks.iter().map(|mark| polar(&map, mark).0);
        let (least, most) = middle.fold((f64::MAX, 0.0_f64), |(least, most), out| {
            (least.min(out), most.max(out))
        });
        let each_way = carriers / 2;
        for mark in &map.marks {
            let place = mark.mounted.place;
            // Clockwise i meets i, then i + 1; counter-clockwise j meets j, then j − 1.
            let around = match mark.mounted.carrier.direction {
                Direction::Clockwise => [0, 1].map(|m| track.clockwise_is_over(place, place + m)),
                Direction::CounterClockwise => {
                    let before = (place + each_way - 1) % each_way;
                    [
                        !track.clockwise_is_over(place, place),
                        !track.clockwise_is_over(before, before + 1),
                    ]
                }
            };
            let out = polar(&map, mark).0;
            let half = 0.5 * (least + most);
            match around {
                [true, true] => near(out, most, 1e-6),
                [false, false] => near(out, least, 1e-6),
                _ => near(out, half, 1e-6),
            }
        }
    }
}

/// Each nose points in the direction of the carrier: at the top of the map clockwise is to the right.
#[test]
fn noses_point_the_way_round() {
    let map = full(16, Pattern::Regular);
    for mark in &map.marks {
        let (x, y) = (mark.x - map.side / 2.0, mark.y - map.side / 2.0);
        let (sine, cosine) = mark.heading.to_radians().sin_cos();
        let turn = x * sine - y * cosine;
        let clockwise = mark.mounted.carrier.direction == Direction::Clockwise;
        assert_eq!(turn > 0.0, clockwise, "{}", mark.mounted.carrier);
        near(turn.abs(), x.hypot(y), 1e-9);
    }
}

#[test]
fn ends_are_told_of_engaged_carriers_beside_their_marks() {
    for (carriers, pattern) in MACHINES {
        let some = mounted(carriers, |_, place| place.is_multiple_of(2).then_some(14));
        let map = TrackMap::of(ring(carriers, pattern), &some);
        let labels = map
            .marks
            .iter()
            .filter_map(taperwright::paper::chart::track_map::CarrierMark::ends_at);
        // Every second place of either direction is engaged; beyond 32 carriers there is no room.
        let each_way = (carriers / 2).div_ceil(2);
        let wanted = if carriers <= 32 { 2 * each_way } else { 0 };
        assert_eq!(labels.clone().count(), wanted as usize);
        for (x, y) in labels {
            for mark in &map.marks {
                let apart = (mark.x - x).hypot(mark.y - y);
                assert!(
                    apart > map.size.radius + 4.0,
                    "{carriers} {pattern:?}: ends {apart} from a mark"
                );
            }
            let room = 10.0..=map.side - 10.0;
            assert!(
                room.contains(&x) && room.contains(&y),
                "{carriers} {pattern:?}"
            );
        }
    }
}

#[test]
fn the_ring_has_its_gears_and_slots() {
    for (carriers, pattern) in MACHINES {
        let map = full(carriers, pattern);
        let gears = track(carriers, pattern).horn_gears();
        assert_eq!(map.gears.len(), gears as usize);
        assert_eq!(
            map.slots.matches('M').count(),
            (gears * pattern.slots()) as usize
        );
        // Gears that overlap would not turn.
        for (index, one) in map.gears.iter().enumerate() {
            for other in &map.gears[..index] {
                assert!((one.x - other.x).hypot(one.y - other.y) > one.radius + other.radius);
            }
        }
    }
}
