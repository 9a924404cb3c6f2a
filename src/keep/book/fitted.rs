//! The parameters that fit some numbers of a workshop best, with what was believed as prior.

use super::numbers::Chosen;
use super::record::LineRecord;
use super::workshop::Workshop;
use crate::base::estimate::{Fit, Unknown, fit};
use crate::braid::vacuum::fill_bound;
use crate::design::parameters::{COUNT, Parameter};
use crate::plan::prediction::prior;

/// What some numbers of a workshop teach, and what was believed before.
pub(super) fn learn(workshop: &Workshop, chosen: &Chosen) -> ([Unknown; COUNT], Fit) {
    let mut unknowns = prior::of(&workshop.base);
    let found = within_pressure(&mut unknowns, let_in(workshop), |unknowns| {
        fit(unknowns, &chosen.groups, |values| chosen.expected(values))
    });
    (unknowns, found)
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
