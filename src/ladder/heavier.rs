//! Which bobbins are swapped for heavier ones first.

use core::cmp::Reverse;

use super::course::way_round;
use crate::track::{Carrier, Direction, Engaged, Track};

/// The engaged carriers in the order in which they get heavier threads.
pub(super) fn order(track: Track, engaged: &[Carrier]) -> Vec<Carrier> {
    let set = Engaged::from_carriers(engaged);
    let [one, other] = Direction::BOTH.map(|direction| set.count(direction));
    let mut direction = if other > one {
        Direction::CounterClockwise
    } else {
        Direction::Clockwise
    };
    let mut order = Vec::with_capacity(engaged.len());
    while let Some(next) = next(track, set, &order, direction) {
        order.push(next);
        direction = direction.other();
    }
    order
}

/// The carrier of that direction farthest from those chosen before, then nearest to the last.
fn next(track: Track, set: Engaged, chosen: &[Carrier], direction: Direction) -> Option<Carrier> {
    let (ring, place) = (track.places_each_way(), |carrier| track.place(carrier));
    let apart = |one: Carrier, other: Carrier| way_round(ring, place(one), place(other));
    let of_direction = |carrier: &Carrier| carrier.direction == direction;
    let clearance = |carrier: Carrier| {
        let heavy = chosen.iter().copied().filter(of_direction);
        heavy
            .map(|heavy| apart(heavy, carrier))
            .min()
            .unwrap_or(ring)
    };
    let walk = |carrier: Carrier| chosen.last().map_or(0, |&last| apart(last, carrier));
    set.carriers()
        .filter(|carrier| of_direction(carrier) && !chosen.contains(carrier))
        .min_by_key(|&carrier| (Reverse(clearance(carrier)), walk(carrier), carrier.number))
}
