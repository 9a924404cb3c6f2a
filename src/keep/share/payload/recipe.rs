//! Dressing steps and what was learnt, in the payload of a link.

use serde::{Deserialize, Serialize};

use super::choices::{choice_at, place_of};
use crate::braid::recipe::{DraftStep, MOST_STEPS, ReadyRecipe, StepKind, StepValue};
use crate::design::parameters::{COUNT, DraftLearned, PAIRS, SCATTER, SPREAD};

/// The dressing steps.
#[derive(Serialize, Deserialize)]
pub(super) enum PayloadRecipe {
    /// Those of the ready recipe at this place in the list.
    Ready(u8),
    /// The maker's own.
    Own(Vec<PayloadStep>),
}

/// A dressing step: place of its kind in the list, counts of the values it takes in the order of [`StepKind::takes`], place
/// of what it is warmed in.
#[derive(Serialize, Deserialize)]
pub(super) struct PayloadStep(u8, Vec<u32>, u8);

/// Spreads, correlations and scatter as counts, and what was measured.
#[derive(Serialize, Deserialize)]
pub(super) struct PayloadLearned {
    spreads: [u32; COUNT],
    correlations: [i8; PAIRS],
    scatter: u32,
    swatches: u32,
    lines: u32,
}

impl PayloadRecipe {
    pub(super) fn of(steps: &[DraftStep]) -> Self {
        match ReadyRecipe::of(steps) {
            Some(ready) => Self::Ready(place_of(ready)),
            None => Self::Own(steps.iter().map(PayloadStep::of).collect()),
        }
    }

    pub(super) fn draft(&self) -> Option<Vec<DraftStep>> {
        match self {
            Self::Ready(place) => choice_at(*place).map(ReadyRecipe::steps),
            Self::Own(steps) => {
                (steps.len() <= MOST_STEPS).then_some(())?;
                steps.iter().map(PayloadStep::draft).collect()
            }
        }
    }
}

impl PayloadStep {
    fn of(step: &DraftStep) -> Self {
        let count = |&value: &StepValue| value.rule().quanta(step.get(value));
        let counts = step.kind.takes().iter().map(count);
        Self(place_of(step.kind), counts.collect(), place_of(step.heat))
    }

    fn draft(&self) -> Option<DraftStep> {
        let kind: StepKind = choice_at(self.0)?;
        let takes = kind.takes();
        (self.1.len() == takes.len()).then_some(())?;
        let mut step = DraftStep {
            heat: choice_at(self.2)?,
            ..DraftStep::usual(kind)
        };
        for (&value, &count) in takes.iter().zip(&self.1) {
            step.set(value, value.rule().value(count));
        }
        Some(step)
    }
}

impl PayloadLearned {
    // Percents between −100 and 100, whole.
    #[allow(clippy::cast_possible_truncation)]
    pub(super) fn of(learned: &DraftLearned) -> Self {
        Self {
            spreads: learned.spreads.map(|spread| SPREAD.quanta(spread)),
            correlations: learned.correlations_percent.map(|percent| percent as i8),
            scatter: SCATTER.quanta(learned.scatter_percent),
            swatches: learned.swatches,
            lines: learned.lines,
        }
    }

    pub(super) fn draft(&self) -> DraftLearned {
        DraftLearned {
            spreads: self.spreads.map(|count| SPREAD.value(count)),
            correlations_percent: self.correlations.map(f64::from),
            scatter_percent: SCATTER.value(self.scatter),
            swatches: self.swatches,
            lines: self.lines,
        }
    }
}
