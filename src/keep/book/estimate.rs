//! What a workshop's book teaches about its machine, yarn and hand.
//!
//! The parameters are estimated by least squares with the base settings as prior ([`crate::base::estimate`]). What differs from one
//! line to the next of the same hand is an error that all dressed weights of a line share. Parameters stay within the ranges
//! of their settings: one that would leave is held at the end of its range. Oil is never learnt to fill more than pressure let in.
//!
//! What is complained of is left out. So is what is far from all that is expected ([`DOUBTED`]), until the maker has confirmed
//! it: expected by what was believed, and by the numbers confirmed. Of the rest a number far from the others pulls no harder
//! than one a little off (Huber's loss with its bend at [`BEND`]); what was confirmed pulls in full.

use super::doubt::{DOUBTED, Doubt};
use super::fitted::learn;
use super::model::{MeasureKind, Source};
use super::numbers::{Chosen, Numbers};
use super::slip;
use super::workshop::Workshop;
use crate::base::estimate::{BEND, Expectation, Fit, Unknown, expect};
use crate::design::Design;
use crate::design::parameters::{COUNT, DraftLearned, PAIRS, Parameter, Parameters, pairs};
use crate::plan::prediction::prior;

/// A measured number is beyond chance from this many of its own spreads on.
pub const OUTLIER: f64 = 3.0;
/// A number goes well with the others up to this many of its own spreads: 95 of 100 do.
const ALIKE: f64 = 2.0;
/// A number tells of a parameter when a spread of what was believed moves it by this many of its errors.
const TELLS: f64 = 0.2;
/// A parameter has moved on when it differs by more than this many of its spreads.
const MOVED: f64 = 0.5;

/// A parameter as the book teaches it.
#[derive(Clone, Debug, PartialEq)]
pub struct Learnt {
    /// Which.
    pub parameter: Parameter,
    /// Its value, in the unit of its setting.
    pub value: f64,
    /// Its spread, one standard deviation.
    pub spread: f64,
    /// What was believed before.
    pub prior: f64,
    /// Spread of that belief.
    pub prior_spread: f64,
    /// The kinds of number that tell of it, and how many of each.
    pub told_by: Vec<(MeasureKind, usize)>,
}

/// A measured number beside what the estimate makes one expect.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Where it was measured.
    pub source: Source,
    /// The number, in the unit of its kind.
    pub measured: f64,
    /// What is expected.
    pub expected: f64,
    /// Its measuring error, one standard deviation.
    pub error: f64,
    /// How far it is from what all other numbers make one expect, in spreads of that expectation.
    pub standardised: f64,
}

/// What a book teaches.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The parameters, in the order of [`Parameter::ALL`].
    pub learnt: [Learnt; COUNT],
    /// Their covariance, in the units of their settings.
    pub covariance: [[f64; COUNT]; COUNT],
    /// Every number that was learnt from.
    pub residuals: Vec<Residual>,
    /// Numbers that wait for the maker's word, in the order of the book: those far from what is expected, which are not
    /// learnt from meanwhile, and those that stand out from the others.
    pub doubts: Vec<Doubt>,
    /// Swatches learnt from.
    pub swatches: u32,
    /// Lines learnt from.
    pub lines: u32,
}

impl Learnt {
    /// The share of what is known that came from measuring: 1 less the share of the belief's variance that is left.
    pub fn from_measuring(&self) -> f64 {
        let left = self.spread / self.prior_spread;
        (1.0 - left * left).clamp(0.0, 1.0)
    }

    /// What tells of it, in words: `2 lays, 1 swatch weight`; empty where nothing does.
    pub fn told_by_words(&self) -> String {
        let counted = self.told_by.iter();
        let words: Vec<String> = counted.map(|&(kind, count)| kind.counted(count)).collect();
        words.join(", ")
    }
}

impl Residual {
    /// Whether it is beyond chance: worth measuring again. It is learnt from all the same, if with little weight.
    pub fn is_outlier(&self) -> bool {
        self.standardised.abs() > OUTLIER
    }

    /// How well it goes with all other numbers, in words.
    pub fn fit_words(&self) -> &'static str {
        if self.is_outlier() {
            "stands out, measure again"
        } else if self.standardised.abs() > ALIKE {
            "a little off"
        } else {
            "fits well"
        }
    }
}

/// A parameter that has moved on since a design was planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Which.
    pub parameter: Parameter,
    /// Its value in the design.
    pub planned: f64,
    /// Its value now.
    pub now: f64,
    /// Its spread now.
    pub spread: f64,
}

impl Estimate {
    /// What the book of a workshop teaches.
    pub fn of(workshop: &Workshop) -> Self {
        let numbers = Numbers::of(workshop);
        let far = far(workshop, &numbers);
        let is_far = |source: Source| far.iter().any(|doubt| doubt.source == source);
        let bend = |source: Source| {
            if workshop.is_confirmed(source) {
                f64::INFINITY
            } else {
                BEND
            }
        };
        let chosen = numbers.choose(|source| !is_far(source), bend);
        let (unknowns, fit) = learn(workshop, &chosen);
        let mut estimate = Self::from(&unknowns, &chosen, &fit);
        estimate.doubts = doubts(workshop, far, &estimate.residuals);
        estimate
    }

