//! Stretches of constant threads and wheels, and the line they make.
//!
//! Within a stretch the braid settles at the angle its wheels and threads ask for (see [`crate::braid::convergence`]); mass,
//! diameter, cover and thread follow the real angle all the way.

mod steady_state;
mod sums;

use crate::base::units::{Angle, Area, Density, Length, Mass, Volume};
use crate::braid::convergence::Convergence;
use crate::braid::dressing::{Dressed, Dressing};
use crate::braid::geometry::{Braid, Braiding, Load, Loaded};
use crate::braid::takeoff::Wheels;
pub(crate) use steady_state::{SteadyState, SteadyStates};
use sums::Sums;

/// A stretch to be braided: what is on the machine between two places.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Place of the load on the ladder of levels.
    pub level: usize,
    /// Threads engaged and tails buried.
    pub load: Load,
    /// Wheels fitted.
    pub wheels: Wheels,
    /// Length they draw in one carrier circuit.
    pub lay: Length,
}

/// A stretch of line over which threads, tails and wheels do not change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// What is on the machine, and where.
    pub piece: Piece,
    /// The bare braid the stretch settles at.
    pub steady: Braid,
    /// How it comes there.
    pub convergence: Convergence,
    /// Its load.
    loaded: Loaded,
    /// Where threads meet at its end.
    end: Length,
    /// Everything from the beginning of the line to the beginning of this stretch.
    before: Sums,
}

/// The line at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// What is on the machine.
    pub piece: Piece,
    /// The bare braid as it really is there.
    pub braid: Braid,
    /// The same dressed.
    pub dressed: Dressed,
}

/// What lies between two places of a line, before dressing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Its length.
    length: Length,
    /// Its mass.
    bare: Mass,
    /// The voids in it.
    voids: Volume,
    /// Bare diameter times length: what a film on the surface goes by.
    breadth: Area,
}

impl Part {
    /// Its mass in some dressing, with so much liquid in every volume of voids.
    pub fn mass_with(&self, dressing: &Dressing, wet: Density) -> Mass {
        let in_voids = self.voids * (dressing.oil + dressing.varnish + wet);
        let film = dressing.film_volume(self.breadth, self.length) * dressing.film_density;
        (self.bare + in_voids + film) * ((1.0 + dressing.grease) * dressing.weighed)
    }
}

/// How lines are made: what all stretches have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Process {
    /// How threads make a braid.
    pub braiding: Braiding,
    /// How it is dressed.
    pub dressing: Dressing,
    /// Radius of the guide the threads run from.
    pub guide: Length,
    /// The angle aimed at.
    pub target: Angle,
}

/// A line braided: its stretches, tip first, without gap.
#[derive(Clone, Debug, PartialEq)]
pub struct BraidedLine {
    process: Process,
    stretches: Vec<Stretch>,
    whole: Sums,
}

impl Process {
    fn dress(&self, braid: &Braid) -> Dressed {
        self.dressing.dress(braid, self.braiding.fibre_fraction)
    }
}

impl Stretch {
    /// Where it begins.
    pub fn from(&self) -> Length {
        self.piece.from
    }

    /// Where it ends.
    pub fn to(&self) -> Length {
        self.piece.to
    }

    /// Its length.
    pub fn length(&self) -> Length {
        self.piece.to - self.piece.from
    }

