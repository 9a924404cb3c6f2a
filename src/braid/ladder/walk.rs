//! Among ladders equal in falls, floats and gaps, the one with the shortest walk.
//!
//! The walk depends on the carrier added last, so a state is looked at once for each carrier that can have been the last.

use super::constraints::{Constraints, way_round};
use super::exact::{MOST_EACH_WAY, Search, SetPair};
use crate::braid::track::{Carrier, Track};

/// A number for each carrier there can be.
type ByCarrier<T> = [T; 2 * MOST_EACH_WAY as usize];

/// The ladder with the shortest walk; of several, the one whose carriers come first, clockwise before counter-clockwise
/// and low numbers before high ones, in the start set and then step by step.
pub(super) fn shortest(search: &Search) -> Vec<Carrier> {
    let floors = floors(search);
    let walks = Walks::new(search, &floors);
    let start = floors[0].iter().copied().min_by_key(|&start| {
        let first = walks.ahead(search.constraints.start, start);
        let walk = first.map(|(_, _, rest)| rest).min().unwrap_or(0);
        (walk, start.0.map(|set| u8::MAX - set.reverse_bits()))
    });
    let start = start.expect("a balanced constraints has a start");
    Constraints::listed(start.engaged(), &walks.climbed(start))
}

/// From the start up, the states that the best ladders come to with each count of threads, each state once.
fn floors(search: &Search) -> Vec<Vec<SetPair>> {
    let constraints = search.constraints;
    let mut floors = vec![search.best_starts()];
    for threads in constraints.start..constraints.full {
        let floor = floors.last().into_iter().flatten();
        let mut above: Vec<SetPair> = floor
            .flat_map(|&state| search.steps(threads, state).map(|(_, next)| next))
            .collect();
        above.sort_unstable();
        above.dedup();
        floors.push(above);
    }
    floors
}

/// The walk still to go from each state that the best ladders come to.
struct Walks<'a> {
    search: &'a Search<'a>,
    /// Places round the ring between any two carriers.
    ways: ByCarrier<ByCarrier<u32>>,
    /// By [`SetPair::index`], where the state stands in `to_go`.
    stands: Vec<u32>,
    /// The walk from a state to the top, by the carrier added last.
    to_go: Vec<ByCarrier<u32>>,
}

impl<'a> Walks<'a> {
    /// Filled from the top down.
    fn new(search: &'a Search<'a>, floors: &[Vec<SetPair>]) -> Self {
        let constraints = search.constraints;
        let mut walks = Self {
            search,
            ways: ways(constraints.track),
            stands: vec![u32::MAX; usize::from(u16::MAX) + 1],
            to_go: Vec::with_capacity(floors.iter().map(Vec::len).sum()),
        };
        let counts = constraints.start..=constraints.full;
        for (threads, floor) in counts.rev().zip(floors.iter().rev()) {
            for &state in floor {
                let here = walks.on_from(threads, state);
                walks.stands[state.index()] = u32::try_from(walks.to_go.len()).unwrap_or(u32::MAX);
                walks.to_go.push(here);
            }
        }
        walks
    }

    fn on_from(&self, threads: u32, state: SetPair) -> ByCarrier<u32> {
        let mut here = [u32::MAX; _];
        for (carrier, _, rest) in self.ahead(threads, state) {
            let ways = &self.ways[index(carrier)];
            for (least, way) in here.iter_mut().zip(ways) {
                *least = (way + rest).min(*least);
            }
        }
        // At the top nothing is left to go.
        here.map(|walk| if walk == u32::MAX { 0 } else { walk })
    }

    /// The best steps from a state, but for the walk, each with the walk to go after it.
    fn ahead(&self, threads: u32, state: SetPair) -> impl Iterator<Item = (Carrier, SetPair, u32)> {
        let steps = self.search.steps(threads, state);
        steps.map(|(carrier, next)| {
            let stands = self.stands[next.index()] as usize;
            (carrier, next, self.to_go[stands][index(carrier)])
        })
    }

    /// The carriers added from a start set on.
    fn climbed(&self, start: SetPair) -> Vec<Carrier> {
        let constraints = self.search.constraints;
        let (mut state, mut added) = (start, Vec::<Carrier>::new());
        for threads in constraints.start..constraints.full {
            let last = added.last().copied();
            let step = self
                .ahead(threads, state)
                .min_by_key(|&(carrier, _, rest)| {
                    // The first carrier is walked to before the line begins.
                    last.map_or(0, |last| self.ways[index(carrier)][index(last)]) + rest
                });
            let (carrier, next, _) = step.expect("a best ladder continues to the top");
            added.push(carrier);
            state = next;
        }
        added
    }
}

fn ways(track: Track) -> ByCarrier<ByCarrier<u32>> {
    let mut ways = [[0; _]; _];
    for from in track.all() {
        for to in track.all() {
            let (from_place, to_place) = (track.place(from), track.place(to));
            ways[index(from)][index(to)] = way_round(track.places_each_way(), from_place, to_place);
        }
    }
    ways
}

fn index(carrier: Carrier) -> usize {
    carrier.direction as usize * MOST_EACH_WAY as usize + carrier.number as usize
}
