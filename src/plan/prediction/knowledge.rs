//! How well a design's parameters are known: learnt from a bench book, or believed.

use super::prior;
use crate::design::Design;
use crate::design::parameters::{COUNT, DraftLearned, pairs};

/// Spreads and correlations of the parameters a design is planned with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knowledge {
    /// One standard deviation of each parameter, in the unit of its setting.
    pub spreads: [f64; COUNT],
    /// Correlation of each with each.
    pub correlations: [[f64; COUNT]; COUNT],
    /// Standard deviation from one line to the next of the dressed weight, as a share.
    pub scatter: f64,
}

impl Knowledge {
    /// What a design keeps of it; where nothing was measured, what is believed.
    pub fn of(design: &Design) -> Self {
        match &design.draft().learned {
            Some(learned) => Self::learnt(learned),
            None => Self::believed(design),
        }
    }

    /// What is believed of a design before anything is measured.
    pub fn believed(design: &Design) -> Self {
        let alike = |row: usize| core::array::from_fn(|column| f64::from(u8::from(row == column)));
        Self {
            spreads: prior::of(design).map(|unknown| unknown.spread),
            correlations: core::array::from_fn(alike),
            scatter: prior::SCATTER,
        }
    }

    fn learnt(learned: &DraftLearned) -> Self {
        let mut correlations = [[1.0; COUNT]; COUNT];
        for ((first, second), percent) in pairs().zip(learned.correlations_percent) {
            correlations[first][second] = percent / 100.0;
            correlations[second][first] = percent / 100.0;
        }
        Self {
            spreads: learned.spreads,
            correlations,
            scatter: learned.scatter_percent / 100.0,
        }
    }

    /// The variance of what changes by so much with one spread of each parameter. Never below nothing, which rounded
    /// correlations could make of it.
    pub fn variance(&self, by_spread: &[f64; COUNT]) -> f64 {
        let with = |(first, one): (usize, &f64)| -> f64 {
            let row = self.correlations[first].iter().zip(by_spread);
            row.map(|(together, other)| one * together * other).sum()
        };
        let variance: f64 = by_spread.iter().enumerate().map(with).sum();
        variance.max(0.0)
    }
}
