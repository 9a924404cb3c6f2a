//! The line exactly as drawn: at the target angle, as if the thread count were not whole.

use crate::base::units::{Length, LinearDensity, Mass};
use crate::braid::geometry::Braid;
use crate::braid::taper::{Point, Taper};
use crate::braid::weight::Head;
use crate::design::Design;
use crate::design::settings::DIAMETER;
use crate::plan::layout::Ground;

/// The drawing, with what turns diameters into mass.
pub(super) struct DrawnMass<'a> {
    ground: &'a Ground,
    /// The braid a single thread would make at the target angle: mass is proportional to the count, diameter to its square root.
    one_thread: Braid,
}

/// The finished diameter at which a braid of a design, at its target angle, has each of these dressed masses per length. Found by
/// halving: the mass rises with the diameter.
pub fn diameters_of(design: &Design, weights: &[LinearDensity]) -> Vec<Length> {
    let ground = Ground::of(design);
    let drawn = DrawnMass::of(&ground);
    let of = |&weight: &LinearDensity| {
        let range = [DIAMETER.low, DIAMETER.high].map(Length::from_millimetres);
        let (mut low, mut high) = (range[0], range[1]);
        for _ in 0..HALVINGS {
            let middle = (low + high) / 2.0;
            if drawn.of_diameter(middle) < weight {
                low = middle;
            } else {
                high = middle;
            }
        }
        (low + high) / 2.0
    };
    weights.iter().map(of).collect()
}

/// Mass of the head of a design exactly as drawn; `None` where the line is too short to have one.
pub fn drawn_head(design: &Design) -> Option<Mass> {
    let ground = Ground::of(design);
    let head = Head::of(&ground.taper.sections());
    let is_whole = head.missing(ground.taper.length()).is_none();
    is_whole.then(|| DrawnMass::of(&ground).mass_between((head.from, head.to)))
}

/// Halvings of the range of diameters: to less than their step.
const HALVINGS: u32 = 24;

impl<'a> DrawnMass<'a> {
    pub(super) fn of(ground: &'a Ground) -> Self {
        let process = &ground.process;
        Self {
            ground,
            one_thread: process.braiding.at_angle(1, process.target),
        }
    }

    /// Mass the drawing asks for between two places.
    pub(super) fn mass_between(&self, ends: (Length, Length)) -> Mass {
        self.mass_of(&self.ground.taper, ends)
    }

    /// Mass that another drawing, braided alike, asks for between two places: the dressed mass per length is quadratic in the
    /// diameter and the diameter linear between control points, so Simpson's rule is exact on each piece.
    pub(super) fn mass_of(&self, taper: &Taper, (from, to): (Length, Length)) -> Mass {
        let piece = |pair: &[Point]| {
            let (a, b) = (pair[0].at.max(from), pair[1].at.min(to));
            let at = |place: Length| self.of_diameter(taper.diameter_at(place));
            (a < b).then(|| (b - a) * ((at(a) + at((a + b) / 2.0) * 4.0 + at(b)) / 6.0))
        };
        taper.points().windows(2).filter_map(piece).sum()
    }

    /// Dressed mass per length of a braid that had exactly this finished diameter at the target angle.
    pub(super) fn of_diameter(&self, diameter: Length) -> LinearDensity {
        let ground = self.ground;
        let threads = ground.staircase.wanted(diameter);
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
