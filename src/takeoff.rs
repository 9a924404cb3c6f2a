//! The take-off: which of the maker's gears draws the line nearest to the target angle.
//!
//! One carrier circuit draws `L = C · z/z₀`: `z` the teeth of the change gear, `z₀` those of its fixed partner and `C`
//! the machine constant, the length drawn in one circuit when both are equal.

use core::ops::RangeInclusive;

use crate::braid::{Braid, Braiding};
use crate::units::{Angle, Length};

/// Change gears and the train they drive.
#[derive(Clone, Debug, PartialEq)]
pub struct TakeOff {
    /// Teeth of every change gear owned, ascending; at least one.
    pub gears: Vec<u32>,
    /// Teeth of the fixed partner.
    pub partner: u32,
    /// Length drawn in one carrier circuit at equal teeth.
    pub constant: Length,
}

/// The gear fitted for a thread count, and the braid it makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Teeth of the gear.
    pub gear: u32,
    /// The braid at the lay this gear draws.
    pub braid: Braid,
}

impl TakeOff {
    /// Length drawn in one carrier circuit with a gear of so many teeth.
    pub fn lay(&self, teeth: u32) -> Length {
        self.constant * (f64::from(teeth) / f64::from(self.partner))
    }

    /// The gear that brings `threads` threads nearest to the target angle.
    ///
    /// A longer lay gives a smaller angle, so only the two gears on either side of the ideal lay can be nearest.
    pub fn nearest(&self, braiding: &Braiding, threads: u32, target: Angle) -> Fit {
        let ideal = braiding.at_angle(threads, target).lay;
        let above = self
            .gears
            .partition_point(|&teeth| self.lay(teeth) < ideal)
            .min(self.gears.len() - 1);
        let fit = |index: usize| {
            let gear = self.gears[index];
            Fit {
                gear,
                braid: braiding.at_lay(threads, self.lay(gear)),
            }
        };
        let (short, long) = (fit(above.saturating_sub(1)), fit(above));
        let off = |fit: &Fit| (fit.braid.angle - target).abs();
        if off(&short) <= off(&long) {
            short
        } else {
            long
        }
    }

    /// The wheel that would come nearest to the target angle if any number of teeth in a range could be had.
    pub fn ideal(
        &self,
        braiding: &Braiding,
        threads: u32,
        target: Angle,
        teeth: RangeInclusive<u32>,
    ) -> Fit {
        let all = Self {
            gears: teeth.collect(),
            ..self.clone()
        };
        all.nearest(braiding, threads, target)
    }
}
