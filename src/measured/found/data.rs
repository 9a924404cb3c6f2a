//! The readings a taper can be found from, in the order of their places.

use super::taper::{Asked, CLOSENESS};
use crate::base::segments::FAR;
use crate::base::units::Length;
use crate::measured::reading::{Reading, Trust};

/// Places beyond this are no places of a line, in metres.
const FARTHEST: f64 = 1e4;
/// Diameters a line can have, in metres.
const DIAMETERS: core::ops::RangeInclusive<f64> = 1e-6..=1.0;
/// Errors a micrometer can have, in metres.
const ERRORS: (f64, f64) = (1e-9, 0.1);
/// No scatter is smaller than this share of the range of diameters: rounding would be taken for it.
const LEAST_SCATTER: f64 = 1e-7;

/// A reading that may be used. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Usable {
    /// Its place in the list given.
    pub(super) index: usize,
    pub(super) at: f64,
    pub(super) diameter: f64,
    /// The maker says that it is right.
    pub(super) is_sure: bool,
}

/// All that is given.
#[derive(Clone, Debug)]
pub(super) struct Data {
    /// In the order of places, then of diameters.
    pub(super) usable: Vec<Usable>,
    /// Length of the line.
    pub(super) length: f64,
    /// Least scatter of a reading.
    pub(super) error: f64,
    /// What the price of a parameter is multiplied with.
    pub(super) thrift: f64,
}

impl Data {
    /// Those of the readings that can be used; `None` with fewer than two places or a line shorter than `gap`.
    pub(super) fn of(readings: &[Reading], asked: &Asked, gap: f64) -> Option<Self> {
        let usable = |(index, reading): (usize, &Reading)| {
            let (at, diameter) = (reading.at.metres(), reading.diameter.metres());
            let can_be = (0.0..=FARTHEST).contains(&at) && DIAMETERS.contains(&diameter);
            (can_be && reading.trust != Trust::LeftOut).then_some(Usable {
                index,
                // A zero has no sign here.
                at: at + 0.0,
                diameter,
                is_sure: reading.trust == Trust::Used,
            })
        };
        let mut usable: Vec<Usable> = readings.iter().enumerate().filter_map(usable).collect();
        usable.sort_by(|one, other| {
            let by_place = one.at.total_cmp(&other.at);
            by_place
                .then(one.diameter.total_cmp(&other.diameter))
                .then(one.is_sure.cmp(&other.is_sure))
        });
        let (first, last) = (usable.first()?.at, usable.last()?.at);
        let asked_length = asked.length.map_or(0.0, Length::metres);
        let length = if asked_length <= FARTHEST {
            asked_length.max(last)
        } else {
            last
        };
        let diameters = || usable.iter().map(|one| one.diameter);
        let range = diameters().fold(f64::MIN, f64::max) - diameters().fold(f64::MAX, f64::min);
        let error = asked.error.metres().max(ERRORS.0).min(ERRORS.1);
        let closeness = asked.closeness.clamp(*CLOSENESS.start(), *CLOSENESS.end());
        (first < last && length >= gap).then_some(Self {
            length,
            error: error.max(LEAST_SCATTER * range),
            thrift: 0.5_f64.powi(i32::from(closeness)),
            usable,
        })
    }

    /// Scatters from which on a reading is an error. Where few points are wanted, readings may be farther off: it is the taper that is
    /// coarse, not they that are wrong.
    pub(super) fn far(&self) -> f64 {
        FAR * self.thrift.max(1.0).sqrt()
    }

    /// The smallest and the largest diameter.
    pub(super) fn range(&self) -> (f64, f64) {
        let diameters = || self.usable.iter().map(|one| one.diameter);
        (
            diameters().fold(f64::MAX, f64::min),
            diameters().fold(f64::MIN, f64::max),
        )
    }
}
