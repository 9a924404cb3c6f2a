//! A line as the air and its own weight know it: mass per length and diameter along it.

use crate::base::units::{Density, Length, LinearDensity, Mass};

/// A piece of a line: both its values change evenly from one end to the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinePiece {
    /// How long it is; above zero.
    pub length: Length,
    /// Diameters at its ends, that nearer to the fly first.
    pub diameter: [Length; 2],
    /// Mass per length at its ends, that nearer to the fly first.
    pub linear_density: [LinearDensity; 2],
}

impl LinePiece {
    /// A piece of one size and weight.
    pub fn level(length: Length, diameter: Length, linear_density: LinearDensity) -> Self {
        Self {
            length,
            diameter: [diameter; 2],
            linear_density: [linear_density; 2],
        }
    }

    /// A piece of a solid material between two diameters, in short pieces: its mass per length goes with the square of the diameter.
    pub fn solid(length: Length, diameter: [Length; 2], density: Density) -> Vec<Self> {
        let parts = if diameter[0] == diameter[1] { 1 } else { PARTS };
        let at = |share: f64| diameter[0] + (diameter[1] - diameter[0]) * share;
        let part = |index: u32| {
            let share = |index: u32| f64::from(index) / f64::from(parts);
            let ends = [at(share(index)), at(share(index + 1))];
            Self {
                length: length / f64::from(parts),
                diameter: ends,
                linear_density: ends.map(|size| size.circle() * density),
            }
        };
        (0..parts).map(part).collect()
    }

    /// Its mass.
    pub fn mass(&self) -> Mass {
        let [a, b] = self.linear_density;
        self.length * ((a + b) / 2.0)
    }

    fn is_sound(&self) -> bool {
        let ends = [0, 1];
        let is_length = |it: Length| it.is_finite() && it > Length::ZERO;
        is_length(self.length)
            && ends.iter().all(|&end| {
                is_length(self.diameter[end])
                    && self.linear_density[end].is_finite()
                    && self.linear_density[end] > LinearDensity::ZERO
            })
    }

    /// The first so much of it, which is less than all.
    fn cut(&self, length: Length) -> Self {
        let share = length / self.length;
        let [a, b] = self.diameter;
        let [light, heavy] = self.linear_density;
        Self {
            length,
            diameter: [a, a + (b - a) * share],
            linear_density: [light, light + (heavy - light) * share],
        }
    }
}

/// Short pieces of a taper of a solid material.
const PARTS: u32 = 24;

/// A line, tip first.
#[derive(Clone, Debug, PartialEq)]
pub struct FlyLine(Vec<LinePiece>);

impl FlyLine {
    /// A line of pieces, tip first. `None` without any, or where one has no length, size or mass.
    pub fn new(pieces: Vec<LinePiece>) -> Option<Self> {
        let is_sound = !pieces.is_empty() && pieces.iter().all(LinePiece::is_sound);
        is_sound.then_some(Self(pieces))
    }

    /// Its pieces, tip first.
    pub fn pieces(&self) -> &[LinePiece] {
        &self.0
    }

    /// How long it is.
    pub fn length(&self) -> Length {
        self.0.iter().map(|piece| piece.length).sum()
    }

    /// What it weighs.
    pub fn mass(&self) -> Mass {
        self.0.iter().map(LinePiece::mass).sum()
    }

    /// So much of it from the tip; all of it where it is shorter.
    pub fn front(&self, length: Length) -> Vec<LinePiece> {
        let mut left = length;
        let mut front = Vec::new();
        for piece in &self.0 {
            if left <= Length::ZERO {
                break;
            }
            front.push(if piece.length <= left {
                *piece
            } else {
                piece.cut(left)
            });
            left = left - piece.length;
        }
        front
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(length: f64) -> LinePiece {
        LinePiece::level(
            Length::from_metres(length),
            Length::from_millimetres(1.0),
            LinearDensity::from_tex(1000.0),
        )
    }

    #[test]
    fn the_front_is_cut_where_it_ends() {
        let line = FlyLine::new(vec![level(2.0), level(3.0)]).unwrap();
        let mass = |metres: f64| -> Mass {
            let front = line.front(Length::from_metres(metres));
            front.iter().map(LinePiece::mass).sum()
        };
        assert!((mass(2.5).kilograms() - 2.5e-3).abs() < 1e-12);
        assert!((mass(9.0) / line.mass() - 1.0).abs() < 1e-12);
        assert!(line.front(Length::ZERO).is_empty());
    }

    /// A cone of 1 m from 1 to 2 mm holds π/12 (1 + 2 + 4) mm² · 1 m.
    #[test]
    fn a_solid_taper_weighs_what_its_cone_does() {
        let sizes = [1.0, 2.0].map(Length::from_millimetres);
        let density = Density::from_grams_per_cubic_centimetre(1.0);
        let pieces = LinePiece::solid(Length::from_metres(1.0), sizes, density);
        let mass: Mass = pieces.iter().map(LinePiece::mass).sum();
        let cone = core::f64::consts::PI / 12.0 * 7.0 * 1e-3;
        assert!((mass.kilograms() / cone - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_line_without_size_or_mass_is_none() {
        assert_eq!(FlyLine::new(Vec::new()), None);
        let thin = LinePiece {
            diameter: [Length::ZERO; 2],
            ..level(1.0)
        };
        assert_eq!(FlyLine::new(vec![thin]), None);
        assert_eq!(FlyLine::new(vec![level(f64::NAN)]), None);
    }
}
