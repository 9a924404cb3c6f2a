//! Which wheels are fitted on which interval of the line.
//!
//! A interval is a stretch between two places where threads change. Dynamic programming over the intervals: the least sum of
//! squared angle error times length, plus a price for every change; of equals, the smaller steps. The angle is the
//! settled one of each interval; how the machine follows is calculated afterwards.

use crate::base::units::{Angle, Length};
use crate::braid::geometry::{Braiding, Load, Loaded};
use crate::braid::takeoff::{TakeOff, Wheels};

/// A stretch between two places where threads change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Which of the loads is on the machine.
    pub load: usize,
    /// Its length.
    pub length: Length,
    /// Wheels the maker insists on.
    pub pinned: Option<Wheels>,
}

/// What is known before choosing.
#[derive(Clone, Copy, Debug)]
pub struct Gearing<'a> {
    /// The train.
    pub take_off: &'a TakeOff,
    /// What can be fitted, shortest lay first; at least one.
    pub choices: &'a [Wheels],
    /// How threads make a braid.
    pub braiding: &'a Braiding,
    /// The loads that intervals point to.
    pub loads: &'a [Load],
    /// The angle aimed at.
    pub target: Angle,
    /// Price of a change: the length of line, one degree off, that it is worth.
    pub price: Length,
}

/// More choices than this are thinned out: a pair is then never farther than a few thousandths from the best.
const MOST_CHOICES: usize = 128;
/// Differences of cost below this, in degrees² · metres, are none.
const ALIKE: f64 = 1e-9;

/// The best way to reach a interval with a certain choice fitted.
#[derive(Clone, Copy)]
struct Way {
    /// Degrees squared times metres, and prices paid.
    cost: f64,
    /// Sum of the steps between lays, as differences of their logarithms: how much is changed at the changes.
    steps: f64,
    /// The choice on the interval before.
    from: usize,
}

impl Way {
    fn is_better_than(&self, other: &Self) -> bool {
        self.cost < other.cost - ALIKE
            || (self.cost <= other.cost + ALIKE && self.steps < other.steps)
    }
}

/// What can be fitted on some intervals, with what each choice would cost there.
#[derive(Clone, Debug)]
pub struct Options {
    choices: Vec<Wheels>,
    /// For every load in use and every choice, the squared error of the settled angle, in degrees².
    errors: Vec<Vec<f64>>,
}

