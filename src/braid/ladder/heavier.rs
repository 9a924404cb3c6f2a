//! Which bobbins are swapped for heavier ones first.

use core::cmp::Reverse;

use super::constraints::way_round;
use crate::braid::track::{Carrier, Direction, Engaged, Track};

/// The engaged carriers in the order in which they get heavier threads. A pin names how many are heavier before, and the
/// carrier that is next; it is followed where that carrier is engaged, light still, and runs the way whose turn it is.
pub(super) fn order(track: Track, engaged: &[Carrier], pins: &[(u32, Carrier)]) -> Vec<Carrier> {
    let set = Engaged::from_carriers(engaged);
    let [one, other] = Direction::BOTH.map(|direction| set.count(direction));
    let mut direction = if other > one {
        Direction::CounterClockwise
    } else {
        Direction::Clockwise
    };
    let mut order = Vec::with_capacity(engaged.len());
    loop {
        let turn = |&&(before, carrier): &&(u32, Carrier)| {
            before as usize == order.len()
                && carrier.direction == direction
                && set.holds(carrier)
                && !order.contains(&carrier)
        };
        let pinned = pins.iter().find(turn).map(|pin| pin.1);
        // A carrier pinned for later is left for then, as long as there is another.
        let later = pins.iter().filter(|pin| pin.0 as usize > order.len());
        let kept: Vec<Carrier> = order
            .iter()
            .copied()
            .chain(later.map(|pin| pin.1))
            .collect();
        let free = || next(track, set, &order, &kept, direction);
        let any = || next(track, set, &order, &order, direction);
        let Some(next) = pinned.or_else(free).or_else(any) else {
            break;
        };
        order.push(next);
        direction = direction.other();
    }
    order
}

/// The carrier of that direction farthest from those chosen before, then nearest to the last; none of those passed over.
fn next(
    track: Track,
    set: Engaged,
    chosen: &[Carrier],
    passed_over: &[Carrier],
    direction: Direction,
) -> Option<Carrier> {
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
        .filter(|carrier| of_direction(carrier) && !passed_over.contains(carrier))
        .min_by_key(|&carrier| (Reverse(clearance(carrier)), walk(carrier), carrier.number))
}
