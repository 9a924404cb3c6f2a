//! The order in which carriers are engaged, chosen so that every state on the way braids soundly.
//!
//! A [`Ladder`] lists carriers; the state with `n` threads is its first `n`. Adding takes the next, dropping gives up
//! the last: last in, first out, and the start set runs the whole line. Directions stay within one of each other.
//!
//! The choice is a search among evenly spread sets for the start, then carrier by carrier for the best next state.
//! It is checked, not proven best: a state that fails is reported by the plan with its carriers named.

use crate::track::{Carrier, Direction, Engaged, Interlacing, Track};

/// Carriers in the order in which they are engaged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ladder {
    track: Track,
    carriers: Vec<Carrier>,
}

/// Lower is better: unsound threads, then the longest float, the widest gap, and last how far the person walks.
type Demerit = (usize, u32, u32, u32);

impl Ladder {
    /// The ladder from `start` threads up to `full`, both at most the carriers of the track.
    pub fn new(track: Track, start: u32, full: u32) -> Self {
        let full = full.min(track.carriers());
        let mut ladder = Self {
            track,
            carriers: start_set(track, start.min(full)),
        };
        while ladder.carriers.len() < full as usize {
            let next = ladder.best_next();
            ladder.carriers.push(next);
        }
        ladder
    }

    /// The carriers engaged with `threads` threads, in the order they came in.
    pub fn engaged(&self, threads: u32) -> &[Carrier] {
        &self.carriers[..(threads as usize).min(self.carriers.len())]
    }

    /// The carrier added when going from `threads` to one more, and dropped when coming back.
    pub fn step_above(&self, threads: u32) -> Option<Carrier> {
        self.carriers.get(threads as usize).copied()
    }

    /// How the state with `threads` threads interlaces.
    pub fn interlacing(&self, threads: u32) -> Interlacing {
        self.track
            .interlacing(&Engaged::from_carriers(self.engaged(threads)))
    }

    fn best_next(&self) -> Carrier {
        let engaged = Engaged::from_carriers(&self.carriers);
        let ahead =
            engaged.count(Direction::Clockwise) > engaged.count(Direction::CounterClockwise);
        let direction = if ahead {
            Direction::CounterClockwise
        } else {
            Direction::Clockwise
        };
        let each_way = self.track.carriers() / 2;
        (0..each_way)
            .map(|number| Carrier { direction, number })
            .filter(|&carrier| !engaged.holds(carrier))
            .min_by_key(|&carrier| {
                demerit(self.track, &engaged.with(carrier), self.walk_to(carrier))
            })
            .unwrap_or(Carrier {
                direction,
                number: 0,
            })
    }

    /// Places round the ring from the carrier engaged last.
    fn walk_to(&self, carrier: Carrier) -> u32 {
        let each_way = self.track.carriers() / 2;
        let from = self.carriers.last().map_or(0, |last| last.number);
        let apart = from.abs_diff(carrier.number);
        apart.min(each_way - apart)
    }
}

fn demerit(track: Track, engaged: &Engaged, walk: u32) -> Demerit {
    let found = track.interlacing(engaged);
    (
        found.unsound.len(),
        found.longest_float,
        found.widest_gap,
        walk,
    )
}

/// The best of the start sets tried: each direction spread evenly in bundles, or strung at a fixed distance, and the
/// other direction turned against the first.
fn start_set(track: Track, threads: u32) -> Vec<Carrier> {
    let each_way = track.carriers() / 2;
    let spreads = (1..=MOST_BUNDLED).map(Spread::Bundles);
    let strings = (1..=MOST_APART).map(Spread::Apart);
    let tries = spreads.chain(strings).flat_map(|spread| {
        let turns = 0..each_way.min(MOST_APART);
        turns.map(move |turn| (spread, turn))
    });
    let sets = tries.filter_map(|(spread, turn)| {
        opposed(each_way, threads, spread, turn).map(|set| (set, turn))
    });
    let best = sets.min_by_key(|(set, turn)| demerit(track, set, *turn));
    best.map(|(set, _)| alternating(set)).unwrap_or_default()
}

/// Most neighbours in a bundle that are tried.
const MOST_BUNDLED: u32 = 4;
/// Greatest distances and turns that are tried: the slots of a horn gear are at most this many.
const MOST_APART: u32 = 6;

/// How the carriers of one direction are placed round the ring.
#[derive(Clone, Copy)]
enum Spread {
    /// Evenly, so many neighbours together.
    Bundles(u32),
    /// One after another at this distance, beginning at the first place.
    Apart(u32),
}

impl Spread {
    /// The place of the `k`-th of `count` carriers on a ring.
    fn place(self, k: u32, count: u32, places: u32) -> u32 {
        match self {
            Self::Bundles(bundle) => {
                let bundles = count.div_ceil(bundle).max(1);
                (k / bundle) * places / bundles + k % bundle
            }
            Self::Apart(distance) => k * distance,
        }
    }
}

/// Half the threads each way (clockwise has the odd one), the second turned against the first; `None` where two would
/// take one place.
fn opposed(each_way: u32, threads: u32, spread: Spread, turn: u32) -> Option<Engaged> {
    let ways = [
        (Direction::Clockwise, threads.div_ceil(2), 0),
        (Direction::CounterClockwise, threads / 2, turn),
    ];
    let set = ways
        .into_iter()
        .fold(Engaged::default(), |set, (direction, count, turn)| {
            let places = (0..count).map(|k| (spread.place(k, count, each_way) + turn) % each_way);
            places.fold(set, |set, number| set.with(Carrier { direction, number }))
        });
    let fits = ways
        .iter()
        .all(|&(direction, count, _)| set.count(direction) == count);
    fits.then_some(set)
}

/// The set listed clockwise, counter-clockwise, clockwise …, as a maker would thread it up.
fn alternating(set: Engaged) -> Vec<Carrier> {
    let mut listed: Vec<Carrier> = set.carriers().collect();
    let mut seen = [0_u32; 2];
    listed.sort_by_cached_key(|carrier| {
        let rank = &mut seen[carrier.direction as usize];
        *rank += 1;
        (*rank, carrier.direction)
    });
    listed
}