    fn from(unknowns: &[Unknown; COUNT], chosen: &Chosen, fit: &Fit) -> Self {
        let spread = |index: usize| fit.covariance[(index, index)].sqrt();
        let learnt = |parameter: Parameter| {
            let index = parameter as usize;
            Learnt {
                parameter,
                value: fit.values[index],
                spread: spread(index),
                prior: unknowns[index].mean,
                prior_spread: unknowns[index].spread,
                told_by: told_by(index, &unknowns[index], chosen, fit),
            }
        };
        let row = |row: usize| core::array::from_fn(|column| fit.covariance[(row, column)]);
        let [swatches, lines] = chosen.counts();
        Self {
            learnt: Parameter::ALL.map(learnt),
            covariance: core::array::from_fn(row),
            residuals: residuals(chosen, fit),
            doubts: Vec::new(),
            swatches,
            lines,
        }
    }

    /// The values, in the units of their settings.
    pub fn parameters(&self) -> Parameters {
        Parameters(core::array::from_fn(|index| self.learnt[index].value))
    }

    /// What a design that is planned with these values keeps of how well they are known.
    pub fn learned(&self) -> DraftLearned {
        let spread = |index: usize| self.covariance[index][index].sqrt();
        let mut correlations_percent = [0.0; PAIRS];
        for ((first, second), percent) in pairs().zip(&mut correlations_percent) {
            let together = self.covariance[first][second] / (spread(first) * spread(second));
            *percent = (100.0 * together).clamp(-100.0, 100.0);
        }
        DraftLearned {
            spreads: core::array::from_fn(spread),
            correlations_percent,

            scatter_percent: 100.0 * prior::SCATTER,
            swatches: self.swatches,
            lines: self.lines,
        }
    }

    /// How well the numbers of a swatch go with all others: that of the one that goes least. Nothing where none was learnt from.
    pub fn fit_of_swatch(&self, index: usize) -> Option<&'static str> {
        let of_swatch =
            |residual: &&Residual| matches!(residual.source, Source::Swatch(of, _) if of == index);
        let all = self.residuals.iter().filter(of_swatch);
        let worst =
            all.max_by(|one, other| one.standardised.abs().total_cmp(&other.standardised.abs()));
        worst.map(Residual::fit_words)
    }

    /// The parameters that differ from a design's by more than half a spread, and by more than their settings can hold.
    pub fn moved_on(&self, design: &Design) -> Vec<Moved> {
        let moved = |learnt: &Learnt| {
            let setting = learnt.parameter.setting();
            let planned = design.setting(setting);
            let step = 1.0 / f64::from(setting.rule().steps);
            let off = (learnt.value - planned).abs();
            (off > (MOVED * learnt.spread).max(step)).then_some(Moved {
                parameter: learnt.parameter,
                planned,
                now: learnt.value,
                spread: learnt.spread,
            })
        };
        self.learnt.iter().filter_map(moved).collect()
    }
}

/// Numbers far from what is expected of them by what was believed and by the numbers confirmed.
fn far(workshop: &Workshop, numbers: &Numbers) -> Vec<Doubt> {
    let plain = |_| f64::INFINITY;
    let confirmed = numbers.choose(|source| workshop.is_confirmed(source), plain);
    let open = numbers.choose(|source| !workshop.is_confirmed(source), plain);
    let (unknowns, known) = learn(workshop, &confirmed);
    let expected = expect(&unknowns, &known, |values| open.expected(values));
    let numbers = open.measured().zip(open.errors());
    let doubt = |(&source, ((measured, error), expected)): (&Source, (Number, Expectation))| {
        // Most errors go with what is measured: a slip must not excuse itself by its own size.
        let error = error * (expected.value / measured).abs().min(1.0);
        Doubt {
            source,
            measured,
            expected: expected.value,
            spread: expected.spread.hypot(error),
            is_used: false,
            slip: None,
        }
    };
    let all = open.sources.iter().zip(numbers.zip(expected)).map(doubt);
    all.filter(|doubt| doubt.off().abs() > DOUBTED).collect()
}

/// A measured number with its error.
type Number = (f64, f64);

/// Those far off, and those that stand out from the others and were not confirmed, each with the slip that would explain it.
fn doubts(workshop: &Workshop, far: Vec<Doubt>, residuals: &[Residual]) -> Vec<Doubt> {
    let stand_out = residuals
        .iter()
        .filter(|residual| residual.is_outlier() && !workshop.is_confirmed(residual.source));
    let doubt = |residual: &Residual| Doubt {
        source: residual.source,
        measured: residual.measured,
        expected: residual.expected,
        spread: (residual.measured - residual.expected).abs() / residual.standardised.abs(),
        is_used: true,
        slip: None,
    };
    let mut doubts: Vec<Doubt> = far.into_iter().chain(stand_out.map(doubt)).collect();
    doubts.sort_by_key(|doubt| doubt.source);
    let slips: Vec<_> = doubts
        .iter()
        .map(|doubt| slip::of(workshop, doubt, &doubts))
        .collect();
    for (doubt, slip) in doubts.iter_mut().zip(slips) {
        doubt.slip = slip;
    }
    doubts
}

fn told_by(
    index: usize,
    unknown: &Unknown,
    chosen: &Chosen,
    fit: &Fit,
) -> Vec<(MeasureKind, usize)> {
    let slope = |row: usize| fit.slopes[(row, index)];
    let telling = chosen.telling(slope, unknown, TELLS);
    let mut kinds: Vec<MeasureKind> = telling.map(Source::kind).collect();
    kinds.sort_unstable();
    kinds
        .chunk_by(|one, other| one == other)
        .map(|alike| (alike[0], alike.len()))
        .collect()
}

fn residuals(chosen: &Chosen, fit: &Fit) -> Vec<Residual> {
    let pairs = chosen.measured().zip(chosen.own_errors());
    let residual = |(row, (measured, error)): (usize, (f64, f64))| Residual {
        source: chosen.sources[row],
        measured,
        expected: fit.expected[row],
        error,
        standardised: fit.standardised[row],
    };
    pairs.enumerate().map(residual).collect()
}
