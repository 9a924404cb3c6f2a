//! The braid at one station: diameter, path, angle and lay, solved together.
//!
//! The threads engaged cross the line's axis at the braid angle `α`. Thread lies longer than the line by
//! `(1 + c)/cos α`, so the angle sets the mass, the mass sets the outer diameter `d`, the wall of two threads sets the
//! diameter `D` of the thread's path, and the path with the angle sets the lay `L = π D / tan α`, which the take-off must
//! draw in one carrier circuit. The tail of a thread that was dropped lies straight in the core: it adds its own mass
//! and no more.

use core::f64::consts::{FRAC_PI_2, PI};

use crate::base::units::{Angle, Area, Density, Length, LinearDensity};
use crate::braid::yarn::Thread;

/// What does not change along the line: the standard thread, and how threads pack into a braid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Braiding {
    /// The thread that loads are counted in.
    pub thread: Thread,
    /// Extra thread length from waving over and under, as a share of its straight length.
    pub crimp: f64,
    /// Share of the braid's whole round section that is fibre.
    pub fibre_fraction: f64,
}

/// What is on the machine. Yarn is counted in standard threads, so that `16.into()` is sixteen of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Threads engaged.
    pub threads: u32,
    /// Yarn in all of them together, in standard threads.
    pub yarn: f64,
    /// Widths of all of them together, in widths of the standard thread. A thread's width goes with the root of its size.
    pub breadth: f64,
    /// Yarn of buried tails, in standard threads.
    pub buried: f64,
}

impl From<u32> for Load {
    fn from(threads: u32) -> Self {
        let count = f64::from(threads);
        Self {
            threads,
            yarn: count,
            breadth: count,
            buried: 0.0,
        }
    }
}

impl Load {
    /// So many threads instead, as heavy on the mean as these.
    #[must_use]
    pub fn of_threads(self, threads: u32) -> Self {
        let times = f64::from(threads) / f64::from(self.threads.max(1));
        Self {
            threads,
            yarn: self.yarn * times,
            breadth: self.breadth * times,
            buried: self.buried,
        }
    }

    /// The same threads, with so much yarn buried among them, in standard threads.
    #[must_use]
    pub fn burying(self, buried: f64) -> Self {
        Self { buried, ..self }
    }
}

/// The braid at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Braid {
    /// Threads engaged.
    pub threads: u32,
    /// Braid angle between thread and axis.
    pub angle: Angle,
    /// Axial advance in one full carrier circuit.
    pub lay: Length,
    /// Outer diameter of the bare braid.
    pub diameter: Length,
    /// Mean diameter of the thread's path.
    pub path_diameter: Length,
    /// Mass per length of the bare braid, buried tails included.
    pub linear_density: LinearDensity,
    /// Thread length per line length, (1 + c)/cos α.
    pub take_up: f64,
    /// Cover factor F: 1 and above means the threads touch.
    pub cover_factor: f64,
}

/// How the path of a braid shrinks as the distance h at which its threads meet grows, h ∝ cot α.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shrinking {
    /// p = −d ln D / d ln h: 0 where the path is held at one thickness, at most 0.9.
    pub rate: f64,
    /// p′ = dp / d ln h.
    pub growth: f64,
}

/// A load with all that its diameter at any angle depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Loaded {
    threads: u32,
    /// Mass per length at an angle of 0, buried tails left out.
    straight: LinearDensity,
    /// Mass per length of the buried tails.
    buried: LinearDensity,
    /// Thickness of the mean thread.
    thickness: Length,
    /// Width of all threads together.
    width: Length,
    /// Thread length per line length at an angle of 0.
    longer: f64,
    /// Square metres of the diameter squared for each kilogram per metre.
    spread: f64,
}

/// Steps after which the solution from the lay has long stood still; each that Newton's rule does not gain on is a halving.
const MOST_STEPS: u32 = 60;
/// A step of Newton's rule this small leaves an error of its square: none that f64 could hold.
const CLOSE: f64 = 1e-8;

impl Braiding {
    /// The braid of a load at a given angle, 0 < α < 90°.
    pub fn at_angle(&self, load: impl Into<Load>, angle: Angle) -> Braid {
        self.at_cosine(load, angle.radians().cos())
    }

    /// The braid of a load at the angle of a given cosine, between 0 and 1.
    pub fn at_cosine(&self, load: impl Into<Load>, cosine: f64) -> Braid {
        self.loaded(load.into()).braid(cosine)
    }

    /// The braid of a load when the take-off draws `lay` in one carrier circuit.
    pub fn at_lay(&self, load: impl Into<Load>, lay: Length) -> Braid {
        let loaded = self.loaded(load.into());
        loaded.braid(loaded.cosine_at(lay, core::f64::consts::FRAC_1_SQRT_2))
    }