    /// The parts of it over which the angle is outside a tolerance. The angle goes one way only, so there are two at most:
    /// one on either side of the target.
    pub fn outside(
        &self,
        target: Angle,
        tolerance: Angle,
    ) -> impl Iterator<Item = (Length, Length)> + use<> {
        let (from, to) = (self.piece.from, self.piece.to);
        let is_within = |at: Length| (self.angle_at(at) - target).abs() <= tolerance;
        let bound = |sign: f64| {
            // Between two ends within the tolerance all is.
            if is_within(from) && is_within(to) {
                return None;
            }
            let left = self.convergence.left_at(target + tolerance * sign)?;
            let at = from + self.convergence.braided_until(left);
            (from < at && at < to).then_some(at)
        };
        let (one, other) = (bound(1.0), bound(-1.0));
        let first = one.unwrap_or(to).min(other.unwrap_or(to));
        let last = one.unwrap_or(from).max(other.unwrap_or(from)).max(first);
        let is_off = |(begin, end): &(Length, Length)| {
            let middle = (*begin + *end) / 2.0;
            begin < end && (self.angle_at(middle) - target).abs() > tolerance
        };
        let parts = [(from, first), (first, last), (last, to)];
        let off = parts.map(|part| is_off(&part).then_some(part));
        off.into_iter().flatten()
    }

    /// The braid angle at a place within it.
    pub fn angle_at(&self, at: Length) -> Angle {
        self.convergence.angle_at(self.distance_at(at))
    }

    /// 1/cos α of the braid angle at a place within it.
    pub(crate) fn secant_at(&self, at: Length) -> f64 {
        self.convergence.secant_at(self.distance_at(at))
    }

    /// The cover factor F at a place within it.
    pub(crate) fn cover_factor_at(&self, at: Length) -> f64 {
        self.loaded.cover_factor(self.secant_at(at))
    }

    /// Diameter of the bare braid while so much of the step at its beginning is left.
    pub(crate) fn diameter_with(&self, left: f64) -> Length {
        if self.convergence.is_steady() {
            return self.steady.diameter;
        }
        let distance = self.convergence.distance_with(left);
        let secant = self.convergence.secant_at(distance);
        self.loaded.diameter(self.loaded.linear_density(secant))
    }

    /// How far from the guide threads meet at a place within it; its ends are known.
    fn distance_at(&self, at: Length) -> Length {
        if at <= self.piece.from {
            self.convergence.start()
        } else if at == self.piece.to {
            self.end
        } else {
            self.convergence.distance(at - self.piece.from)
        }
    }

    /// The bare braid at a place within it.
    fn braid_at(&self, at: Length) -> Braid {
        if self.convergence.is_steady() {
            self.steady
        } else {
            self.loaded.braid(1.0 / self.secant_at(at))
        }
    }
}

impl BraidedLine {
    /// The stretches, tip first.
    pub fn stretches(&self) -> &[Stretch] {
        &self.stretches
    }

    /// Whole length.
    pub fn length(&self) -> Length {
        self.stretches[self.stretches.len() - 1].piece.to
    }

    /// The stretch at a distance from the tip; where two meet, the later one.
    pub fn stretch_at(&self, at: Length) -> &Stretch {
        let index = self
            .stretches
            .partition_point(|stretch| stretch.piece.to <= at);
        &self.stretches[index.min(self.stretches.len() - 1)]
    }

    /// The line at a distance from the tip; held at its ends beyond them.
    pub fn station(&self, at: Length) -> Station {
        let stretch = self.stretch_at(at);
        self.station_in(stretch, at)
    }

    /// The line just before a place: where two stretches meet, the end of the earlier one.
    pub fn station_before(&self, at: Length) -> Station {
        self.station_in(self.stretch_before(at), at)
    }

    /// The bare braid just before a place.
    pub(crate) fn braid_before(&self, at: Length) -> Braid {
        let stretch = self.stretch_before(at);
        stretch.braid_at(at.max(stretch.piece.from).min(stretch.piece.to))
    }

    fn stretch_before(&self, at: Length) -> &Stretch {
        let index = self
            .stretches
            .partition_point(|stretch| stretch.piece.to < at);
        &self.stretches[index.min(self.stretches.len() - 1)]
    }

    /// The line at a place within a stretch, its own end included.
    pub fn station_in(&self, stretch: &Stretch, at: Length) -> Station {
        let braid = stretch.braid_at(at.max(stretch.piece.from).min(stretch.piece.to));
        Station {
            piece: stretch.piece,
            braid,
            dressed: self.process.dress(&braid),
        }
    }

