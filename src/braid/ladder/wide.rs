//! A good ladder for tracks too large to be searched in full.
//!
//! From the most promising start sets, every next state is tried; the best few, each reached by its best way, are kept
//! and gone on from. Beside them runs one ladder that takes the best next state at each step and never looks back; what
//! comes out is the better of the two.

use super::course::Course;
use super::ground::{Branch, Bud, Ground, Rank, State};
use super::start;
use crate::braid::track::{Carrier, Direction, Engaged, bits};

/// How many ladders are kept from state to state.
const KEPT: usize = 16;

/// The best ladder found for a balanced course.
pub(super) fn good(course: &Course) -> Vec<Carrier> {
    let ground = Ground::new(course);
    let best = kept_few(&ground)
        .into_iter()
        .chain(never_looking_back(&ground));
    let best = best.min_by_key(Branch::rank);
    best.map(|branch| branch.listed()).unwrap_or_default()
}

/// The best ladder found by keeping a few from state to state.
fn kept_few(ground: &Ground) -> Option<Branch> {
    let mut kept: Vec<Branch> = starts(ground).into_iter().map(Branch::from).collect();
    for threads in ground.course.start..ground.course.full {
        let may_add = ground.course.may_add(threads);
        let buds = kept.iter().flat_map(|branch| {
            let next = Course::next(branch.top.set, may_add);
            next.map(|carrier| ground.bud(branch, carrier))
        });
        let buds: Vec<Bud> = buds.collect();
        let best = best_few(&buds, Bud::rank, Bud::set);
        kept = best.map(Bud::grown).collect();
    }
    kept.into_iter().min_by_key(Branch::rank)
}

/// The best few, each state once. Of equals the first stand first: early branches and low numbers.
fn best_few<T>(
    all: &[T],
    rank: impl Fn(&T) -> Rank,
    set: impl Fn(&T) -> Engaged,
) -> impl Iterator<Item = &T> {
    let ranks = all.iter().map(rank).zip(0_usize..);
    let mut ranks: Vec<(Rank, usize)> = ranks.collect();
    ranks.sort_unstable();
    let mut seen: Vec<Engaged> = Vec::with_capacity(KEPT);
    let mut best = ranks.into_iter().map(move |(_, index)| &all[index]);
    core::iter::from_fn(move || {
        if seen.len() == KEPT {
            return None;
        }
        let next = best.find(|one| !seen.contains(&set(one)))?;
        seen.push(set(next));
        Some(next)
    })
}

/// The most promising start sets, each once; where none of those tried holds, the best of them mended.
fn starts(ground: &Ground) -> Vec<State> {
    let sets = start::sets(ground.course).map(|(set, _)| ground.state(set));
    let branches: Vec<Branch> = sets.map(Branch::from).collect();
    let best = best_few(&branches, Branch::rank, |branch| branch.top.set);
    let mut starts: Vec<State> = best.map(|branch| branch.top).collect();
    if let Some(best) = starts.first().filter(|best| best.loose() > 0) {
        starts[0] = mended(ground, *best);
    }
    starts
}

/// A start set of which single carriers are exchanged for others of their direction as long as that leaves fewer loose.
fn mended(ground: &Ground, mut state: State) -> State {
    while let Some(better) = exchanged(ground, &state) {
        state = better;
    }
    state
}

/// The best set with one carrier exchanged, if fewer threads lie loose in it.
fn exchanged(ground: &Ground, state: &State) -> Option<State> {
    let free = ground.course.free();
    let sets = Direction::BOTH.into_iter().flat_map(|direction| {
        let (way, set) = (direction as usize, state.set.of(direction));
        bits(set).flat_map(move |out| {
            bits(free[way] & !set).map(move |put| {
                let mut sets = Direction::BOTH.map(|direction| state.set.of(direction));
                sets[way] = set & !(1 << out) | 1 << put;
                Engaged::of_numbers(sets)
            })
        })
    });
    let best = sets.map(|set| ground.state(set)).min_by_key(State::rank)?;
    (best.loose() < state.loose()).then_some(best)
}

/// The ladder that takes the best next state at each step, clockwise carriers first.
fn never_looking_back(ground: &Ground) -> Option<Branch> {
    let course = ground.course;
    let leader =
        |set: Engaged| set.count(Direction::Clockwise) < set.count(Direction::CounterClockwise);
    let sets = start::sets(course).map(|(set, turn)| (ground.state(set), turn));
    let start = sets.min_by_key(|(state, turn)| (leader(state.set), ground.demerit(state), *turn));
    let mut branch = Branch::from(start?.0);
    for threads in course.start..course.full {
        let next = Course::next(branch.top.set, course.may_add(threads));
        let last = branch.listed().last().copied();
        let best = next
            .map(|carrier| ground.bud(&branch, carrier).grown())
            .min_by_key(|grown| {
                let added = grown.added.last().copied();
                let direction = added.map(|carrier| carrier.direction);
                (
                    direction,
                    ground.demerit(&grown.top),
                    ground.walk(last, added),
                )
            });
        branch = best?;
    }
    Some(branch)
}
