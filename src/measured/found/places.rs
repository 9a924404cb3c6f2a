//! Readings of one place put together.

use super::data::{Data, Usable};
use crate::base::segments::{Criterion, Sums};

/// How much more than Schwarz a parameter costs. The best of many places is chosen for a knot, and Schwarz counts that as one
/// choice. Liu, Wu & Zidek 1997, "On segmented multivariate regression", Statistica Sinica 7, ask for `0.299 (ln n)^1.1` times as
/// much (from memory): 1.3 for 50 readings, 2.2 for 500. Our own choice, by invented lines: at 1, every thirtieth line of a hundred
/// readings had a point too many; at 1.5, every five-hundredth.
const STRICT: f64 = 1.5;

/// The places of all readings that are not left out, in order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Places {
    /// Distance of each from the tip.
    pub(super) at: Vec<f64>,
    /// Mean of its diameters.
    pub(super) diameter: Vec<f64>,
    /// How many readings it has.
    pub(super) count: Vec<f64>,
    /// Squares of its readings from their mean.
    pub(super) within: Vec<f64>,
    /// Its readings, by their place in the usable ones. Some in between may be left out.
    pub(super) readings: Vec<(usize, usize)>,
    /// Whether one of its readings is right for sure.
    pub(super) is_sure: Vec<bool>,
}

impl Places {
    /// Those of the readings not left out.
    pub(super) fn of(usable: &[Usable], left_out: &[bool]) -> Self {
        let mut places = Self::default();
        let mut end = 0;
        for alike in usable.chunk_by(|one, other| one.at == other.at) {
            let begin = end;
            end += alike.len();
            let used = || {
                let used = alike.iter().zip(&left_out[begin..end]);
                used.filter(|(_, left_out)| !**left_out).map(|(one, _)| one)
            };
            let count = used().count() as f64;
            if count == 0.0 {
                continue;
            }
            let mean = used().map(|one| one.diameter).sum::<f64>() / count;
            let squares = used().map(|one| (one.diameter - mean) * (one.diameter - mean));
            places.within.push(squares.sum());
            places.at.push(alike[0].at);
            places.diameter.push(mean);
            places.count.push(count);
            places.readings.push((begin, end));
            places.is_sure.push(used().any(|one| one.is_sure));
        }
        places
    }

    /// How many there are.
    pub(super) fn len(&self) -> usize {
        self.at.len()
    }

    /// Their sums; the weight of a place is how many readings it has.
    pub(super) fn sums(&self) -> Sums {
        Sums::of(&self.at, &self.diameter, &self.count)
    }

    /// What a line through them is judged by. A parameter costs [`STRICT`] times the logarithm of the number of readings.
    pub(super) fn criterion(&self, data: &Data) -> Criterion {
        let used: f64 = self.count.iter().sum();
        let all = data.usable.len() as f64;
        Criterion {
            used,
            left_out: all - used,
            within: self.within.iter().sum(),
            floor: data.error,
            price: data.thrift * STRICT * libm::log(all),
            far: data.far(),
        }
    }
}
