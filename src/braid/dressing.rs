//! Dressing: what oil, varnish and grease add to a bare braid, step by step.
//!
//! Oil fills a share of the voids and dries, heavier and somewhat smaller than it went in; further coats fill by the same
//! rule a share of what is left; of varnish only the solids stay; a film of dried varnish covers the surface; grease comes
//! last. The class of a line is that of the dressed line.
//!
//! All that fills voids goes with their volume, so a whole recipe comes down to a mass per volume of voids: a
//! [`Dressing`]. It is the same all along a line, and calculated once.

use core::f64::consts::PI;

use crate::base::units::{Area, Density, Length, LinearDensity, Pressure, Volume};
use crate::braid::geometry::Braid;
use crate::braid::recipe::{DraftStep, StepKind};
use crate::braid::vacuum;

/// What the maker dresses with, and how it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Materials {
    /// Share of the voids there are that a coat of oil fills, 0 to 1; under vacuum at most what the pressure allows.
    pub oil_fill: f64,
    /// Density of the liquid oil.
    pub oil: Density,
    /// Mass the oil gains in drying, as a share of the liquid.
    pub oil_gain: f64,
    /// Density of the dried oil.
    pub dried_oil: Density,
    /// Share of the voids there are that a coat of varnish fills, 0 to 1; under vacuum at most what the pressure allows.
    pub varnish_fill: f64,
    /// Density of the varnish in its tin.
    pub varnish: Density,
    /// Solids in it, by mass.
    pub solids: f64,
    /// Density of the solvent.
    pub solvent: Density,
    /// Density of dried varnish.
    pub film_density: Density,
    /// Thickness of its film on the surface, once a coat of varnish has dried.
    pub film: Length,
    /// Varnish really picked up, in voids and film, over what the numbers above say.
    pub pick_up: f64,
    /// Grease, as a share of the mass of everything under it.
    pub grease: f64,
    /// What dressed lines weigh over what is calculated.
    pub weighed: f64,
    /// Pressure of the air around.
    pub air: Pressure,
}

/// What has been put on a line for good: masses per volume of the bare braid's voids, and what covers its surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dressing {
    /// Dried oil, with what varnish was in it.
    pub oil: Density,
    /// Solids of varnish.
    pub varnish: Density,
    /// Thickness of the film on the surface.
    pub film: Length,
    /// Density of that film.
    pub film_density: Density,
    /// Grease, as a share of the mass of everything under it.
    pub grease: f64,
    /// What dressed lines weigh over what is calculated; 1 on a bare one.
    pub weighed: f64,
}

/// A braid dressed: mass per length of each part, and what they add up to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Dressed {
    /// Dried oil.
    pub oil: LinearDensity,
    /// Varnish solids in the voids.
    pub varnish: LinearDensity,
    /// Varnish film on the surface.
    pub film: LinearDensity,
    /// Grease.
    pub grease: LinearDensity,
    /// Everything, thread included, as it will weigh.
    pub linear_density: LinearDensity,
    /// Finished diameter.
    pub diameter: Length,
}

/// What a coat puts into the voids, wet: masses per volume of the bare braid's voids.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coat {
    /// The most the pressure in the jar lets in, as a share of the voids empty before; `None` without vacuum.
    pub bound: Option<f64>,
    /// What goes in, as a share of the same.
    pub fill: f64,
    /// Oil.
    pub oil: Density,
    /// Varnish, as it is in its tin.
    pub varnish: Density,
    /// Solvent.
    pub solvent: Density,
    /// Density of the mixture.
    pub mixture: Density,
    /// The film it lays on the surface, where there is none yet.
    pub film: Option<WetFilm>,
}

/// A film of varnish that is still wet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WetFilm {
    /// How thick it will be once dry.
    pub dry: Length,
    /// Its mass now over its volume once dry: density of the dried film over its share of solids.
    pub density: Density,
}

/// The line after a step of the recipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// What is on it for good.
    pub dressing: Dressing,
    /// Liquid in it that is not yet dry, per volume of voids.
    pub wet: Density,
    /// The film on it that is not yet dry.
    pub wet_film: Option<WetFilm>,
    /// Share of the bare braid's voids that holds nothing but air.
    pub empty: f64,
    /// What went on in this step.
    pub coat: Option<Coat>,
    /// What stays of coats not yet dry.
    drying: Drying,
}

