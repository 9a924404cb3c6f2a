//! The line exactly as drawn: at the target angle, as if the thread count were not whole.

use crate::base::units::{Length, LinearDensity, Mass};
use crate::braid::geometry::Braid;
use crate::braid::taper::Point;
use crate::plan::layout::Ground;

/// The drawing, with what turns diameters into mass.
pub(super) struct DrawnMass<'a> {
    ground: &'a Ground,
    /// The braid a single thread would make at the target angle: mass is proportional to the count, diameter to its square root.
    one_thread: Braid,
}

impl<'a> DrawnMass<'a> {
    pub(super) fn of(ground: &'a Ground) -> Self {
        let process = &ground.process;
        Self {
            ground,
            one_thread: process.braiding.at_angle(1, process.target),
        }
    }

    /// Mass the drawing asks for between two places: the dressed mass per length is quadratic in the diameter and
    /// the diameter linear between control points, so Simpson's rule is exact on each piece.
    pub(super) fn mass_between(&self, (from, to): (Length, Length)) -> Mass {
        let piece = |pair: &[Point]| {
            let (a, b) = (pair[0].at.max(from), pair[1].at.min(to));
            (a < b).then(|| (b - a) * self.mean(a, b))
        };
        self.ground
            .taper
            .points()
            .windows(2)
            .filter_map(piece)
            .sum()
    }

    fn mean(&self, a: Length, b: Length) -> LinearDensity {
        (self.at(a) + self.at((a + b) / 2.0) * 4.0 + self.at(b)) / 6.0
    }

    /// Dressed mass per length of a braid that had exactly the drawn diameter at the target angle.
    fn at(&self, at: Length) -> LinearDensity {
        let ground = self.ground;
        let threads = ground.staircase.wanted(ground.taper.diameter_at(at));
        let braid = Braid {
            linear_density: self.one_thread.linear_density * threads,
            diameter: self.one_thread.diameter * threads.sqrt(),
            ..self.one_thread
        };
        let process = &ground.process;
        process
            .dressing
            .dress(&braid, process.braiding.fibre_fraction)
            .linear_density
    }
}
