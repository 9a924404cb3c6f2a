//! What a search must keep to: from where to where, which steps are pinned, and the balance of the directions.

use super::carrier_pin::CarrierPin;
use crate::braid::track::{Carrier, Direction, Engaged, Track, bits};

/// A ladder's ends and pins. The pins are of mounted carriers, on steps of the line, no carrier and no step twice.
#[derive(Clone, Debug)]
pub(super) struct Constraints {
    pub(super) track: Track,
    pub(super) start: u32,
    pub(super) full: u32,
    pins: Vec<CarrierPin>,
}

impl Constraints {
    /// A constraints without pins.
    pub(super) fn new(track: Track, start: u32, full: u32) -> Self {
        Self {
            track,
            start,
            full,
            pins: Vec::new(),
        }
    }

    /// The same with one pin more.
    pub(super) fn with(&self, pin: CarrierPin) -> Self {
        let mut more = self.clone();
        more.pins.push(pin);
        more
    }

    /// Whether the constraints takes this step.
    pub(super) fn takes_step(&self, threads: u32) -> bool {
        (self.start..self.full).contains(&threads)
    }

    /// Whether the carrier or the step is pinned already.
    pub(super) fn pins_either(&self, pin: CarrierPin) -> bool {
        let shares = |held: &CarrierPin| held.threads == pin.threads || held.carrier == pin.carrier;
        self.pins.iter().any(shares)
    }

    /// Whether some order keeps the directions at most one apart.
    ///
    /// At even counts they are level. At odd counts one is ahead, and steps from there only go the other way: so each
    /// odd count can be looked at by itself.
    pub(super) fn is_balanced(&self) -> bool {
        let odd = (self.start..=self.full).filter(|threads| threads % 2 == 1);
        odd.into_iter().all(|threads| {
            let mut ways = Direction::BOTH.into_iter();
            ways.any(|direction| self.may_lead(threads, direction))
        })
    }

    /// Whether that direction may be the one ahead at this odd count of threads.
    pub(super) fn may_lead(&self, threads: u32, direction: Direction) -> bool {
        let agrees = |step: u32, direction: Direction| {
            !self.takes_step(step)
                || self
                    .pinned_at(step)
                    .is_none_or(|carrier| carrier.direction == direction)
        };
        self.track.mounted(direction) > threads / 2
            && agrees(threads - 1, direction)
            && agrees(threads, direction.other())
    }

    /// The carrier the step from `threads` to one more must engage.
    pub(super) fn pinned_at(&self, threads: u32) -> Option<Carrier> {
        let pin = self.pins.iter().find(|pin| pin.threads == threads)?;
        Some(pin.carrier)
    }

    /// The numbers of the carriers each way that the step from `threads` to one more may engage, were none engaged;
    /// none at the top.
    pub(super) fn may_add(&self, threads: u32) -> [u64; 2] {
        if !self.takes_step(threads) {
            return [0; 2];
        }
        if let Some(carrier) = self.pinned_at(threads) {
            let mut only = [0; 2];
            only[carrier.direction as usize] = 1 << carrier.number;
            return only;
        }
        let leads = |direction| threads % 2 == 1 || self.may_lead(threads + 1, direction);
        let free = self.free();
        Direction::BOTH.map(|direction| {
            let allowed = leads(direction);
            if allowed { free[direction as usize] } else { 0 }
        })
    }

    /// The mounted carriers each way that no pin speaks of: those the start set is taken from.
    pub(super) fn free(&self) -> [u64; 2] {
        let pinned: Vec<Carrier> = self.pins.iter().map(|pin| pin.carrier).collect();
        let pinned = Engaged::from_carriers(&pinned);
        let mounted = self.track.all().fold(Engaged::default(), Engaged::with);
        Direction::BOTH.map(|direction| mounted.of(direction) & !pinned.of(direction))
    }

    /// Of each direction, the numbers that must be engaged with so many threads, and those that may.
    pub(super) fn allowed(&self, threads: u32) -> [(u64, u64); 2] {
        let before = self.pins.iter().filter(|pin| pin.threads < threads);
        let must: Vec<Carrier> = before.map(|pin| pin.carrier).collect();
        let must = Engaged::from_carriers(&must);
        let free = self.free();
        Direction::BOTH.map(|direction| {
            let must = must.of(direction);
            (must, must | free[direction as usize])
        })
    }

    /// How many carriers may run each way with so many threads: one pair of numbers, or two.
    pub(super) fn counts(&self, threads: u32) -> impl Iterator<Item = [u32; 2]> {
        let half = threads / 2;
        let level = threads.is_multiple_of(2).then_some([half, half]);
        let ahead = move |direction: Direction| {
            let counts = match direction {
                Direction::Clockwise => [half + 1, half],
                Direction::CounterClockwise => [half, half + 1],
            };
            (threads % 2 == 1 && self.may_lead(threads, direction)).then_some(counts)
        };
        level
            .into_iter()
            .chain(Direction::BOTH.into_iter().filter_map(ahead))
    }

    /// The carriers that may be engaged next on a state, clockwise ones first, by number.
    pub(super) fn next(state: Engaged, may_add: [u64; 2]) -> impl Iterator<Item = Carrier> {
        let counts = Direction::BOTH.map(|direction| state.count(direction));
        Direction::BOTH
            .into_iter()
            .filter(move |&way| counts[way as usize] <= counts[way.other() as usize])
            .flat_map(move |direction| {
                let numbers = may_add[direction as usize] & !state.of(direction);
                bits(numbers).map(move |number| Carrier { direction, number })
            })
    }

    /// A start set and the carriers added to it, as one list.
    pub(super) fn listed(start: Engaged, added: &[Carrier]) -> Vec<Carrier> {
        let mut listed: Vec<Carrier> = start.carriers().collect();
        let mut seen = [0_u32; 2];
        // Alternately clockwise and counter-clockwise, as a maker would thread up.
        listed.sort_by_cached_key(|carrier| {
            let rank = &mut seen[carrier.direction as usize];
            *rank += 1;
            (*rank, carrier.direction)
        });
        listed.extend_from_slice(added);
        listed
    }
}

/// The shorter way round a ring of so many places.
pub(super) fn way_round(ring: u32, from: u32, to: u32) -> u32 {
    let apart = from.abs_diff(to);
    apart.min(ring - apart)
}