/// What will stay of what is wet.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Drying {
    oil: Density,
    varnish: Density,
    /// Share of the voids it will fill.
    volume: f64,
    /// Share of the voids it fills while it is wet.
    liquid: f64,
}

impl Coat {
    /// Everything in it.
    pub fn wet(&self) -> Density {
        self.oil + self.varnish + self.solvent
    }
}

impl Dressing {
    /// Nothing on the line.
    pub const BARE: Self = Self {
        oil: Density::ZERO,
        varnish: Density::ZERO,
        film: Length::ZERO,
        film_density: Density::ZERO,
        grease: 0.0,
        weighed: 1.0,
    };

    /// The braid dressed; `fibre_fraction` is the share of its section that is fibre.
    pub fn dress(&self, braid: &Braid, fibre_fraction: f64) -> Dressed {
        let voids = braid.area() * (1.0 - fibre_fraction);
        let (oil, varnish) = (voids * self.oil, voids * self.varnish);
        let film = self.film_area(braid.diameter) * self.film_density;
        let under = braid.linear_density + oil + varnish + film;
        let grease = under * self.grease;
        Dressed {
            oil,
            varnish,
            film,
            grease,
            linear_density: (under + grease) * self.weighed,
            diameter: self.diameter(braid.diameter),
        }
    }

    /// The diameter of a bare braid once dressed.
    pub fn diameter(&self, bare: Length) -> Length {
        bare + self.film * 2.0
    }

    /// Volume of the film on a length whose bare diameter times length, summed along it, is given: π h (Σ d ℓ + h ℓ).
    pub fn film_volume(&self, breadth: Area, length: Length) -> Volume {
        self.film * (breadth + self.film * length) * PI
    }

    /// Ring of the film round a bare diameter, π h (d + h). Analytic.
    fn film_area(&self, bare: Length) -> Area {
        Area::from_square_metres(PI * self.film.metres() * (bare + self.film).metres())
    }
}

impl Materials {
    /// The line after each step.
    pub fn stages(&self, steps: &[DraftStep]) -> Vec<Stage> {
        let mut stage = Stage::BARE;
        let after = |step: &DraftStep| {
            stage = self.after(&stage, step);
            stage
        };
        steps.iter().map(after).collect()
    }

    /// What stays on the line once everything has dried.
    pub fn finished(&self, steps: &[DraftStep]) -> Dressing {
        let last = steps
            .iter()
            .fold(Stage::BARE, |stage, step| self.after(&stage, step));
        self.dried(last).dressing
    }

    fn after(&self, before: &Stage, step: &DraftStep) -> Stage {
        let stage = Stage {
            coat: None,
            ..*before
        };
        match step.kind {
            kind if kind.is_oil() => self.coated(stage, self.oil_coat(&stage, step)),
            kind if kind.is_varnish() => self.coated(stage, self.varnish_coat(&stage, step)),
            kind if kind.dries() => self.dried(stage),
            StepKind::Grease => self.greased(stage),
            _ => stage,
        }
    }

    /// Voids that hold only air take so much of what is offered: no more than the pressure in the jar allows.
    fn fill(&self, wished: f64, step: &DraftStep) -> (f64, Option<f64>) {
        let bound = step
            .pressure()
            .map(|left| vacuum::fill_bound(left, self.air));
        (wished.clamp(0.0, bound.unwrap_or(1.0)), bound)
    }

    fn oil_coat(&self, stage: &Stage, step: &DraftStep) -> (Coat, Drying) {
        let (fill, bound) = self.fill(self.oil_fill, step);
        let share = step.varnish_percent / 100.0;
        let mixture = mixture(self.oil, self.varnish, share);
        let wet = mixture * (stage.empty * fill);
        let (oil, varnish) = (wet * (1.0 - share), wet * share);
        let (dried, solids) = (oil * (1.0 + self.oil_gain), varnish * self.solids);
        let drying = Drying {
            oil: dried + solids,
            volume: dried / self.dried_oil + solids / self.film_density,
            liquid: stage.empty * fill,
            ..Drying::default()
        };
        let coat = Coat {
            bound,
            fill,
            oil,
            varnish,
            solvent: Density::ZERO,
            mixture,
            film: None,
        };
        (coat, drying)
    }

