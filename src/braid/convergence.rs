//! How the braid angle follows a change: late.
//!
//! Threads run straight from a guide of radius `R` to the point where they meet the braid, a distance `h` further on, so
//! that `tan α = s/h` with `s² = R² − r²` and `r` half the path diameter. While a length `dx` is braided, the take-off
//! draws `dy`, and `h` grows by what is drawn and not yet braided: `dh = dy − dx`. A carrier turning by `dθ` lays
//! `r dθ = tan α dx`, and one circuit draws the lay `L`, hence
//!
//! ```text
//! dh/dx = L s / (2π r h) − 1
//! ```
//!
//! Source: the kinematic equation of Du & Popper 1994, J. Text. Inst. 85, 316–337. In the steady state `h∞ = L s / 2π r`. At constant
//! radius a small step dies away as `exp(−x/h∞)`. But the path shrinks as `h` grows, `r ∝ h⁻ᵖ` near it, since threads
//! that lie straighter are less of them in the section; that makes it `exp(−x (1 − p)/h∞)`. And `p` itself changes on the
//! way, by `p′ = dp/d ln h`. With `u = h/h∞ = 1 + ε` and `q = 1 − p` the equation is, to the second order,
//! `h∞ du/dx = −q ε + ½ (q (1 + q) + p′) ε²`, and to that order the power `h^(2 + q + p′/q)` decays exactly so; this closed
//! form is what is used. It is right to a hundredth of a degree for one thread of eight and one tooth of ten, to a tenth
//! where the lay is changed by a fifth. Analytic; the tests integrate the equation step by step.

use crate::base::units::{Angle, Length};
use crate::braid::geometry::{Braid, Braiding, Load, Loaded};

/// The approach to the steady state within a stretch over which neither threads nor wheels change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Convergence {
    /// `s`: how far outside the braid the guide lies.
    reach: Length,
    /// `h` in the steady state.
    steady: Length,
    /// The power of `h` that decays exponentially.
    power: f64,
    /// `h` at the beginning of the stretch.
    start: Length,
    /// That power of h/h∞ less 1, there.
    off: f64,
    /// Length braided in which a step dies away to 1/e.
    lag: Length,
}

/// The power is held above this. Of four threads and fewer it could fall to 0 and below, where it says nothing.
const LEAST_POWER: f64 = 0.5;
/// A step smaller than this share is none.
const NO_STEP: f64 = 1e-9;
/// A step to a shorter distance larger than this, in its own measure, may outrun the take-off in the closed form.
const LARGE: f64 = 1.0;
/// Lags after which nothing is left of a step that f64 would notice.
const GONE: f64 = 30.0;
/// Places at which a decaying step is sampled in its own measure, from 1 down to 0, and their weights: Gauss and
/// Legendre's rule of four points on the unit interval. Source: any table of quadrature, such as Abramowitz & Stegun,
/// Handbook of Mathematical Functions, Table 25.4.
const NODES: [(f64, f64); 4] = [
    (0.069_431_844_202_973_71, 0.173_927_422_568_726_93),
    (0.330_009_478_207_571_87, 0.326_072_577_431_273_07),
    (0.669_990_521_792_428_1, 0.326_072_577_431_273_07),
    (0.930_568_155_797_026_3, 0.173_927_422_568_726_93),
];

impl Convergence {
    /// The approach to the braid `steady`, of a load, on a machine with a guide of radius `guide`, when the threads met at the
    /// distance `start` before; steady from the beginning where there was nothing before.
    pub fn new(
        braiding: &Braiding,
        load: Load,
        steady: &Braid,
        guide: Length,
        start: Option<Length>,
    ) -> Self {
        let cosine = steady.angle.radians().cos();
        let loaded = braiding.loaded(load);
        Self::at_steady_state(&loaded, cosine, steady.path_diameter, guide).begun_at(start)
    }

    /// Steady from the beginning, at the angle of this cosine.
    pub(crate) fn at_steady_state(
        loaded: &Loaded,
        cosine: f64,
        path_diameter: Length,
        guide: Length,
    ) -> Self {
        let reach = reach(guide, path_diameter / 2.0);
        let steady = reach * (cosine / (1.0 - cosine * cosine).sqrt());
        let shrinking = loaded.shrinking(cosine);
        let factor = 1.0 - shrinking.rate;
        Self {
            reach,
            steady,
            power: (2.0 + factor + shrinking.growth / factor).max(LEAST_POWER),
            start: steady,
            off: 0.0,
            lag: steady / factor,
        }
    }

