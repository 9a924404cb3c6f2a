//! The surface of the braid from the side, crossing by crossing.
//!
//! Unrolled, every thread is a straight band. Clockwise place `i` of `n` lies at `a = 2πi/n`, counter-clockwise place `j`
//! at `b = 2πj/n`, where `a = θ − 2πx/L` and `b = θ + 2πx/L` for a turn `θ` round the axis and a way `x` along it, with
//! `L` the lay. In `a` and `b` every crossing has a rectangle of its own, half-way to the next engaged thread on each
//! side, and these leave no gap and never overlap: within each the thread below is drawn first, and between them the
//! order does not matter. Analytic.

mod drawing;
mod front;
mod strand;
mod surface;

use core::f64::consts::TAU;

use super::path::Path;
use crate::base::units::Length;
use crate::braid::track::Direction;
use drawing::BraidDrawing;
use front::Front;
use surface::MOST_CIRCUITS;

pub use surface::{Crossing, Surface};

/// Size of the picture at most, in pixels.
pub const SIZE: (f64, f64) = (340.0, 150.0);
/// Most height the braid takes of it, in pixels.
const MOST_HIGH: f64 = 132.0;
/// Pixels of a metre drawn once as large, at the 96 to the inch that browsers count by.
const PIXELS_PER_METRE: f64 = 96.0 / crate::base::units::METRES_PER_INCH;
/// Magnifications within a decade; round numbers, not more than a third apart.
const ROUND: [f64; 10] = [1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0];

/// The picture: path data and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct BraidView {
    /// How many times larger than life, in CSS pixels of 1/96 inch.
    pub magnification: f64,
    /// Pixels of a metre.
    pub pixels_per_metre: f64,
    /// Visible length of the braid, in pixels.
    pub width: f64,
    /// Top and bottom of the braid, in pixels from the top.
    pub body: (f64, f64),
    /// The crossings on the front, in order of clockwise place, then from left to right.
    pub crossings: Vec<Crossing>,
    /// Threads where they pass below; drawn first.
    pub below: ThreadLayer,
    /// Threads where they pass above; drawn last.
    pub above: ThreadLayer,
}

/// Threads on one level, as path data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ThreadLayer {
    /// The clockwise threads: areas.
    pub clockwise: String,
    /// The counter-clockwise threads: areas.
    pub counter_clockwise: String,
    /// The long sides of either: lines.
    pub edges: String,
}

impl BraidView {
    /// The picture of a surface. With no thread in one of the directions there is no crossing and nothing is drawn.
    pub fn of(surface: &Surface) -> Self {
        let magnification = magnification(surface.path_diameter);
        let pixels_per_metre = magnification * PIXELS_PER_METRE;
        let radius = 0.5 * surface.path_diameter.metres() * pixels_per_metre;
        let along = radius / surface.angle.radians().tan();
        let front = Front {
            width: SIZE.0.min(f64::from(MOST_CIRCUITS) * TAU * along),
            axis: 0.5 * SIZE.1,
            radius,
        };
        let mut drawing = BraidDrawing::new(surface.ring, front, along);
        let crossings = drawing.braid(
            &surface.strands(Direction::Clockwise),
            &surface.strands(Direction::CounterClockwise),
        );
        let [below, above] = drawing.layers.map(ThreadLayer::of);
        Self {
            magnification,
            pixels_per_metre,
            width: front.width,
            body: (front.axis - front.radius, front.axis + front.radius),
            crossings,
            below,
            above,
        }
    }

    /// A round length for a scale bar of at most a third of the picture.
    pub fn scale_bar(&self) -> Length {
        let most = SIZE.0 / 3.0 / self.pixels_per_metre;
        let decade = 10_f64.powf(most.log10().floor());
        let round = [5.0, 2.0, 1.0].map(|times| times * decade);
        let fitting = round.into_iter().find(|&length| length <= most);
        Length::from_metres(fitting.unwrap_or(decade))
    }
}

/// The largest round magnification at which a braid of this diameter fits.
fn magnification(diameter: Length) -> f64 {
    let most = MOST_HIGH / (PIXELS_PER_METRE * diameter.metres());
    let decade = 10_f64.powf(most.log10().floor());
    let round = ROUND.iter().rev().map(|times| times * decade);
    round
        .into_iter()
        .find(|&times| times <= most)
        .unwrap_or(decade)
}

impl ThreadLayer {
    fn of([clockwise, counter_clockwise, edges]: [Path; 3]) -> Self {
        Self {
            clockwise: clockwise.open(),
            counter_clockwise: counter_clockwise.open(),
            edges: edges.open(),
        }
    }
}