impl Gearing<'_> {
    /// What is worth considering on these intervals.
    pub fn options(&self, intervals: &[Interval]) -> Options {
        let cosine = self.target.radians().cos();
        let choices = self.considered(intervals, cosine);
        let mut errors = vec![Vec::new(); self.loads.len()];
        for interval in intervals {
            if errors[interval.load].is_empty() {
                let loaded = self.braiding.loaded(self.loads[interval.load]);
                let error = |&wheels: &Wheels| self.squared_error(&loaded, wheels, cosine);
                errors[interval.load] = choices.iter().map(error).collect();
            }
        }
        Options { choices, errors }
    }

    /// The wheels of every interval. Pinned intervals keep theirs.
    pub fn choose(&self, options: &Options, intervals: &[Interval]) -> Vec<Wheels> {
        let choices = &options.choices;
        let size: Vec<f64> = choices.iter().map(|wheels| wheels.ratio().ln()).collect();
        // One row after another, so that nothing is asked for on the way.
        let mut ways: Vec<Way> = Vec::with_capacity(intervals.len() * choices.len());
        let mut cheapest = Vec::with_capacity(choices.len());
        for interval in intervals {
            let cost = |choice: usize| options.cost(interval, choice);
            match ways.len().checked_sub(choices.len()) {
                None => ways.extend((0..choices.len()).map(|choice| Way {
                    cost: cost(choice),
                    steps: 0.0,
                    from: choice,
                })),
                Some(before) => self.next_row(&mut ways, before, &size, &mut cheapest, cost),
            }
        }
        let rows: Vec<&[Way]> = ways.chunks(choices.len().max(1)).collect();
        let traced = trace(&rows).into_iter();
        traced.map(|choice| choices[choice]).collect()
    }

    /// Squared error of the settled angle, in degrees². `guess` is the cosine of an angle near it.
    fn squared_error(&self, loaded: &Loaded, wheels: Wheels, guess: f64) -> f64 {
        let cosine = loaded.cosine_at(self.take_off.lay(wheels), guess);
        let angle = Angle::from_radians(cosine.acos());
        (angle - self.target).degrees().powi(2)
    }

    /// Adds the row after that which begins at `before`, the last one.
    fn next_row(
        &self,
        ways: &mut Vec<Way>,
        before: usize,
        size: &[f64],
        cheapest: &mut Vec<usize>,
        cost: impl Fn(usize) -> f64,
    ) {
        let row = &ways[before..];
        let least = row.iter().map(|way| way.cost).fold(f64::INFINITY, f64::min);
        // Only the cheapest can be worth leaving; among them the one nearest in size is.
        cheapest.clear();
        cheapest.extend((0..size.len()).filter(|&from| row[from].cost <= least + ALIKE));
        for choice in 0..size.len() {
            let best = self.best_into(choice, &ways[before..], size, cheapest);
            ways.push(Way {
                cost: best.cost + cost(choice),
                ..best
            });
        }
    }

    /// The best way from a row to a choice, its own cost left out.
    fn best_into(&self, choice: usize, before: &[Way], size: &[f64], cheapest: &[usize]) -> Way {
        let stay = Way {
            from: choice,
            ..before[choice]
        };
        let change = |&from: &usize| Way {
            cost: before[from].cost + self.price.metres(),
            steps: before[from].steps + (size[from] - size[choice]).abs(),
            from,
        };
        let changes = cheapest.iter().filter(|&&from| from != choice).map(change);
        changes.fold(
            stay,
            |best, way| {
                if way.is_better_than(&best) { way } else { best }
            },
        )
    }

    /// The choices worth trying: those between the shortest and the longest lay any interval wants, and one more on either
    /// side; thinned where there are still too many. What is pinned stays, at the end: nothing here relies on an order.
    fn considered(&self, intervals: &[Interval], cosine: f64) -> Vec<Wheels> {
        let ideal = |interval: &Interval| {
            self.braiding
                .at_cosine(self.loads[interval.load], cosine)
                .lay
        };
        let (short, long) = intervals.iter().map(ideal).fold(
            (Length::from_metres(f64::INFINITY), Length::ZERO),
            |(short, long), lay| (short.min(lay), long.max(lay)),
        );
        let lay = |wheels: &Wheels| self.take_off.lay(*wheels);
        let first = self
            .choices
            .partition_point(|wheels| lay(wheels) < short)
            .saturating_sub(1);
        let last = self.choices.partition_point(|wheels| lay(wheels) <= long);
        let within = &self.choices[first..(last + 1).min(self.choices.len())];
        let every = within.len().div_ceil(MOST_CHOICES).max(1);
        let mut considered: Vec<Wheels> = within.iter().copied().step_by(every).collect();
        for pinned in intervals.iter().filter_map(|interval| interval.pinned) {
            if !considered.contains(&pinned) {
                considered.push(pinned);
            }
        }
        considered
    }
}

impl Options {
    /// The wheels that would do best all along, were none ever changed.
    pub fn one_throughout(&self, intervals: &[Interval]) -> Option<Wheels> {
        let total = |choice: usize| -> f64 {
            let cost =
                |interval: &Interval| self.errors[interval.load][choice] * interval.length.metres();
            intervals.iter().map(cost).sum()
        };
        let costs = self.choices.iter().enumerate();
        costs
            .map(|(choice, wheels)| (total(choice), *wheels))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, wheels)| wheels)
    }

    fn cost(&self, interval: &Interval, choice: usize) -> f64 {
        let refused = interval
            .pinned
            .is_some_and(|pinned| pinned != self.choices[choice]);
        if refused {
            f64::INFINITY
        } else {
            self.errors[interval.load][choice] * interval.length.metres()
        }
    }
}

/// Back from the cheapest end to the first interval.
fn trace(ways: &[&[Way]]) -> Vec<usize> {
    let Some(last) = ways.last() else {
        return Vec::new();
    };
    let best = (0..last.len()).reduce(|best, choice| {
        if last[choice].is_better_than(&last[best]) {
            choice
        } else {
            best
        }
    });
    let mut choice = best.unwrap_or(0);
    let mut traced: Vec<usize> = ways
        .iter()
        .rev()
        .map(|row| {
            let here = choice;
            choice = row[here].from;
            here
        })
        .collect();
    traced.reverse();
    traced
}
