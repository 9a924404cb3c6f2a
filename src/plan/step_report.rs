//! The report of a dressing step: what is applied, what stays, and what to be careful about.

use crate::base::units::{Density, Length, Mass, Volume};
use crate::braid::recipe::DraftStep;

/// A dressing step and the line after it.
#[derive(Clone, Debug, PartialEq)]
pub struct StepReport {
    /// The step.
    pub step: DraftStep,
    /// The coat applied in it.
    pub coat: Option<CoatReport>,
    /// What it does to the mass of the whole line.
    pub ledger: Ledger,
    /// Share of the bare braid's voids filled after it.
    pub filled: f64,
    /// How far below the outermost thread the filling stands in the belly, were it even.
    pub below: Length,
    /// Whether something on the line is still wet.
    pub is_wet: bool,
    /// Mass of its first 30 ft after it.
    pub head: Option<Mass>,
    /// Diameter in the middle of the belly after it.
    pub diameter: Length,
    /// Mass per volume there.
    pub bulk_density: Density,
    /// What to be careful about in it.
    pub warnings: Vec<StepWarning>,
}

/// What a step does to the mass of the whole line. It closes: `before + taken + gained + grease + corrected − evaporates =
/// after`, and what is before a step is what was after the last.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ledger {
    /// Mass before it.
    pub before: Mass,
    /// What the line takes up wet.
    pub taken: Mass,
    /// Oxygen that oil takes from the air in drying.
    pub gained: Mass,
    /// Grease rubbed in.
    pub grease: Mass,
    /// What the maker's lines weigh over what is calculated, on all that came before; of what goes on over grease, the grease
    /// it is taken to hold. It may be negative.
    pub corrected: Mass,
    /// What leaves the line in drying: solvent, and of varnish all but its solids.
    pub evaporates: Mass,
    /// Mass after it, wet or dry.
    pub after: Mass,
}

/// A liquid in a jar or on a line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Portion {
    /// Its mass.
    pub mass: Mass,
    /// Its volume.
    pub volume: Volume,
}

/// What is mixed for a coat, part by part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixture {
    /// Oil.
    pub oil: Portion,
    /// Varnish as it is in its tin.
    pub varnish: Portion,
    /// Solvent.
    pub solvent: Portion,
}

/// A coat on this line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoatReport {
    /// The most the pressure in the jar lets in, as a share of the voids empty before; `None` without vacuum.
    pub bound: Option<f64>,
    /// The share of the same voids that is filled.
    pub fill: f64,
    /// What is poured into the jar. Without a jar, what the line takes.
    pub poured: Mixture,
    /// What the line takes of it, in its voids and on its surface.
    pub taken: Mixture,
    /// What stays on the line once it is dry.
    pub stays: Mass,
    /// Mass of the whole line once it and all that is wet under it has dried.
    pub dry: Mass,
    /// What the oil takes from the air in drying.
    pub gained: Mass,
    /// What leaves the line in drying: solvent, and of varnish all but its solids.
    pub evaporates: Mass,
}

/// What to be careful about in a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StepWarning {
    /// Warmer than the yarn should become, in degrees Celsius.
    TooWarm {
        /// The limit.
        limit: f64,
        /// Whether the limit is the maker's own, not the one remembered of the fibre.
        is_own: bool,
    },
    /// An oven is left alone.
    OvenAlone,
    /// The line may still be wet with solvent when it is warmed.
    SolventWet,
    /// No later step dries what is applied here.
    NeverDries,
    /// It is applied on something still wet.
    OnWet,
    /// The pressure in the jar lets in less than the setting says.
    HeldByPressure {
        /// What it lets in.
        bound: f64,
        /// What the setting says.
        wished: f64,
    },
    /// The line takes more than the jar holds.
    JarTooSmall {
        /// What the line takes.
        taken: Volume,
    },
    /// Braids of this pattern usually take more coats of oil than the recipe has.
    FewCoats {
        /// Coats in the recipe.
        has: usize,
        /// Coats usual.
        usual: usize,
    },
}

impl Mixture {
    pub(super) fn map(&self, portion: impl Fn(Portion) -> Portion) -> Self {
        Self {
            oil: portion(self.oil),
            varnish: portion(self.varnish),
            solvent: portion(self.solvent),
        }
    }

    /// Everything in it, by mass.
    pub fn mass(&self) -> Mass {
        self.oil.mass + self.varnish.mass + self.solvent.mass
    }

    /// Everything in it, by volume.
    pub fn volume(&self) -> Volume {
        self.oil.volume + self.varnish.volume + self.solvent.volume
    }
}

impl CoatReport {
    /// What is left in the jar.
    pub fn left(&self) -> Mixture {
        let less = |poured: Portion, taken: Portion| Portion {
            mass: poured.mass - taken.mass,
            volume: poured.volume - taken.volume,
        };
        Mixture {
            oil: less(self.poured.oil, self.taken.oil),
            varnish: less(self.poured.varnish, self.taken.varnish),
            solvent: less(self.poured.solvent, self.taken.solvent),
        }
    }
}

impl Portion {
    pub(super) fn of(mass: Mass, density: Density) -> Self {
        Self {
            mass,
            volume: mass / density,
        }
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            mass: self.mass * factor,
            volume: self.volume * factor,
        }
    }
}
