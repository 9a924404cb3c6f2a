//! Sums along the line from the fly, ready to be asked at any place: what moves while the loop rolls.

use libm::pow;

use super::air::DragLaw;
use super::line::LinePiece;

/// Longest piece within which size and mass count as changing evenly, metres.
const LONGEST_PIECE: f64 = 0.1;

/// Metres, or kilograms per metre: far below those of any line.
const LEAST_MEAN: f64 = 1e-9;

/// Values of a place on the line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Sums {
    /// Mass, kilograms.
    pub(super) mass: f64,
    /// Diameter, summed along the line: square metres.
    pub(super) breadth: f64,
    /// The power of the diameter that the varying part of the drag along the line depends on, summed along the line.
    pub(super) skin: f64,
}

/// The line from the fly on.
#[derive(Clone, Debug)]
pub(super) struct Moving {
    /// Where pieces begin, from the fly, and the end of the last one; metres.
    places: Vec<f64>,
    /// Sums up to there.
    sums: Vec<Sums>,
    /// The values of each piece at both its ends.
    ends: Vec<[Sums; 2]>,
}

impl Moving {
    /// Of pieces from the fly on.
    pub(super) fn of(pieces: &[LinePiece], along: &DragLaw) -> Self {
        let mut moving = Self {
            places: vec![0.0],
            sums: vec![Sums::default()],
            ends: Vec::new(),
        };
        for piece in pieces {
            moving.add(piece, 1.0 - along.exponent);
        }
        moving
    }

    fn add(&mut self, piece: &LinePiece, power: f64) {
        let length = piece.length.metres();
        // Never so many that they could not be counted.
        let parts = (length / LONGEST_PIECE).ceil().clamp(1.0, 10_000.0);
        let values = |share: f64| {
            let between = |[a, b]: [f64; 2]| a + (b - a) * share;
            let breadth = between(
                piece
                    .diameter
                    .map(super::super::base::units::Length::metres),
            );
            Sums {
                mass: between(
                    piece
                        .linear_density
                        .map(super::super::base::units::LinearDensity::kilograms_per_metre),
                ),
                breadth,
                skin: pow(breadth, power),
            }
        };
        let mut index = 0.0;
        while index < parts {
            let ends = [values(index / parts), values((index + 1.0) / parts)];
            let last = self.places.len() - 1;
            let (place, sums) = (self.places[last], self.sums[last]);
            self.ends.push(ends);
            self.places.push(place + length / parts);
            self.sums
                .push(up_to(sums, &ends, length / parts, length / parts));
            index += 1.0;
        }
    }

    /// Length of all of it, metres.
    pub(super) fn length(&self) -> f64 {
        self.places[self.places.len() - 1]
    }

    /// Sums from the fly to a place; beyond the end those of all.
    pub(super) fn sums(&self, at: f64) -> Sums {
        let piece = self.piece_at(at);
        let from = self.places[piece];
        let whole = self.places[piece + 1] - from;
        up_to(
            self.sums[piece],
            &self.ends[piece],
            whole,
            (at - from).clamp(0.0, whole),
        )
    }

    fn piece_at(&self, at: f64) -> usize {
        let after = self.places.partition_point(|&place| place <= at);
        after.saturating_sub(1).min(self.ends.len() - 1)
    }

    /// Means between two places, the first before the second: diameter in metres, mass per length in kilograms per metre. They are
    /// never nothing, not even where the rest of the line is so heavy that the difference of its sums is lost.
    pub(super) fn means(&self, from: f64, to: f64) -> Sums {
        let (a, b) = (self.sums(from), self.sums(to));
        let mean = |a: f64, b: f64| ((b - a) / (to - from)).max(LEAST_MEAN);
        Sums {
            mass: mean(a.mass, b.mass),
            breadth: mean(a.breadth, b.breadth),
            skin: mean(a.skin, b.skin),
        }
    }
}

/// Sums at `way` into a piece of this length.
fn up_to(before: Sums, [a, b]: &[Sums; 2], length: f64, way: f64) -> Sums {
    let share = way / length / 2.0;
    let add = |before: f64, a: f64, b: f64| before + way * (a + (b - a) * share);
    Sums {
        mass: add(before.mass, a.mass, b.mass),
        breadth: add(before.breadth, a.breadth, b.breadth),
        skin: add(before.skin, a.skin, b.skin),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::{Density, Length, LinearDensity};

    /// A line of 1 g/m, 1 mm thick and 10 m long.
    #[test]
    fn sums_are_those_of_a_level_line() {
        let piece = LinePiece::level(
            Length::from_metres(10.0),
            Length::from_millimetres(1.0),
            LinearDensity::from_tex(1000.0),
        );
        let moving = Moving::of(&[piece], &DragLaw::ALONG);
        assert!((moving.sums(4.03).mass - 4.03e-3).abs() < 1e-12);
        assert!((moving.sums(99.0).mass - 1e-2).abs() < 1e-12);
        assert!((moving.means(3.0, 4.5).breadth - 1e-3).abs() < 1e-12);
        assert_eq!(moving.sums(-1.0), Sums::default());
    }

    /// A cone from 1 to 3 mm over 1 m: its middle is 2 mm, and what lies before it 1.5 mm on the mean.
    #[test]
    fn a_taper_is_summed_in_between() {
        let density = Density::from_grams_per_cubic_centimetre(1.0);
        let sizes = [1.0, 3.0].map(Length::from_millimetres);
        let pieces = LinePiece::solid(Length::from_metres(1.0), sizes, density);
        let moving = Moving::of(&pieces, &DragLaw::ALONG);
        assert!((moving.means(0.0, 0.5).breadth - 1.5e-3).abs() < 1e-12);
        assert!((moving.length() - 1.0).abs() < 1e-12);
    }
}
