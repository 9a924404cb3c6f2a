//! Fibres, filament ends and the threads plied from them.

use core::f64::consts::PI;

use crate::base::choice::Choice;
use crate::base::units::{Density, Length, LinearDensity};

/// A fibre the trade braids lines from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fibre {
    /// Mulberry silk.
    Silk,
    /// Polyamide.
    Nylon,
    /// Polyester.
    Polyester,
    /// Polypropylene.
    Polypropylene,
    /// Viscose rayon.
    Viscose,
    /// Cotton.
    Cotton,
    /// Flax, spun as linen.
    Flax,
    /// High-modulus polyethylene.
    Polyethylene,
}

impl Choice for Fibre {
    const ALL: &'static [Self] = &[
        Self::Silk,
        Self::Nylon,
        Self::Polyester,
        Self::Polypropylene,
        Self::Viscose,
        Self::Cotton,
        Self::Flax,
        Self::Polyethylene,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Silk => "silk",
            Self::Nylon => "nylon",
            Self::Polyester => "polyester",
            Self::Polypropylene => "polypropylene",
            Self::Viscose => "viscose",
            Self::Cotton => "cotton",
            Self::Flax => "flax",
            Self::Polyethylene => "polyethylene",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Silk => "silk",
            Self::Nylon => "nylon",
            Self::Polyester => "polyester",
            Self::Polypropylene => "polypropylene",
            Self::Viscose => "viscose",
            Self::Cotton => "cotton",
            Self::Flax => "flax",
            Self::Polyethylene => "polyethylene, high-modulus",
        }
    }
}

impl Fibre {
    /// Density of the solid fibre.
    ///
    /// Source: Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 5.1–5.2.
    /// Flax and polyethylene: from memory.
    pub const fn density(self) -> Density {
        Density::from_grams_per_cubic_centimetre(match self {
            Self::Silk => 1.34,
            Self::Nylon => 1.14,
            Self::Polyester => 1.39,
            Self::Polypropylene => 0.91,
            Self::Viscose => 1.49,
            Self::Cotton => 1.52,
            Self::Flax => 1.54,
            Self::Polyethylene => 0.97,
        })
    }

    /// Warmest a line of it should be dried at, degrees Celsius, where its maker has said nothing. From memory, on the
    /// careful side.
    pub const fn warm_limit(self) -> f64 {
        match self {
            Self::Silk | Self::Viscose | Self::Cotton | Self::Flax => 110.0,
            Self::Nylon => 90.0,
            Self::Polyester => 120.0,
            Self::Polypropylene => 80.0,
            Self::Polyethylene => 60.0,
        }
    }

    /// Breaking force over linear density, in newtons per (kilogram per metre); 1 cN/tex is 10⁴ of them.
    ///
    /// Source: Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, Tables 13.1–13.2: cN/tex. Cotton is
    /// the middle of 19 to 45. Polypropylene and polyethylene: from memory.
    pub const fn tenacity(self) -> f64 {
        let centinewtons_per_tex = match self {
            Self::Silk => 38.0,
            Self::Nylon => 48.0,
            Self::Polyester => 47.0,
            Self::Polypropylene => 50.0,
            Self::Viscose => 18.0,
            Self::Cotton => 32.0,
            Self::Flax => 54.0,
            Self::Polyethylene => 300.0,
        };
        centinewtons_per_tex * 1e4
    }

    /// Strength wet as a share of that dry.
    ///
    /// Silk: 15 to 20 % less, as published for degummed silk, the middle of it taken; single figures of 4.5 dry and 4.0
    /// wet, in grams per denier, give 11 %. All others: from memory.
    pub const fn wet_strength(self) -> f64 {
        match self {
            Self::Silk => 0.82,
            Self::Nylon => 0.87,
            Self::Viscose => 0.55,
            Self::Cotton | Self::Flax => 1.1,
            Self::Polyester | Self::Polypropylene | Self::Polyethylene => 1.0,
        }
    }

    /// Whether it is spun with a gum that is boiled off.
    pub const fn has_gum(self) -> bool {
        matches!(self, Self::Silk)
    }
}

/// Whether the labelled size is that of the yarn as it goes on the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Condition {
    /// Degummed, measured, or a fibre that has nothing to lose: the label holds.
    AsBraided,
    /// Raw silk whose gum is boiled off: the label shrinks by the degumming loss.
    Raw,
}

impl Choice for Condition {
    const ALL: &'static [Self] = &[Self::AsBraided, Self::Raw];

    fn key(self) -> &'static str {
        match self {
            Self::AsBraided => "as-braided",
            Self::Raw => "raw",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::AsBraided => "as it will be braided",
            Self::Raw => "raw, before degumming",
        }
    }
}

/// Filament ends plied lightly together and wound on one bobbin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    /// Density of the fibre.
    pub fibre_density: Density,
    /// Mass per length of one filament end as braided.
    pub end: LinearDensity,
    /// Number of ends plied, at least 1.
    pub ends: u32,
    /// Share of the thread's round section that is fibre, 0.4 to the hexagonal limit π/(2√3).
    pub packing: f64,
    /// How many times wider than thick the thread lies when it flattens, at least 1.
    pub flattening: f64,
}

impl Thread {
    /// Mass per length: ends times that of one end.
    pub fn linear_density(&self) -> LinearDensity {
        self.end * f64::from(self.ends)
    }

    /// Diameter if the thread were round, t = √(4 T / (π ρ ψ)). Analytic.
    pub fn round_diameter(&self) -> Length {
        round_diameter(self.linear_density(), self.fibre_density, self.packing)
    }

    /// Width of the flattened thread, t √e: the section keeps its area. Analytic; the value of e is from memory.
    pub fn width(&self) -> Length {
        self.round_diameter() * self.flattening.sqrt()
    }

    /// Thickness of the flattened thread, t / √e.
    pub fn thickness(&self) -> Length {
        self.round_diameter() / self.flattening.sqrt()
    }

    /// Thickness and width together.
    pub(crate) fn sides(&self) -> (Length, Length) {
        let (round, root) = (self.round_diameter(), self.flattening.sqrt());
        (round / root, round * root)
    }
}

/// Diameter of a round bundle of fibre of which a share `packing` is solid, √(4 T / (π ρ ψ)). Analytic.
pub fn round_diameter(linear_density: LinearDensity, density: Density, packing: f64) -> Length {
    let solid = linear_density / density;
    Length::from_metres((4.0 * solid.square_metres() / (PI * packing)).sqrt())
}
