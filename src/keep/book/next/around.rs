//! What is known, and how expected numbers change around it.

use nalgebra::DMatrix;

use crate::base::estimate::Unknown;
use crate::design::Design;
use crate::design::parameters::{COUNT, Parameter, Parameters};
use crate::keep::book::estimate::Estimate;
use crate::keep::book::model::Model;
use crate::keep::book::workshop::Workshop;
use crate::plan::prediction::prior;

/// A parameter of the braid is moved by this share of its spread to see what follows.
const NUDGE: f64 = 0.1;
/// Those of the dressing by a whole spread: what pressure lets into a void ends abruptly, so that no slope at one point would
/// tell it. The prediction of a plan does the same.
const WHOLE: f64 = 1.0;

/// The order in which parameters are moved: those of the dressing first, while the line is braided as it is known.
const ORDER: [(Parameter, f64); COUNT] = [
    (Parameter::OilFill, WHOLE),
    (Parameter::VarnishPickUp, WHOLE),
    (Parameter::Weighed, WHOLE),
    (Parameter::Constant, NUDGE),
    (Parameter::Crimp, NUDGE),
    (Parameter::FibreFraction, NUDGE),
    (Parameter::Yarn, NUDGE),
];

/// What a book makes of the parameters.
pub(super) struct Around<'a> {
    /// The workshop's settings.
    pub(super) base: &'a Design,
    /// The values known.
    pub(super) at: Parameters,
    /// Their covariance.
    pub(super) covariance: DMatrix<f64>,
    unknowns: [Unknown; COUNT],
}

impl<'a> Around<'a> {
    pub(super) fn of(workshop: &'a Workshop, estimate: &Estimate) -> Self {
        Self {
            base: &workshop.base,
            at: estimate.parameters(),
            covariance: DMatrix::from_fn(COUNT, COUNT, |row, column| {
                estimate.covariance[row][column]
            }),
            unknowns: prior::of(&workshop.base),
        }
    }

    /// Slopes of what a model expects: a row for each number, a column for each parameter. Central differences, within the range
    /// of each parameter.
    pub(super) fn slopes(&self, model: &impl Model) -> DMatrix<f64> {
        let mut slopes = DMatrix::zeros(model.sources().len(), COUNT);
        for (parameter, share) in ORDER {
            let index = parameter as usize;
            let (value, unknown) = (self.at.get(parameter), &self.unknowns[index]);
            let by = share * self.covariance[(index, index)].sqrt();
            let high = (value + by).min(unknown.high.max(value));
            let low = (value - by).max(unknown.low.min(value));
            if high <= low {
                continue;
            }
            let up = model.expected(&self.at.with(parameter, high));
            let down = model.expected(&self.at.with(parameter, low));
            for (row, (up, down)) in up.iter().zip(&down).enumerate() {
                slopes[(row, index)] = (up - down) / (high - low);
            }
        }
        slopes
    }
}
