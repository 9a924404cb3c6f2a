//! What a workshop's book teaches about its machine, yarn and hand.
//!
//! The parameters are estimated by least squares with the base settings as prior ([`crate::base::estimate`]). What differs from one
//! line to the next of the same hand is an error that all dressed weights of a line share. Parameters stay within the ranges
//! of their settings: one that would leave is held at the end of its range. Oil is never learnt to fill more than pressure let in.

use super::model::{LineModel, MeasureKind, Model, Source, SwatchModel};
use super::record::LineRecord;
use super::workshop::Workshop;
use crate::base::estimate::{Fit, Group, Unknown, fit};
use crate::braid::vacuum::fill_bound;
use crate::design::Design;
use crate::design::parameters::{COUNT, DraftLearned, PAIRS, Parameter, Parameters, pairs};
use crate::plan::prediction::prior;

/// A measured number is beyond chance from this many of its own spreads on.
pub const OUTLIER: f64 = 3.0;
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
    /// Whether it is beyond chance: worth measuring again. It is learnt from all the same.
    pub fn is_outlier(&self) -> bool {
        self.standardised.abs() > OUTLIER
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
    /// What the book of a workshop teaches. Numbers complained of are left out; all others count, whatever they say.
    pub fn of(workshop: &Workshop) -> Self {
        let mut unknowns = prior::of(&workshop.base);
        let swatches = swatches(workshop);
        let lines = lines(workshop);
        let counts = [swatches.len(), lines.len()].map(|count| u32::try_from(count).unwrap_or(0));
        let models: Vec<Box<dyn Model>> = swatches.into_iter().chain(lines).collect();
        let groups: Vec<Group> = models.iter().map(|model| model.group().clone()).collect();
        let expected = |values: &[f64]| {
            let parameters = parameters(values);
            let models = models.iter();
            models
                .flat_map(|model| model.expected(&parameters))
                .collect()
        };
        let fit = within_pressure(&mut unknowns, let_in(workshop), |unknowns| {
            fit(unknowns, &groups, expected)
        });
        let sources: Vec<Source> = models
            .iter()
            .flat_map(|model| model.sources())
            .copied()
            .collect();
        Self::from(&unknowns, &groups, &sources, &fit, counts)
    }

    fn from(
        unknowns: &[Unknown; COUNT],
        groups: &[Group],
        sources: &[Source],
        fit: &Fit,
        [swatches, lines]: [u32; 2],
    ) -> Self {
        let spread = |index: usize| fit.covariance[(index, index)].sqrt();
        let learnt = |parameter: Parameter| {
            let index = parameter as usize;
            Learnt {
                parameter,
                value: fit.values[index],
                spread: spread(index),
                prior: unknowns[index].mean,
                prior_spread: unknowns[index].spread,
                told_by: told_by(index, &unknowns[index], groups, sources, fit),
            }
        };
        let row = |row: usize| core::array::from_fn(|column| fit.covariance[(row, column)]);
        Self {
            learnt: Parameter::ALL.map(learnt),
            covariance: core::array::from_fn(row),
            residuals: residuals(groups, sources, fit),
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

/// The most that pressure let in with the first coat of any line measured, percent; everything where nothing was measured.
fn let_in(workshop: &Workshop) -> f64 {
    let first = |record: &LineRecord| {
        let design = record.design.design().ok()?;
        let oil = design
            .draft()
            .recipe
            .iter()
            .find(|step| step.kind.is_oil())?;
        let bound = oil.pressure().map(|left| fill_bound(left, design.air()));
        Some(100.0 * bound.unwrap_or(1.0))
    };
    let most = workshop.records.iter().filter_map(first).reduce(f64::max);
    most.unwrap_or(100.0)
}

/// Fits with no more oil than pressure let in, since lines tell nothing of what would have gone in beyond; where more was
/// believed, also with more, and takes the likelier of the two. Beyond, the belief stands as it was.
fn within_pressure(
    unknowns: &mut [Unknown; COUNT],
    let_in: f64,
    fit: impl Fn(&[Unknown]) -> Fit,
) -> Fit {
    let oil = Parameter::OilFill as usize;
    let whole = unknowns[oil];
    let end = whole.high.min(let_in);
    unknowns[oil] = Unknown { high: end, ..whole };
    let within = fit(unknowns);
    if whole.mean <= end {
        return within;
    }
    unknowns[oil] = Unknown { low: end, ..whole };
    let beyond = fit(unknowns);
    if beyond.cost <= within.cost {
        beyond
    } else {
        within
    }
}

fn parameters(values: &[f64]) -> Parameters {
    Parameters(core::array::from_fn(|index| values[index]))
}

fn swatches(workshop: &Workshop) -> Vec<Box<dyn Model>> {
    let yarn = workshop.yarn();
    let model = |(index, swatch)| {
        let sound = super::check::swatch::sound(swatch, &yarn);
        let model = SwatchModel::of(&workshop.base, index, &sound)?;
        Some(Box::new(model) as Box<dyn Model>)
    };
    workshop
        .swatches
        .iter()
        .enumerate()
        .filter_map(model)
        .collect()
}

fn lines(workshop: &Workshop) -> Vec<Box<dyn Model>> {
    let model = |(index, record)| {
        let sound = super::check::line::sound(record, &workshop.base);
        let model = LineModel::of(index, &sound)?;
        Some(Box::new(model) as Box<dyn Model>)
    };
    workshop
        .records
        .iter()
        .enumerate()
        .filter_map(model)
        .collect()
}

/// The whole error of each number, its part in a shared one included.
fn errors(groups: &[Group]) -> impl Iterator<Item = f64> + '_ {
    let of = |group: &Group| -> Vec<f64> {
        let pairs = group.errors.iter().zip(&group.shared);
        pairs.map(|(own, shared)| own.hypot(*shared)).collect()
    };
    groups.iter().flat_map(of)
}

fn told_by(
    index: usize,
    unknown: &Unknown,
    groups: &[Group],
    sources: &[Source],
    fit: &Fit,
) -> Vec<(MeasureKind, usize)> {
    let tells = |(row, error): (usize, f64)| {
        let moved = fit.slopes[(row, index)] * unknown.spread;
        (moved.abs() > TELLS * error).then(|| sources[row].kind())
    };
    let mut kinds: Vec<MeasureKind> = errors(groups).enumerate().filter_map(tells).collect();
    kinds.sort_unstable();
    kinds
        .chunk_by(|one, other| one == other)
        .map(|alike| (alike[0], alike.len()))
        .collect()
}

fn residuals(groups: &[Group], sources: &[Source], fit: &Fit) -> Vec<Residual> {
    let measured = groups
        .iter()
        .flat_map(|group| group.measured.iter().copied());
    let own = groups.iter().flat_map(|group| group.errors.iter().copied());
    let residual = |(row, (measured, error)): (usize, (f64, f64))| Residual {
        source: sources[row],
        measured,
        expected: fit.expected[row],
        error,
        standardised: fit.standardised[row],
    };
    measured.zip(own).enumerate().map(residual).collect()
}