    /// The braid of a load whose threads are seen at `surface` on its outside, as a photograph shows them; 0 < surface < 90°.
    ///
    /// In one lay a thread goes once round, at the path with `tan α = π D / L`, on the outside with `tan α_s = π d / L`; so
    /// `tan α = tan α_s · D / d`, and `D / d` depends on `α`. Analytic. Solved by halving: `tan α · d / D` grows with `α`.
    pub fn at_surface_angle(&self, load: impl Into<Load>, surface: Angle) -> Braid {
        let loaded = self.loaded(load.into());
        let (mut low, mut high) = (0.0_f64, FRAC_PI_2);
        for _ in 0..MOST_STEPS {
            let middle = 0.5 * (low + high);
            if loaded.braid(middle.cos()).surface_angle() < surface {
                low = middle;
            } else {
                high = middle;
            }
        }
        loaded.braid((0.5 * (low + high)).cos())
    }

    /// Yarn, in standard threads as a real number, whose braid at `angle` has the outer diameter `diameter`.
    pub fn threads_for(&self, diameter: Length, angle: Angle) -> f64 {
        let one = self.at_angle(1, angle).diameter;
        let ratio = diameter / one;
        ratio * ratio
    }

    /// How fast the path shrinks as the threads of a braid are drawn straighter. Analytic: a braid's diameter goes with
    /// the root of its mass, and the share `q` of that which crosses goes with 1/cos α, so that
    /// `p = ½ · q · (d/D) · sin² α` and `p′ = p · (p (1 − D/d) − 2 cos² α − (1 − q) sin² α)`.
    ///
    /// The rate is held at 0.9: above 1 the path would grow faster than the threads can follow, and no angle would be
    /// steady.
    pub fn shrinking(&self, load: Load, braid: &Braid) -> Shrinking {
        let cosine = braid.angle.radians().cos();
        self.loaded(load).shrinking(cosine)
    }

    pub(crate) fn loaded(&self, load: Load) -> Loaded {
        let thread = &self.thread;
        let one = thread.linear_density();
        let (thickness, width) = thread.sides();
        // Of threads that differ, the mean one makes the wall: thickness goes with the root of the size.
        let size = load.yarn / f64::from(load.threads.max(1));
        let longer = 1.0 + self.crimp;
        Loaded {
            threads: load.threads,
            straight: one * (load.yarn * longer),
            buried: one * load.buried,
            thickness: thickness * size.sqrt(),
            width: width * load.breadth,
            longer,
            spread: 4.0
                / (thread.fibre_density.kilograms_per_cubic_metre() * PI * self.fibre_fraction),
        }
    }
}

impl Loaded {
    /// Mass per length where a metre of line takes so many metres of thread, were it not for crimp: 1/cos α.
    pub(crate) fn linear_density(&self, secant: f64) -> LinearDensity {
        self.straight * secant + self.buried
    }

    /// Outer diameter of so much mass per length.
    pub(crate) fn diameter(&self, linear_density: LinearDensity) -> Length {
        Length::from_metres((self.spread * linear_density.kilograms_per_metre()).sqrt())
    }

    /// Thread length per line length.
    pub(crate) fn take_up(&self, secant: f64) -> f64 {
        self.longer * secant
    }

    /// The cover factor F where the braid has this diameter.
    pub(crate) fn cover_factor(&self, secant: f64) -> f64 {
        let diameter = self.diameter(self.linear_density(secant));
        let path_diameter = path_diameter(diameter, self.thickness);
        self.width / path_diameter / (2.0 * PI) * secant
    }

    /// The cosine of the angle at which the path is as long as the take-off draws.
    ///
    /// Solves L sin α = π D(α) cos α for cos α: at cos α = 0 the left side is the larger, at 1 the right. Newton's rule
    /// from a guess within a bracket that only closes, halved wherever the rule would leave it.
    pub(crate) fn cosine_at(&self, lay: Length, guess: f64) -> f64 {
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        let mut cosine = guess;
        for _ in 0..MOST_STEPS {
            let (excess, slope) = self.excess(cosine, lay);
            if excess < 0.0 {
                low = cosine;
            } else {
                high = cosine;
            }
            let wished = cosine - excess / slope;
            // So near the root, only rounding puts the wish outside the bracket; half of it would be farther off.
            let is_close = (wished - cosine).abs() <= CLOSE;
            let next = if is_close || (wished > low && wished < high) {
                wished
            } else {
                0.5 * (low + high)
            };
            let moved = (next - cosine).abs();
            cosine = next;
            if moved <= CLOSE {
                break;
            }
        }
        cosine
    }

