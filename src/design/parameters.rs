//! What can be learnt from measuring: the few numbers in which one workshop's machine, yarn and hand differ from another's.
//!
//! Their values stand in a design's settings like any other; how well they are known stands in [`DraftLearned`].

use crate::base::rule::{Rule, rule};
use crate::design::refusal::admit;
use serde::{Deserialize, Serialize};

use crate::base::units::text::Unit;
use crate::design::refusal::{Place, Refusal};
use crate::design::settings::{Setting, Settings};

/// How many there are.
pub const COUNT: usize = 7;
/// Pairs of different parameters.
pub const PAIRS: usize = COUNT * (COUNT - 1) / 2;

/// Every pair of different parameters by their places, in the order correlations are kept: first with second, first with
/// third, … second with third, ….
pub fn pairs() -> impl Iterator<Item = (usize, usize)> {
    (0..COUNT).flat_map(|first| (first + 1..COUNT).map(move |second| (first, second)))
}

/// A number learnt from measuring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Parameter {
    /// Machine constant.
    Constant,
    /// Crimp.
    Crimp,
    /// Share of fibre in the braid's section.
    FibreFraction,
    /// True size of the yarn over its label.
    Yarn,
    /// Share of the voids a coat of oil fills.
    OilFill,
    /// Varnish picked up over what is calculated.
    VarnishPickUp,
    /// Dressed weight over what is calculated.
    Weighed,
}

impl Parameter {
    /// Every parameter; the order is part of the formats: append only.
    pub const ALL: [Self; COUNT] = [
        Self::Constant,
        Self::Crimp,
        Self::FibreFraction,
        Self::Yarn,
        Self::OilFill,
        Self::VarnishPickUp,
        Self::Weighed,
    ];

    /// The setting that holds its value, in the unit of that setting's rule.
    pub const fn setting(self) -> Setting {
        match self {
            Self::Constant => Setting::MachineConstant,
            Self::Crimp => Setting::Crimp,
            Self::FibreFraction => Setting::FibreFraction,
            Self::Yarn => Setting::YarnFactor,
            Self::OilFill => Setting::OilFill,
            Self::VarnishPickUp => Setting::VarnishPickUp,
            Self::Weighed => Setting::Weighed,
        }
    }

    /// What is shown: the name of that setting.
    pub const fn name(self) -> &'static str {
        self.setting().rule().name
    }
}

/// A value for each parameter, each in the unit of its setting, in the order of [`Parameter::ALL`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameters(pub [f64; COUNT]);

impl Parameters {
    /// Those of some settings.
    pub fn of(settings: &Settings) -> Self {
        Self(Parameter::ALL.map(|parameter| settings.get(parameter.setting())))
    }

    /// The value of one.
    pub fn get(&self, parameter: Parameter) -> f64 {
        self.0[parameter as usize]
    }

    /// The same with another value for one.
    #[must_use]
    pub fn with(mut self, parameter: Parameter, value: f64) -> Self {
        self.0[parameter as usize] = value;
        self
    }

    /// Puts them into settings.
    pub fn put_into(&self, settings: &mut Settings) {
        for parameter in Parameter::ALL {
            settings.set(parameter.setting(), self.get(parameter));
        }
    }
}

/// How well the parameters of a design are known, and from what: not yet checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftLearned {
    /// One standard deviation of each parameter, in the unit of its setting.
    pub spreads: [f64; COUNT],
    /// Correlation of each pair, percent: first with second, first with third, … second with third, ….
    pub correlations_percent: [f64; PAIRS],
    /// Standard deviation from one line to the next of the dressed weight, percent.
    pub scatter_percent: f64,
    /// Swatches measured.
    pub swatches: u32,
    /// Lines measured.
    pub lines: u32,
}

/// A spread; the finest step is a tenth of that of the finest setting.
pub(crate) const SPREAD: Rule = rule("spread of what was learnt", Unit::One, 0.0, 1_000.0, 10_000);
/// The size of a correlation, in percent.
pub(crate) const CORRELATION: Rule = rule(
    "correlation of what was learnt, percent",
    Unit::One,
    0.0,
    100.0,
    1,
);
/// A scatter, in percent.
pub(crate) const SCATTER: Rule = rule(
    "scatter from line to line, percent",
    Unit::One,
    0.0,
    100.0,
    100,
);
/// Most swatches or lines counted.
pub(crate) const MOST_COUNTED: u32 = 10_000;

impl DraftLearned {
    pub(crate) fn admitted(&self) -> Result<Self, Refusal> {
        let place = Place::Learned;
        let mut learned = self.clone();
        for spread in &mut learned.spreads {
            *spread = admit(SPREAD, *spread, place)?;
        }
        for correlation in &mut learned.correlations_percent {
            // A rule counts its steps from zero upwards, so the size is admitted and the sign kept.
            let size = admit(CORRELATION, correlation.abs().round(), place)?;
            *correlation = size.copysign(*correlation) + 0.0;
        }
        learned.scatter_percent = admit(SCATTER, self.scatter_percent, place)?;
        learned.swatches = self.swatches.min(MOST_COUNTED);
        learned.lines = self.lines.min(MOST_COUNTED);
        Ok(learned)
    }
}