    /// Mass between two places before dressing.
    pub fn bare_mass(&self, from: Length, to: Length) -> Mass {
        self.to(to).bare - self.to(from).bare
    }

    /// Mass from the tip to a place before dressing.
    pub(crate) fn bare_mass_to(&self, at: Length) -> Mass {
        self.to(at).bare
    }

    /// Mass between two places, dressed.
    pub fn mass(&self, from: Length, to: Length) -> Mass {
        self.mass_with(&self.process.dressing, Density::ZERO, from, to)
    }

    /// Mass between two places with another dressing, and so much liquid in every volume of voids.
    pub fn mass_with(&self, dressing: &Dressing, wet: Density, from: Length, to: Length) -> Mass {
        self.part(from, to).mass_with(dressing, wet)
    }

    /// What lies between two places, to be dressed in any way.
    pub fn part(&self, from: Length, to: Length) -> Part {
        let length = to.min(self.length()) - from.max(Length::ZERO);
        let (end, begin) = (self.to(to), self.to(from));
        let bare = end.bare - begin.bare;
        Part {
            length,
            bare,
            voids: self.voids_of(bare),
            breadth: end.breadth - begin.breadth,
        }
    }

    /// The voids in the bare braid between two places.
    pub fn voids(&self, from: Length, to: Length) -> Volume {
        self.voids_of(self.bare_mass(from, to))
    }

    fn voids_of(&self, bare: Mass) -> Volume {
        let Braiding {
            thread,
            fibre_fraction,
            ..
        } = self.process.braiding;
        bare / thread.fibre_density * ((1.0 - fibre_fraction) / fibre_fraction)
    }

    /// Length of a thread engaged between two places.
    pub fn thread(&self, from: Length, to: Length) -> Length {
        self.to(to).thread - self.to(from).thread
    }

    /// How lines of this yarn are made.
    pub fn process(&self) -> &Process {
        &self.process
    }

    /// Where a thread engaged from `from` on has given so much of its length; `None` if the line ends before.
    pub fn place_after_thread(&self, from: Length, thread: Length) -> Option<Length> {
        let given = self.to(from).thread + thread;
        if given > self.whole.thread {
            return None;
        }
        let after = self
            .stretches
            .partition_point(|stretch| stretch.before.thread <= given);
        let stretch = &self.stretches[after.saturating_sub(1)];
        // The take-up hardly varies within a stretch; a place to some millimetres is all a maker needs.
        let share = (given - stretch.before.thread) / stretch.steady.take_up;
        Some((stretch.piece.from + share).min(stretch.piece.to))
    }

    /// Carrier circuits turned between two places: what the take-off drew over what it draws in one circuit.
    pub fn circuits(&self, from: Length, to: Length) -> f64 {
        let first = self
            .stretches
            .partition_point(|stretch| stretch.piece.to <= from);
        let part = |stretch: &Stretch| {
            let (from, to) = (stretch.piece.from.max(from), stretch.piece.to.min(to));
            let drawn = (to - from) + (stretch.distance_at(to) - stretch.distance_at(from));
            drawn / stretch.piece.lay
        };
        let within = self.stretches[first..]
            .iter()
            .take_while(|stretch| stretch.piece.from < to);
        within.map(part).sum()
    }

    /// Everything from the tip to a place.
    fn to(&self, at: Length) -> Sums {
        let stretch = self.stretch_at(at);
        let part = (at - stretch.piece.from)
            .max(Length::ZERO)
            .min(stretch.length());
        if part == Length::ZERO {
            return stretch.before;
        }
        if at >= self.length() {
            // The end of the line: no sum of parts could come nearer.
            return self.whole;
        }
        let left = stretch.convergence.left(part);
        stretch.before.and(stretch.sums(part, left))
    }
}
