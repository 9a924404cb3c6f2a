//! A bobbin of the machine, and how much thread it holds.

use crate::base::units::{Density, Length, Mass};

/// A bobbin of the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BobbinSize {
    /// Diameter of the winding when full.
    pub full: Length,
    /// Diameter of the empty barrel.
    pub barrel: Length,
    /// Width between the flanges.
    pub width: Length,
    /// Share of the winding that is fibre.
    pub packing: f64,
}

impl BobbinSize {
    /// Mass of fibre that goes on: π/4 (D² − d²) · width · packing · density. Analytic.
    pub fn capacity(&self, density: Density) -> Mass {
        let ring = self.full.circle() - self.barrel.circle();
        self.width * (ring * self.packing * density)
    }
}
