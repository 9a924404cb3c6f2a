//! The braid at one station: diameter, path, angle and lay, solved together.
//!
//! `N` threads of linear density `T` cross the line's axis at the braid angle `α`. Thread lies longer than the
//! line by `(1 + c)/cos α`, so the angle sets the mass, the mass sets the outer diameter `d`, the wall of two
//! threads sets the diameter `D` of the thread's path, and the path with the angle sets the lay `L = π D / tan α`,
//! which the take-off must draw in one carrier circuit.

use core::f64::consts::PI;

use crate::units::{Angle, Area, Length, LinearDensity};
use crate::yarn::Thread;

/// What does not change along the line: the thread, and how it packs into a braid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Braiding {
    /// The thread on every engaged carrier.
    pub thread: Thread,
    /// Extra thread length from waving over and under, as a share of its straight length.
    pub crimp: f64,
    /// Share of the braid's whole round section that is fibre.
    pub fibre_fraction: f64,
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
    /// Mass per length of the bare braid.
    pub linear_density: LinearDensity,
    /// Thread length per line length, (1 + c)/cos α.
    pub take_up: f64,
    /// Cover factor F: 1 and above means the threads touch.
    pub cover_factor: f64,
}

/// Halvings of the bracket when the angle is solved from the lay: 2⁻⁵² is the last bit of cos α.
const HALVINGS: u32 = 52;

impl Braiding {
    /// The braid of `threads` threads at a given angle, 0 < α < 90°.
    pub fn at_angle(&self, threads: u32, angle: Angle) -> Braid {
        self.at_cosine(threads, angle.radians().cos())
    }

    /// The braid of `threads` threads when the take-off draws `lay` in one carrier circuit.
    ///
    /// Solves L sin α = π D(α) cos α for cos α by halving: at cos α = 0 the left side is the larger, at 1 the right.
    pub fn at_lay(&self, threads: u32, lay: Length) -> Braid {
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        let straight = self.straight_diameter(threads).metres();
        let thickness = self.thread.thickness().metres();
        for _ in 0..HALVINGS {
            let cosine = 0.5 * (low + high);
            let drawn = lay.metres() * (1.0 - cosine * cosine).sqrt();
            let path = (straight / cosine.sqrt() - 2.0 * thickness).max(thickness);
            if drawn > PI * path * cosine {
                low = cosine;
            } else {
                high = cosine;
            }
        }
        self.at_cosine(threads, high)
    }

    /// Threads, as a real number, whose braid at `angle` has the outer diameter `diameter`.
    pub fn threads_for(&self, diameter: Length, angle: Angle) -> f64 {
        let one = self.at_angle(1, angle).diameter;
        let ratio = diameter / one;
        ratio * ratio
    }

    /// Thread length per line length at an angle, (1 + c)/cos α. Analytic.
    fn take_up(&self, cosine: f64) -> f64 {
        (1.0 + self.crimp) / cosine
    }

    /// The outer diameter the same threads would have at an angle of 0.
    fn straight_diameter(&self, threads: u32) -> Length {
        let total = self.thread.linear_density() * f64::from(threads) * (1.0 + self.crimp);
        self.outer_diameter(total)
    }

    fn outer_diameter(&self, linear_density: LinearDensity) -> Length {
        crate::yarn::round_diameter(
            linear_density,
            self.thread.fibre_density,
            self.fibre_fraction,
        )
    }

    fn at_cosine(&self, threads: u32, cosine: f64) -> Braid {
        let angle = Angle::from_radians(cosine.acos());
        let take_up = self.take_up(cosine);
        let linear_density = self.thread.linear_density() * f64::from(threads) * take_up;
        let diameter = self.outer_diameter(linear_density);
        let path_diameter = path_diameter(diameter, self.thread.thickness());
        Braid {
            threads,
            angle,
            lay: lay(path_diameter, angle),
            diameter,
            path_diameter,
            linear_density,
            take_up,
            cover_factor: cover_factor(threads, self.thread.width(), path_diameter, angle),
        }
    }
}

impl Braid {
    /// The whole round section, fibre and voids.
    pub fn area(&self) -> Area {
        self.diameter.circle()
    }

    /// Crossings per metre along one rib, N/(2L). Analytic.
    pub fn crossings_per_metre(&self) -> f64 {
        crossings_per_metre(self.threads, self.lay)
    }

    /// Share of the surface covered by thread.
    pub fn cover(&self) -> f64 {
        cover(self.cover_factor)
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
