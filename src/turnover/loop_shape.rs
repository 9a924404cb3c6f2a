//! The shape of the loop, which the air changes while it rolls.
//!
//! Without air a loop keeps whatever shape it has: tension carries the line round every bend alike. The air presses the bend inward.
//! A change in the direction of the line runs along it as fast as the line rolls, ½ v √τ (module `turnover`), and each place turns by
//! what presses on it. With `φ` the direction of the line from that at the nose, −90° at the upper leg and 90° at the lower, and for
//! each metre `r` that rolls:
//!
//! ```text
//! dφ/dr = A′ cos²φ        so        tan φ = tan φ₀ + A,        A′ = ρ C_n d / (4 μ τ)
//! ```
//!
//! The half circle `φ₀` of the beginning leans forward by `A`: in the end it turns sharply just below the upper leg and slopes down
//! from there, as loops do. This is our own derivation. A chain of point masses does the same (`tests/turnover`).

use core::f64::consts::FRAC_PI_2;

use libm::{atan, cos, sin};

/// Places round the loop at which it is looked at: two halves of 8.
const COUNT: usize = 16;

/// Nodes and weights of Gauss and Legendre for 8 points on 0 to 1. Source: Abramowitz and Stegun, table 25.4, halved; from memory.
const NODES: [(f64, f64); COUNT / 2] = [
    (0.019_855_071_751_231_9, 0.050_614_268_145_188_1),
    (0.101_666_761_293_186_6, 0.111_190_517_226_687_2),
    (0.237_233_795_041_835_5, 0.156_853_322_938_943_6),
    (0.408_282_678_752_175_1, 0.181_341_891_689_181),
    (0.591_717_321_247_825, 0.181_341_891_689_181),
    (0.762_766_204_958_164_5, 0.156_853_322_938_943_6),
    (0.898_333_238_706_813_4, 0.111_190_517_226_687_2),
    (0.980_144_928_248_768_1, 0.050_614_268_145_188_1),
];

/// A direction round the loop.
#[derive(Clone, Copy, Debug, Default)]
struct Direction {
    sine: f64,
    cosine: f64,
    /// The part of the half turn that it stands for, radians.
    width: f64,
}

/// The directions of a loop, upper leg first.
#[derive(Clone, Debug)]
pub(super) struct LoopShape([Direction; COUNT]);

/// How a loop holds the air: the third power of the speed of each place, as a share of the speed of the loop, summed over the half
/// circle of the beginning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hold {
    /// Across the line. Half circle: ∫ cos³φ dφ = 4/3.
    pub(super) across: f64,
    /// Along the line, which runs through the loop as fast as the loop moves. Half circle: ∫ (1 + cos ψ)³ dψ = 5π/2.
    pub(super) along: f64,
}

impl LoopShape {
    pub(super) fn new() -> Self {
        let mut directions = [Direction::default(); COUNT];
        let (upper, lower) = directions.split_at_mut(COUNT / 2);
        for (half, begin) in [(upper, -FRAC_PI_2), (lower, 0.0)] {
            for (direction, (node, weight)) in half.iter_mut().zip(NODES) {
                let angle = begin + FRAC_PI_2 * node;
                *direction = Direction {
                    sine: sin(angle),
                    cosine: cos(angle),
                    width: FRAC_PI_2 * weight,
                };
            }
        }
        Self(directions)
    }

    /// How it holds the air when it leans so much. In place of the half circle of the beginning all directions are summed, so
    /// that a sharp nose is seen, too: dφ₀ = dφ cos²φ₀ / cos²φ.
    pub(super) fn hold(&self, lean: f64) -> Hold {
        let mut hold = Hold {
            across: 0.0,
            along: 0.0,
        };
        for at in &self.0 {
            let start = at.sine / at.cosine - lean;
            let width = at.width / (1.0 + start * start);
            hold.across += at.cosine * width;
            hold.along += (1.0 - at.sine) * (1.0 - at.sine) / (1.0 + at.sine) * width;
        }
        hold
    }

    /// Mass of the loop as if it had the speed of the upper leg, by its energy of motion. `within` is the mass between the upper leg
    /// and a place so far round the loop, in radii. A place that moves with the loop and through it has (1 − sin φ)/2 of the energy
    /// of the leg; by parts, ∫ μ (1 − sin φ)/2 R dφ₀ = ∫ within · cos φ/2 dφ, which no jump of `μ` disturbs.
    pub(super) fn moving_mass(&self, lean: f64, within: impl Fn(f64) -> f64) -> f64 {
        let part = |at: &Direction| {
            let start = atan(at.sine / at.cosine - lean);
            within(start + FRAC_PI_2) * at.cosine / 2.0 * at.width
        };
        self.0.iter().map(part).sum()
    }
}

/// Length from the upper leg to the nose of the loop, in radii: where φ is 0. However sharp the loop, it is something.
pub(super) fn to_nose(lean: f64) -> f64 {
    (FRAC_PI_2 - atan(lean)).max(LEAST_NOSE)
}

const LEAST_NOSE: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;

    #[test]
    fn the_half_circle_has_its_closed_forms() {
        let shape = LoopShape::new();
        let Hold { across, along } = shape.hold(0.0);
        assert!((across - 4.0 / 3.0).abs() < 1e-9, "{across}");
        assert!((along - 2.5 * PI).abs() < 1e-6, "{along}");
        // A level loop moves half of its mass: ∫ (1 + cos ψ)/2 dψ = π/2.
        let level = shape.moving_mass(0.0, |way| way);
        assert!((level - PI / 2.0).abs() < 1e-9, "{level}");
        assert!((to_nose(0.0) - PI / 2.0).abs() < 1e-12);
    }

    /// Sixteen directions see a sharp nose coarsely. What counts is the difference beside the half circle of the beginning.
    const LOOSE: f64 = 0.01;

    /// The same integrals over the half circle of the beginning, by many slices.
    #[test]
    fn a_leaning_loop_is_summed_right() {
        let shape = LoopShape::new();
        for lean in [0.5, 1.0, 2.0, 4.0] {
            let (mut across, mut along, mut moving) = (0.0, 0.0, 0.0);
            let slices = 200_000;
            let width = PI / f64::from(slices);
            for slice in 0..slices {
                let way = (f64::from(slice) + 0.5) * width;
                let now = libm::tan(way - FRAC_PI_2) + lean;
                let (cosine, sine) = (
                    1.0 / libm::sqrt(1.0 + now * now),
                    now / libm::sqrt(1.0 + now * now),
                );
                across += cosine.powi(3) * width;
                along += (1.0 - sine).powi(3) * width;
                moving += (1.0 - sine) / 2.0 * width;
            }
            let hold = shape.hold(lean);
            let is_near = |seen: f64, true_one: f64, beginning: f64| {
                (seen - true_one).abs() < LOOSE * beginning
            };
            assert!(
                is_near(hold.across, across, 4.0 / 3.0),
                "{lean} {hold:?} {across}"
            );
            assert!(
                is_near(hold.along, along, 2.5 * PI),
                "{lean} {hold:?} {along}"
            );
            let mass = shape.moving_mass(lean, |way| way);
            assert!(is_near(mass, moving, PI / 2.0), "{lean} {mass} {moving}");
        }
    }
}