    /// The approach to the same steady state from where the threads met before.
    #[must_use]
    pub(crate) fn begun_at(self, start: Option<Length>) -> Self {
        let Some(start) = start else {
            return self;
        };
        let off = power(start / self.steady, self.power) - 1.0;
        if off.abs() < NO_STEP {
            return self;
        }
        Self { start, off, ..self }
    }

    /// Length braided in which a step dies away to 1/e, 37 %; after three of them 5 % is left.
    pub fn lag(&self) -> Length {
        self.lag
    }

    /// Whether nothing moves within this stretch.
    pub fn is_steady(&self) -> bool {
        self.off == 0.0
    }

    /// Share of the step at the beginning that is left after so much was braided.
    pub fn left(&self, braided: Length) -> f64 {
        (-(braided / self.lag)).exp()
    }

    /// How far from the guide the threads meet after so much was braided.
    pub fn distance(&self, braided: Length) -> Length {
        self.distance_with(self.left(braided))
    }

    /// The braid angle after so much was braided.
    pub fn angle(&self, braided: Length) -> Angle {
        self.angle_with(self.left(braided))
    }

    /// The braid angle while so much of the step is left.
    pub fn angle_with(&self, left: f64) -> Angle {
        self.angle_at(self.distance_with(left))
    }

    /// The braid angle where threads meet at this distance.
    pub(crate) fn angle_at(&self, distance: Length) -> Angle {
        Angle::from_radians((self.reach / distance).atan())
    }

    /// 1/cos α of the braid angle where threads meet at this distance.
    pub(crate) fn secant_at(&self, distance: Length) -> f64 {
        let tangent = self.reach / distance;
        (1.0 + tangent * tangent).sqrt()
    }

    /// How far from the guide the threads meet at the beginning.
    pub(crate) fn start(&self) -> Length {
        self.start
    }

    /// How much of the step is left where the angle passes this one; `None` where it never does.
    pub fn left_at(&self, angle: Angle) -> Option<f64> {
        let distance = self.reach / angle.radians().tan();
        let left = (power(distance / self.steady, self.power) - 1.0) / self.off;
        (left > 0.0 && left < 1.0).then_some(left)
    }

    /// Length braided until so much of the step is left.
    pub fn braided_until(&self, left: f64) -> Length {
        self.lag * -left.ln()
    }

    pub(crate) fn distance_with(&self, left: f64) -> Length {
        if self.is_steady() {
            self.steady
        } else {
            let form = self.steady * power(1.0 + self.off * left, 1.0 / self.power);
            if self.off > LARGE {
                form.max(self.least_distance(left))
            } else {
                form
            }
        }
    }

    /// The point where threads meet goes away from the guide no faster than line is braided: dh/dx ≥ −1, since the
    /// take-off never runs back. The closed form breaks that only after very large steps.
    fn least_distance(&self, left: f64) -> Length {
        self.start - self.braided_until(left)
    }

    /// Places at which to sample what depends on the angle over so much braided from the beginning, after which the share
    /// `low` of the step is left. Each is a distance at which threads meet, with the length it stands for:
    /// `Σ (f(distance) − f(steady)) · length` is the integral of f less its steady value. None where nothing moves.
    pub(crate) fn samples(
        &self,
        braided: Length,
        low: f64,
    ) -> impl Iterator<Item = (Length, Length)> {
        let (panels, is_large) = match self.off {
            0.0 => (0_u32, false),
            off => (if off > LARGE { 64 } else { 1 }, off > LARGE),
        };
        let lag = self.lag;
        // dx = −lag · dz/z in the share z that is left; f(z) − f(0) goes to zero with z, so that the quotient is smooth and
        // one panel does. Behind a very large step the angle has a kink: there the way itself is cut into many panels.
        let (width, way) = (1.0 - low, braided.min(lag * GONE) / f64::from(panels));
        (0..panels).flat_map(move |panel| {
            NODES.map(|(node, weight)| {
                let (share, length) = if is_large {
                    let share = (-(way / lag) * (f64::from(panel) + node)).exp();
                    (share, way * weight)
                } else {
                    let share = low + width * node;
                    (share, lag * (weight * width / share))
                };
                (self.distance_with(share), length)
            })
        })
    }
}

/// A positive number near 1 to some power. By way of the logarithm, which costs half of what the library's way does: that is
/// also exact for numbers far from 1.
fn power(base: f64, exponent: f64) -> f64 {
    (exponent * base.ln()).exp()
}

/// How far outside the braid the guide lies, √(R² − r²); a braid nearly as thick as the guide is held at a tenth of it.
fn reach(guide: Length, radius: Length) -> Length {
    let (guide, radius) = (guide.metres(), radius.metres());
    let squared = guide.mul_add(guide, -radius * radius);
    Length::from_metres(squared.max(0.01 * guide * guide).sqrt())
}