    /// By how much the path, laid at this cosine, is longer than what the take-off draws, and how that grows.
    fn excess(&self, cosine: f64, lay: Length) -> (f64, f64) {
        let sine = (1.0 - cosine * cosine).sqrt();
        let (secant, lay) = (1.0 / cosine, lay.metres());
        let crossing = self.straight * secant;
        let linear_density = crossing + self.buried;
        let diameter = self.diameter(linear_density).metres();
        let thickness = self.thickness.metres();
        let path = diameter - 2.0 * thickness;
        let (path, growth) = if path > thickness {
            let share = crossing / linear_density;
            (path, -0.5 * diameter * share * secant)
        } else {
            (thickness, 0.0)
        };
        let excess = PI * path * cosine - lay * sine;
        let slope = PI * (path + cosine * growth) + lay * cosine / sine;
        (excess, slope)
    }

    /// The braid at the angle of this cosine.
    pub(crate) fn braid(&self, cosine: f64) -> Braid {
        // In sines and cosines, since a plan asks for thousands of these: L = π D cos α / sin α.
        let (sine, secant) = ((1.0 - cosine * cosine).sqrt(), 1.0 / cosine);
        let linear_density = self.linear_density(secant);
        let diameter = self.diameter(linear_density);
        let path_diameter = path_diameter(diameter, self.thickness);
        Braid {
            threads: self.threads,
            angle: Angle::from_radians(cosine.acos()),
            lay: path_diameter * (PI * cosine / sine),
            diameter,
            path_diameter,
            linear_density,
            take_up: self.take_up(secant),
            cover_factor: self.width / path_diameter / (2.0 * PI) * secant,
        }
    }

    /// See [`Braiding::shrinking`].
    pub(crate) fn shrinking(&self, cosine: f64) -> Shrinking {
        let secant = 1.0 / cosine;
        let linear_density = self.linear_density(secant);
        let diameter = self.diameter(linear_density);
        if diameter - self.thickness * 2.0 < self.thickness {
            return Shrinking::default();
        }
        let sine_squared = 1.0 - cosine * cosine;
        let share = self.straight * secant / linear_density;
        let wall = path_diameter(diameter, self.thickness) / diameter;
        let rate = (0.5 * share * sine_squared / wall).min(0.9);
        let falls = 2.0 * cosine * cosine + (1.0 - share) * sine_squared;
        Shrinking {
            rate,
            growth: rate * (rate * (1.0 - wall) - falls),
        }
    }
}

impl Braid {
    /// The whole round section, fibre and voids.
    pub fn area(&self) -> Area {
        self.diameter.circle()
    }

    /// The angle at which its threads are seen on the outside, `tan α_s = π d / L`: the path lies deeper in the wall. Analytic.
    pub fn surface_angle(&self) -> Angle {
        angle_of(self.diameter, self.lay)
    }

    /// Crossings per metre along one rib, N/(2L). Analytic.
    pub fn crossings_per_metre(&self) -> f64 {
        crossings_per_metre(self.threads, self.lay)
    }

    /// Share of the surface covered by thread.
    pub fn cover(&self) -> f64 {
        cover(self.cover_factor)
    }

    /// Mass per volume of the whole round section.
    pub fn bulk_density(&self) -> Density {
        self.linear_density / self.area()
    }
}

/// Mean diameter of the thread's path, d less two thread thicknesses: the wall is two threads thick.
///
/// With three threads or fewer the formula would fall below one thread, which cannot be: crossing threads lie on
/// either side of the axis. It is held at one thickness there, so that the plan stays defined.
pub fn path_diameter(diameter: Length, thickness: Length) -> Length {
    (diameter - thickness * 2.0).max(thickness)
}

/// Axial advance in one full carrier circuit, L = π D / tan α. Analytic.
pub fn lay(path_diameter: Length, angle: Angle) -> Length {
    path_diameter * (PI / angle.radians().tan())
}

/// The angle at which a path of this diameter advances by `lay` a circuit, tan α = π D / L. Analytic.
pub fn angle_of(path_diameter: Length, lay: Length) -> Angle {
    Angle::from_radians((path_diameter * PI / lay).atan())
}

/// Crossings per metre along one rib, N/(2L). Analytic.
pub fn crossings_per_metre(threads: u32, lay: Length) -> f64 {
    f64::from(threads) / (2.0 * lay.metres())
}

/// Cover factor F = N w / (2π D cos α): the share of the path one direction's threads fill. Analytic.
pub fn cover_factor(threads: u32, width: Length, path_diameter: Length, angle: Angle) -> f64 {
    f64::from(threads) * (width / path_diameter) / (2.0 * PI * angle.radians().cos())
}

/// Cover 2F − F² of two crossing directions, and 1 once the threads touch. Analytic; the same algebra as the
/// coverage of a cable's braided screen.
pub fn cover(cover_factor: f64) -> f64 {
    if cover_factor < 1.0 {
        cover_factor * (2.0 - cover_factor)
    } else {
        1.0
    }
}
