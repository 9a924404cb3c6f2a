//! Dressing: what oil, varnish and grease add to a bare braid.
//!
//! Oil fills a share of the voids and dries, heavier and somewhat smaller than it went in; varnish fills by the same
//! rule a share of what is left, and of it only the solids stay; a film of dried varnish covers the surface; grease
//! comes last. The class of a line is that of the dressed line.

use core::f64::consts::PI;

use crate::braid::Braid;
use crate::units::{Area, Density, Length, LinearDensity};

/// How the maker dresses a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dressing {
    /// Share of the voids the oil fills, 0 to 1. By Boyle's law at most 1 − p/p₀ at absolute pressure p in air of p₀.
    pub oil_fill: f64,
    /// Density of the liquid oil.
    pub oil_density: Density,
    /// Mass the oil gains in drying, as a share of the liquid.
    pub oil_gain: f64,
    /// Density of the dried oil.
    pub dried_oil_density: Density,
    /// Share of the voids left by the dried oil that the varnish fills, 0 to 1.
    pub varnish_fill: f64,
    /// Density of the varnish as it goes on, thinned.
    pub varnish_density: Density,
    /// Solids in the varnish as it goes on, thinned, by mass.
    pub varnish_solids: f64,
    /// Thickness of the dried film on the surface.
    pub film: Length,
    /// Density of that film.
    pub film_density: Density,
    /// Grease, as a share of the mass of everything under it.
    pub grease: f64,
}

/// A braid dressed: mass per length of each part, and what they add up to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Dressed {
    /// Liquid oil taken up.
    pub oil_wet: LinearDensity,
    /// The same oil dried.
    pub oil: LinearDensity,
    /// Varnish solids in the voids.
    pub varnish: LinearDensity,
    /// Varnish film on the surface.
    pub film: LinearDensity,
    /// Grease.
    pub grease: LinearDensity,
    /// Everything, thread included.
    pub linear_density: LinearDensity,
    /// Finished diameter.
    pub diameter: Length,
}

impl Dressing {
    /// The braid dressed; `fibre_fraction` is the share of its section that is fibre.
    pub fn dress(&self, braid: &Braid, fibre_fraction: f64) -> Dressed {
        let voids = braid.area() * (1.0 - fibre_fraction);
        let oil_wet = voids * self.oil_fill * self.oil_density;
        let oil = oil_wet * (1.0 + self.oil_gain);
        let left = (voids - oil / self.dried_oil_density).max(Area::ZERO);
        let varnish = left * self.varnish_fill * self.varnish_density * self.varnish_solids;
        let film = self.film_area(braid.diameter) * self.film_density;
        let under = braid.linear_density + oil + varnish + film;
        let grease = under * self.grease;
        Dressed {
            oil_wet,
            oil,
            varnish,
            film,
            grease,
            linear_density: under + grease,
            diameter: braid.diameter + self.film * 2.0,
        }
    }

    /// Ring of the film round a bare diameter, π h (d + h). Analytic.
    fn film_area(&self, bare: Length) -> Area {
        Area::from_square_metres(PI * self.film.metres() * (bare + self.film).metres())
    }
}
