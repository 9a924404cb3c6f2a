//! The measured line of which a design is a copy, in the payload of a link.

use serde::{Deserialize, Serialize};

use super::points::{points_of, steps_of};
use crate::design::refusal::MOST_POINTS;
use crate::design::settings::ORIGINAL_MASS;
use crate::design::{DraftOriginal, NAME_ROOM};

/// Name, weight of the first 30 ft as a count, and points as those of the design are.
#[derive(Serialize, Deserialize)]
pub(in crate::keep::share) struct PayloadOriginal {
    name: String,
    head: Option<u32>,
    points: Vec<(u32, u32)>,
}

impl PayloadOriginal {
    pub(in crate::keep::share) fn of(original: &DraftOriginal) -> Self {
        Self {
            name: original.name.clone(),
            head: original.head_g.map(|grams| ORIGINAL_MASS.quanta(grams)),
            points: steps_of(&original.points),
        }
    }

    /// The original, when its texts and lists have a length there can be.
    pub(in crate::keep::share) fn draft(self) -> Option<DraftOriginal> {
        let fits = self.name.len() <= 4 * NAME_ROOM && self.points.len() <= MOST_POINTS;
        fits.then_some(())?;
        Some(DraftOriginal {
            points: points_of(&self.points)?,
            head_g: self.head.map(|count| ORIGINAL_MASS.value(count)),
            name: self.name,
        })
    }
}
