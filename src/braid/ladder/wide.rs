//! A good ladder for tracks too large to be searched in full.
//!
//! From the most promising start sets, every next state is tried; the best few, each reached by its best way, are kept
//! and gone on from. Beside them runs one ladder that takes the best next state at each step and never looks back; what
//! comes out is the better of the two.

use super::constraints::Constraints;
use super::evaluator::{Branch, Bud, Evaluator, Rank, RatedState};
use super::start;
use crate::braid::track::{Carrier, Direction, Engaged, bits};

/// How many ladders are kept from state to state.
const KEPT: usize = 16;

/// The best ladder found for a balanced constraints.
pub(super) fn good(constraints: &Constraints) -> Vec<Carrier> {
    let evaluator = Evaluator::new(constraints);
    let best = kept_few(&evaluator)
        .into_iter()
        .chain(never_looking_back(&evaluator));
    let best = best.min_by_key(Branch::rank);
    best.map(|branch| branch.listed()).unwrap_or_default()
}

/// The best ladder found by keeping a few from state to state.
fn kept_few(evaluator: &Evaluator) -> Option<Branch> {
    let mut kept: Vec<Branch> = starts(evaluator).into_iter().map(Branch::from).collect();
    for threads in evaluator.constraints.start..evaluator.constraints.full {
        let may_add = evaluator.constraints.may_add(threads);
        let buds = kept.iter().flat_map(|branch| {
            let next = Constraints::next(branch.top.set, may_add);
            next.map(|carrier| evaluator.bud(branch, carrier))
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

/// The most promising start sets, each once; where none of those tried holds, the best of them repaired.
fn starts(evaluator: &Evaluator) -> Vec<RatedState> {
    let sets = start::sets(evaluator.constraints).map(|(set, _)| evaluator.state(set));
    let branches: Vec<Branch> = sets.map(Branch::from).collect();
    let best = best_few(&branches, Branch::rank, |branch| branch.top.set);
    let mut starts: Vec<RatedState> = best.map(|branch| branch.top).collect();
    if let Some(best) = starts.first().filter(|best| best.loose() > 0) {
        starts[0] = mended(evaluator, *best);
    }
    starts
}

/// A start set of which single carriers are exchanged for others of their direction as long as that leaves fewer loose.
fn mended(evaluator: &Evaluator, mut state: RatedState) -> RatedState {
    while let Some(better) = exchanged(evaluator, &state) {
        state = better;
    }
    state
}

/// The best set with one carrier exchanged, if fewer threads lie loose in it.
fn exchanged(evaluator: &Evaluator, state: &RatedState) -> Option<RatedState> {
    let free = evaluator.constraints.free();
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
    let best = sets
        .map(|set| evaluator.state(set))
        .min_by_key(RatedState::rank)?;
    (best.loose() < state.loose()).then_some(best)
}

/// The ladder that takes the best next state at each step, clockwise carriers first.
fn never_looking_back(evaluator: &Evaluator) -> Option<Branch> {
    let constraints = evaluator.constraints;
    let leader =
        |set: Engaged| set.count(Direction::Clockwise) < set.count(Direction::CounterClockwise);
    let sets = start::sets(constraints).map(|(set, turn)| (evaluator.state(set), turn));
    let start =
        sets.min_by_key(|(state, turn)| (leader(state.set), evaluator.demerit(state), *turn));
    let mut branch = Branch::from(start?.0);
    for threads in constraints.start..constraints.full {
        let next = Constraints::next(branch.top.set, constraints.may_add(threads));
        let last = branch.listed().last().copied();
        let best = next
            .map(|carrier| evaluator.bud(&branch, carrier).grown())
            .min_by_key(|grown| {
                let added = grown.added.last().copied();
                let direction = added.map(|carrier| carrier.direction);
                (
                    direction,
                    evaluator.demerit(&grown.top),
                    evaluator.walk(last, added),
                )
            });
        branch = best?;
    }
    Some(branch)
}
