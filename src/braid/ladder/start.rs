//! Start sets for tracks too large to try them all: each direction spread evenly in bundles, or strung at a fixed
//! distance, and the other direction turned against the first.

use super::constraints::Constraints;
use crate::braid::track::{Direction, Engaged, bits};

/// Most neighbours in a bundle that are tried.
const MOST_BUNDLED: u32 = 4;
/// Greatest distances and turns that are tried: the slots of a horn gear are at most this many.
const MOST_APART: u32 = 6;

/// The start sets to try, each with the turn of its second direction.
pub(super) fn sets(constraints: &Constraints) -> impl Iterator<Item = (Engaged, u32)> {
    let free = constraints.free();
    let spreads = (1..=MOST_BUNDLED).map(Spread::Bundles);
    let strings = (1..=MOST_APART).map(Spread::Apart);
    let tries = spreads.chain(strings).flat_map(|spread| {
        let turns = 0..MOST_APART;
        turns.map(move |turn| (spread, turn))
    });
    let counts: Vec<_> = constraints.counts(constraints.start).collect();
    tries.flat_map(move |(spread, turn)| {
        let sets: Vec<_> = counts
            .iter()
            .filter_map(|&counts| opposed(free, counts, spread, turn))
            .map(|set| (set, turn))
            .collect();
        sets
    })
}

/// How the carriers of one direction are placed among those that are free.
#[derive(Clone, Copy)]
enum Spread {
    /// Evenly, so many neighbours together.
    Bundles(u32),
    /// One after another at this distance, beginning at the first.
    Apart(u32),
}

impl Spread {
    /// The rank of the `k`-th of `count` carriers among so many.
    fn rank(self, k: u32, count: u32, among: u32) -> u32 {
        match self {
            Self::Bundles(bundle) => {
                let bundles = count.div_ceil(bundle).max(1);
                (k / bundle) * among / bundles + k % bundle
            }
            Self::Apart(distance) => k * distance,
        }
    }

    /// So many of the carriers that are free, turned by some; `None` where two would fall on one.
    fn pick(self, free: u64, count: u32, turn: u32) -> Option<u64> {
        let free: Vec<u32> = bits(free).collect();
        let among = u32::try_from(free.len()).ok()?;
        let ranks = (0..count).map(|k| self.rank(k, count, among) + turn);
        let set = ranks.fold(0_u64, |set, rank| set | 1 << free[(rank % among) as usize]);
        (set.count_ones() == count).then_some(set)
    }
}

/// So many carriers each way, the second direction turned against the first.
fn opposed(free: [u64; 2], counts: [u32; 2], spread: Spread, turn: u32) -> Option<Engaged> {
    let turns = [0, turn];
    let pick = |way: Direction| {
        let way = way as usize;
        spread.pick(free[way], counts[way], turns[way])
    };
    let [one, other] = Direction::BOTH.map(pick);
    Some(Engaged::of_numbers([one?, other?]))
}
