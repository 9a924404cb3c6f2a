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

    /// Diameter of the winding with so much fibre on: √(d² + 4 m / (π · width · packing · density)). Analytic. Beyond
    /// [`Self::full`] it does not fit.
    pub fn wound(&self, mass: Mass, density: Density) -> Length {
        let share = mass / self.capacity(density);
        let [full, barrel] = [self.full, self.barrel].map(Length::metres);
        let ring = (full * full - barrel * barrel) * share.max(0.0);
        Length::from_metres((barrel * barrel + ring).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bobbin_is_full_at_its_capacity_and_its_cylinder_weighs_what_is_on_it() {
        let size = BobbinSize {
            full: Length::from_millimetres(32.0),
            barrel: Length::from_millimetres(10.0),
            width: Length::from_millimetres(25.0),
            packing: 0.55,
        };
        let density = Density::from_grams_per_cubic_centimetre(1.34);
        let full = size.wound(size.capacity(density), density);
        assert!((full.millimetres() - 32.0).abs() < 1e-9);
        assert!((size.wound(Mass::ZERO, density).millimetres() - 10.0).abs() < 1e-9);
        // By the volume of a cylinder with its core out, in cubic centimetres.
        let mass = Mass::from_grams(3.0);
        let outer = size.wound(mass, density).millimetres() / 20.0;
        let volume = core::f64::consts::PI * (outer * outer - 0.25) * 2.5;
        assert!((volume * 0.55 * 1.34 - 3.0).abs() < 1e-9);
    }
}
