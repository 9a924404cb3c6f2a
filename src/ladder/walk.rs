//! Among ladders equal in falls, floats and gaps, the one with the shortest walk.
//!
//! The walk hangs on the carrier added last, so a state is looked at once for each carrier that can have been the last.

use std::collections::BTreeMap;

use super::course::{Course, way_round};
use super::exact::{MOST_EACH_WAY, Search, State};
use crate::track::Carrier;

/// The walk still to go from a state to the top, by the carrier added last.
type Walks = [u32; 2 * MOST_EACH_WAY as usize];

/// The ladder with the shortest walk; of several, the one whose carriers come first, clockwise before counter-clockwise
/// and low numbers before high ones, in the start set and then step by step.
pub(super) fn shortest(search: &Search) -> Vec<Carrier> {
    let floors = floors(search);
    let walks = walks(search, &floors);
    let start = floors[0].iter().copied().min_by_key(|&start| {
        let first = ahead(search, &walks, search.course.start, start).into_iter();
        let walk = first.map(|(_, _, rest)| rest).min().unwrap_or(0);
        (walk, start.0.map(|set| u8::MAX - set.reverse_bits()))
    });
    let start = start.expect("a balanced course has a start");
    Course::listed(start.engaged(), &climbed(search, &walks, start))
}

/// From the start up, the states that the best ladders come to with each count of threads, each state once.
fn floors(search: &Search) -> Vec<Vec<State>> {
    let course = search.course;
    let mut floors = vec![search.best_starts()];
    for threads in course.start..course.full {
        let floor = floors.last().into_iter().flatten();
        let mut above: Vec<State> = floor
            .flat_map(|&state| search.steps(threads, state).map(|(_, next)| next))
            .collect();
        above.sort_unstable();
        above.dedup();
        floors.push(above);
    }
    floors
}

/// The walk to go from each of these states, from the top down.
fn walks(search: &Search, floors: &[Vec<State>]) -> BTreeMap<State, Walks> {
    let mut walks = BTreeMap::new();
    let counts = search.course.start..search.course.full + 1;
    for (threads, floor) in counts.zip(floors).rev() {
        for &state in floor {
            let next = ahead(search, &walks, threads, state);
            let mut here: Walks = [0; _];
            for last in state.engaged().carriers() {
                let on = next
                    .iter()
                    .map(|&(carrier, _, rest)| way(search, last, carrier) + rest);
                here[index(last)] = on.min().unwrap_or(0);
            }
            walks.insert(state, here);
        }
    }
    walks
}

/// The best steps from a state, but for the walk, each with the walk to go behind it.
fn ahead(
    search: &Search,
    walks: &BTreeMap<State, Walks>,
    threads: u32,
    state: State,
) -> Vec<(Carrier, State, u32)> {
    let steps = search.steps(threads, state);
    steps
        .map(|(carrier, next)| (carrier, next, walks[&next][index(carrier)]))
        .collect()
}

/// Places round the ring from one carrier to another.
fn way(search: &Search, from: Carrier, to: Carrier) -> u32 {
    let track = search.course.track;
    way_round(track.places_each_way(), track.place(from), track.place(to))
}

/// The carriers added from a start set on.
fn climbed(search: &Search, walks: &BTreeMap<State, Walks>, start: State) -> Vec<Carrier> {
    let course = search.course;
    let (mut state, mut added) = (start, Vec::<Carrier>::new());
    for threads in course.start..course.full {
        let steps = ahead(search, walks, threads, state).into_iter();
        let step = steps.min_by_key(|&(carrier, _, rest)| {
            // The first carrier is walked to before the line begins.
            added.last().map_or(0, |&last| way(search, last, carrier)) + rest
        });
        let (carrier, next, _) = step.expect("a best ladder goes on to the top");
        added.push(carrier);
        state = next;
    }
    added
}

fn index(carrier: Carrier) -> usize {
    carrier.direction as usize * MOST_EACH_WAY as usize + carrier.number as usize
}
