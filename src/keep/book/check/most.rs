//! The most that can be on a dressed line.

use crate::base::units::{Density, Length, LinearDensity};
use crate::design::Design;
use crate::design::settings::Setting;

/// The most that can be on a line: what is densest fills it, under the thickest film, grease and correction that can be set.
pub(super) struct MostDressing {
    densest: Density,
    /// Thickness of the film.
    pub(super) film: Length,
    grease: f64,
    weighed: f64,
}

impl MostDressing {
    pub(super) fn of(design: &Design) -> Self {
        let materials = design.materials();
        let fibre = design.thread().fibre_density;
        let filling = materials.dried_oil.max(materials.film_density);
        Self {
            densest: fibre.max(filling),
            film: Length::from_micrometres(Setting::Film.rule().high),
            grease: Setting::Grease.rule().high / 100.0,
            weighed: Setting::Weighed.rule().high / 100.0,
        }
    }

    /// Mass per length over a bare braid of this diameter.
    pub(super) fn dressed(&self, bare: Length) -> LinearDensity {
        let section = (bare + self.film * 2.0).circle();
        section * self.densest * ((1.0 + self.grease) * self.weighed)
    }
}
