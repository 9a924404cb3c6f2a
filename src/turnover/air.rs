//! The air, and how hard it holds a round line back.
//!
//! Drag is split into that of the flow along the line and that of the flow across it, each by its own part of the speed: the usual
//! treatment of a thin cylinder, as in Gatti-Bono and Perkins, J. Appl. Mech. 71 (2004), 745.

use libm::pow;

use crate::base::units::{Density, STANDARD_GRAVITY};

/// Coefficient of drag as it falls with the Reynolds number of the diameter: `constant + factor · Re^−exponent`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DragLaw {
    /// What is left at high speed.
    pub constant: f64,
    /// What is added at a Reynolds number of 1.
    pub factor: f64,
    /// How fast that falls, from 0 to below 1: drag never falls as speed rises.
    pub exponent: f64,
}

impl DragLaw {
    /// Across a long cylinder, on its diameter times its length, for Reynolds numbers of 1 to 200 000. Source: White, Viscous
    /// Fluid Flow, the fitted formula for cylinders; from memory.
    pub const ACROSS: Self = Self {
        constant: 1.0,
        factor: 10.0,
        exponent: 2.0 / 3.0,
    };
    /// Along a long filament, on its surface. Source: Majumdar and Shambaugh, J. Rheol. 34 (1990), 591, measured on filaments in
    /// fast air; from memory. Matsui (1976) found half of it on threads that are drawn through still air.
    pub const ALONG: Self = Self {
        constant: 0.0,
        factor: 0.78,
        exponent: 0.61,
    };

    /// The same coefficient at every speed.
    pub const fn constant(coefficient: f64) -> Self {
        Self {
            constant: coefficient,
            factor: 0.0,
            exponent: 0.0,
        }
    }

    /// The coefficient at a Reynolds number.
    pub fn at(&self, reynolds: f64) -> f64 {
        self.constant + self.varying(reynolds)
    }

    /// The part of the coefficient that depends on the Reynolds number.
    pub(super) fn varying(&self, reynolds: f64) -> f64 {
        if self.factor == 0.0 {
            0.0
        } else {
            self.factor * pow(reynolds.max(LEAST_REYNOLDS), -self.exponent)
        }
    }
}

/// Below this the laws say nothing, and no cast gets there: the coefficient is held.
const LEAST_REYNOLDS: f64 = 1e-3;

/// Still air, what it does to a line, and the pull of the earth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Mass per volume.
    pub density: Density,
    /// Kinematic viscosity, square metres per second.
    pub viscosity: f64,
    /// Drag of the flow across the line.
    pub across: DragLaw,
    /// Drag of the flow along the line.
    pub along: DragLaw,
    /// What falls gets faster by this, metres per second in each second.
    pub gravity: f64,
}

impl Surroundings {
    /// At 20 °C and sea level: 1.20 kg/m³, 1.51e-5 m²/s. From memory, as textbooks have it.
    pub const USUAL: Self = Self {
        density: Density::from_grams_per_cubic_centimetre(1.20e-3),
        viscosity: 1.51e-5,
        across: DragLaw::ACROSS,
        along: DragLaw::ALONG,
        gravity: STANDARD_GRAVITY,
    };
    /// No air at all, on the earth.
    pub const NONE: Self = Self {
        density: Density::ZERO,
        viscosity: 1.51e-5,
        across: DragLaw::constant(0.0),
        along: DragLaw::constant(0.0),
        gravity: STANDARD_GRAVITY,
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    /// White's figure shows about 1.2 at a Reynolds number of 300, and about 1 at 10 000; from memory. Along a filament textile books
    /// give some hundredths at 100 and about 0.01 at 1000; from memory.
    #[test]
    fn the_laws_have_the_usual_size() {
        assert!((1.1..1.3).contains(&DragLaw::ACROSS.at(300.0)));
        assert!((0.95..1.1).contains(&DragLaw::ACROSS.at(1e4)));
        assert!((0.02..0.08).contains(&DragLaw::ALONG.at(100.0)));
        assert!((0.005..0.015).contains(&DragLaw::ALONG.at(1000.0)));
    }
}