    fn varnish_coat(&self, stage: &Stage, step: &DraftStep) -> (Coat, Drying) {
        let (fill, bound) = self.fill(self.varnish_fill * self.pick_up, step);
        let share = step.solvent_percent / 100.0;
        let mixture = mixture(self.varnish, self.solvent, share);
        let wet = mixture * (stage.empty * fill);
        let varnish = wet * (1.0 - share);
        let solids_share = self.solids * (1.0 - share);
        let solids = wet * solids_share;
        let drying = Drying {
            varnish: solids,
            volume: solids / self.film_density,
            liquid: stage.empty * fill,
            ..Drying::default()
        };
        let coat = Coat {
            bound,
            fill,
            oil: Density::ZERO,
            varnish,
            solvent: wet * share,
            mixture,
            film: self.wet_film(stage, solids_share),
        };
        (coat, drying)
    }

    /// The film of a coat with this share of solids: only one ever covers a line, and without solids there is none.
    fn wet_film(&self, stage: &Stage, solids_share: f64) -> Option<WetFilm> {
        let is_covered = stage.dressing.film > Length::ZERO || stage.wet_film.is_some();
        (!is_covered && solids_share > 0.0).then(|| WetFilm {
            dry: self.film * self.pick_up,
            density: self.film_density * (1.0 / solids_share),
        })
    }

    fn coated(&self, stage: Stage, (coat, drying): (Coat, Drying)) -> Stage {
        Stage {
            wet: stage.wet + coat.wet(),
            wet_film: stage.wet_film.or(coat.film),
            empty: stage.empty - drying.liquid,
            coat: Some(coat),
            drying: stage.drying.and(&drying),
            dressing: self.weighing(stage.dressing),
        }
    }

    /// The line once all that is wet on it has dried.
    pub fn dried(&self, stage: Stage) -> Stage {
        let Drying {
            oil,
            varnish,
            volume,
            liquid,
        } = stage.drying;
        let before = stage.dressing;
        let film = stage.wet_film.map_or(before.film, |film| film.dry);
        Stage {
            dressing: Dressing {
                oil: before.oil + oil,
                varnish: before.varnish + varnish,
                film,
                film_density: self.film_density,
                ..before
            },
            wet: Density::ZERO,
            wet_film: None,
            // What dries takes more or less room than it took wet, but never more than there is.
            empty: (stage.empty + liquid - volume).clamp(0.0, 1.0),
            coat: None,
            drying: Drying::default(),
        }
    }

    fn greased(&self, stage: Stage) -> Stage {
        let dressing = Dressing {
            grease: self.grease,
            ..self.weighing(stage.dressing)
        };
        Stage { dressing, ..stage }
    }

    /// From the first thing that goes on, the line weighs what the maker's lines weigh over what is calculated.
    fn weighing(&self, dressing: Dressing) -> Dressing {
        Dressing {
            weighed: self.weighed,
            ..dressing
        }
    }
}

/// Density of a mixture in which the second liquid has this share of the mass; their volumes add up.
fn mixture(first: Density, second: Density, share: f64) -> Density {
    let volume = (1.0 - share) / first.kilograms_per_cubic_metre()
        + share / second.kilograms_per_cubic_metre();
    Density::from_grams_per_cubic_centimetre(1e-3 / volume)
}

impl Drying {
    fn and(&self, other: &Self) -> Self {
        Self {
            oil: self.oil + other.oil,
            varnish: self.varnish + other.varnish,
            volume: self.volume + other.volume,
            liquid: self.liquid + other.liquid,
        }
    }
}

impl Stage {
    /// Before anything is done.
    pub const BARE: Self = Self {
        dressing: Dressing::BARE,
        wet: Density::ZERO,
        wet_film: None,
        empty: 1.0,
        coat: None,
        drying: Drying {
            oil: Density::ZERO,
            varnish: Density::ZERO,
            volume: 0.0,
            liquid: 0.0,
        },
    };

    /// Whether something on it is still wet.
    pub fn is_wet(&self) -> bool {
        self.wet > Density::ZERO || self.wet_film.is_some()
    }

    /// What is on it as it weighs now, liquid in the voids left out: a film counts with all that will evaporate from it.
    pub fn weighing(&self) -> Dressing {
        match self.wet_film {
            Some(film) => Dressing {
                film: film.dry,
                film_density: film.density,
                ..self.dressing
            },
            None => self.dressing,
        }
    }

    /// How far below the crown of the outermost thread of a bare braid the filling stands, were the voids filled from the
    /// core outwards and spread evenly: R (1 − √u), with u the share filled. Analytic.
    pub fn level_below(&self, bare: Length) -> Length {
        bare * 0.5 * (1.0 - (1.0 - self.empty).max(0.0).sqrt())
    }
}
