//! How many knots, and where: knots are taken out, put in and moved until the criterion falls no more.

use super::broken::{Bounds, Broken};
use super::criterion::Criterion;
use super::refine::{Refined, refine};
use super::sums::Sums;
use super::ties::Ties;

/// Rounds after which patience ends; most lines take two or three.
const MOST_ROUNDS: usize = 8;
/// Most places at which a new knot is tried. The best of them is moved to where it belongs afterwards.
const MOST_TRIES: usize = 240;
/// A smaller gain than this is rounding.
const LEAST_GAIN: f64 = 1e-6;

/// A line with what it costs.
#[derive(Clone)]
struct Priced {
    refined: Refined,
    cost: f64,
}

/// What lines are judged by.
struct Judge<'a> {
    sums: &'a Sums,
    bounds: &'a Bounds,
    criterion: &'a Criterion,
}

impl Judge<'_> {
    fn priced(&self, start: Broken) -> Priced {
        let ties = Ties::free(start.places.len());
        let refined = refine(self.sums, start, &ties, self.bounds);
        let cost = self.criterion.cost(refined.squares, ties.count());
        Priced { refined, cost }
    }

    /// The line through these places before they are moved, with the squares it leaves.
    fn through(&self, places: Vec<f64>) -> (Broken, f64) {
        Broken::through(self.sums, places, self.bounds)
    }

    /// The best line with one knot less, while that is better.
    fn eliminated(&self, mut now: Priced) -> Priced {
        loop {
            let places = &now.refined.line.places;
            let without = |knot: usize| {
                let mut fewer = places.clone();
                fewer.remove(knot);
                self.through(fewer)
            };
            let mut tries: Vec<(Broken, f64)> = (1..places.len() - 1).map(without).collect();
            tries.sort_by(|one, other| one.1.total_cmp(&other.1));
            // Knots move when one is taken out, so that the second best may turn out best.
            let tries = tries.into_iter().take(2).map(|(line, _)| self.priced(line));
            match tries.min_by(|one, other| one.cost.total_cmp(&other.cost)) {
                Some(best) if best.cost < now.cost - LEAST_GAIN => now = best,
                _ => return now,
            }
        }
    }

    /// The places with one more where it leaves the fewest squares; nothing where there is no room.
    fn one_more(&self, places: &[f64]) -> Option<(Broken, f64)> {
        let numbers = self.sums.places();
        let stride = numbers.len().div_ceil(MOST_TRIES).max(1);
        let middles = numbers.windows(2).step_by(stride);
        let middles = middles.map(|pair| f64::midpoint(pair[0], pair[1]));
        let with = |place: f64| {
            let at = places.partition_point(|&knot| knot < place);
            let mut more = places.to_vec();
            more.insert(at, place);
            self.bounds.admit(&more).then(|| self.through(more))
        };
        middles
            .filter_map(with)
            .min_by(|one, other| one.1.total_cmp(&other.1))
    }

    /// One knot more, where that is better.
    fn inserted(&self, now: &Priced) -> Option<Priced> {
        let more = self.priced(self.one_more(&now.refined.line.places)?.0);
        (more.cost < now.cost - LEAST_GAIN).then_some(more)
    }

    /// A knot taken out and put in where it fits best, where that is better.
    fn moved(&self, now: &Priced) -> Option<Priced> {
        let places = &now.refined.line.places;
        let moved = |knot: usize| {
            let mut fewer = places.clone();
            let taken = fewer.remove(knot);
            let (line, squares) = self.one_more(&fewer)?;
            // In the same gap between numbers it would only return.
            let is_back = self.sums.before(line.places[knot]) == self.sums.before(taken);
            (!is_back).then_some((line, squares))
        };
        let tries = (1..places.len() - 1).filter_map(moved);
        let best = tries.min_by(|one, other| one.1.total_cmp(&other.1))?;
        let moved = self.priced(best.0);
        (moved.cost < now.cost - LEAST_GAIN).then_some(moved)
    }
}

/// The line of least cost that is reached from a first guess by taking out, putting in and moving single knots.
pub fn settle(sums: &Sums, start: Broken, bounds: &Bounds, criterion: &Criterion) -> Refined {
    let judge = Judge {
        sums,
        bounds,
        criterion,
    };
    let mut now = judge.eliminated(judge.priced(start));
    for _ in 0..MOST_ROUNDS {
        match judge.inserted(&now).or_else(|| judge.moved(&now)) {
            Some(better) => now = judge.eliminated(better),
            None => break,
        }
    }
    now.refined
}
