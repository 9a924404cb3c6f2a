//! How thick a diameter is drawn. Mostly thickness begins at a round core below the thinnest place: what is cut out along the axis
//! says nothing, and without it one thread more or less is seen.

use super::map::{SPARE, Scale};
use crate::base::units::Length;
use crate::base::units::show::Units;

/// Thickness shown beyond the thickest place, of what is left beyond the core.
const SPARE_BEYOND_CORE: f64 = 1.22;
/// Height of the cut along the axis, in pixels.
const CUT: f64 = 18.0;
/// The core ends this share of all the thickness there is below the thinnest place, and this much more.
const SKIN: f64 = 0.2;
const LEAST_SKIN: Length = Length::from_millimetres(0.02);
/// A level line has little thickness to show: its core is at most this share of it.
const MOST_CORE: f64 = 0.75;

/// Cores are whole counts of this.
const fn step(units: Units) -> Length {
    match units {
        Units::Metric => Length::from_millimetres(0.1),
        Units::Imperial => Length::from_inches(0.005),
    }
}

impl Scale {
    /// This scale with thickness that begins at a round value below the thinnest place shown.
    #[must_use]
    pub fn with_core_below(mut self, thinnest: Length) -> Self {
        let thickest = self.diameter / SPARE;
        let skin = (thickest - thinnest).max(Length::ZERO) * SKIN + LEAST_SKIN;
        let most = (thinnest - skin).min(thickest * MOST_CORE);
        let step = step(self.units);
        // A hair more: a whole count must not become the one below.
        let count = (most / step + 1e-9).floor();
        if count >= 1.0 {
            self.core = step * count;
            self.diameter = self.core + (thickest - self.core) * SPARE_BEYOND_CORE;
        }
        self
    }

    /// Core and diameter of before, while the line fits between them and fills most of that.
    pub(super) fn keep_thickness_of(&mut self, before: &Self) {
        let spare = if before.core > Length::ZERO {
            SPARE_BEYOND_CORE
        } else {
            SPARE
        };
        let shown = before.diameter - before.core;
        let thickest = self.core + (self.diameter - self.core) / spare;
        let share = (thickest - before.core) / shown;
        let is_cut_alike = (self.core > Length::ZERO) == (before.core > Length::ZERO);
        // A core above the fresh one might hide the thinnest place; one far below it wastes room.
        let lost = (self.core - before.core) / shown;
        if is_cut_alike && (0.45..=0.97).contains(&share) && (0.0..=0.3).contains(&lost) {
            (self.core, self.diameter) = (before.core, before.diameter);
        }
    }

    /// Half the height of the cut along the axis, in pixels; 0 where all thickness is drawn.
    pub fn half_cut(&self) -> f64 {
        if self.core > Length::ZERO {
            CUT / 2.0
        } else {
            0.0
        }
    }

    /// Pixels from the axis to the edge of a diameter. One below the core is held at the edge of the cut.
    pub fn half_thickness(&self, diameter: Length) -> f64 {
        let share = (diameter - self.core) / (self.diameter - self.core);
        self.half_cut() + share.max(0.0) * self.half_room()
    }

    /// The diameter whose edge is this many pixels from the axis. Within the cut it goes on below the core: a hand may go there.
    pub fn diameter_of(&self, half_thickness: f64) -> Length {
        let share = (half_thickness - self.half_cut()) / self.half_room();
        self.core + (self.diameter - self.core) * share
    }

    /// Pixels from the edge of the cut to that of the profile.
    fn half_room(&self) -> f64 {
        self.profile().height / 2.0 - self.half_cut()
    }
}
