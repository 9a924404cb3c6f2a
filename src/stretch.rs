//! Stretches of constant threads and wheels, and the line they make.
//!
//! Within a stretch the braid comes to rest at the angle its wheels and threads ask for (see [`crate::convergence`]); mass,
//! diameter, cover and thread follow the real angle all the way.

mod sums;

use crate::braid::{Braid, Braiding, Load};
use crate::convergence::Convergence;
use crate::dressing::{Dressed, Dressing};
use crate::takeoff::Wheels;
use crate::units::{Angle, Density, Length, Mass, Volume};
use sums::{Rates, Sums};

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
    /// The bare braid the stretch comes to rest at.
    pub rest: Braid,
    /// How it comes there.
    pub convergence: Convergence,
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

/// How lines are made: what all stretches have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Making {
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
    making: Making,
    stretches: Vec<Stretch>,
    whole: Sums,
}

impl Making {
    /// The line of these pieces, which follow each other without gap; at least one. It begins at rest.
    pub fn braid(&self, pieces: &[Piece]) -> BraidedLine {
        let mut whole = Sums::default();
        let mut start = None;
        let braid = |piece: &Piece| {
            let stretch = self.stretch(piece, start, whole);
            let length = piece.to - piece.from;
            start = Some(stretch.convergence.distance(length));
            whole = whole.and(self.sums(&stretch, length));
            stretch
        };
        BraidedLine {
            making: *self,
            stretches: pieces.iter().map(braid).collect(),
            whole,
        }
    }

    /// Where threads meet at the end of some pieces that begin with the threads meeting at `start`, and the squared angle
    /// error gathered on the way, in degrees² · metres.
    pub fn try_out(&self, pieces: &[Piece], start: Option<Length>) -> (Option<Length>, f64) {
        let step = |(start, error): (Option<Length>, f64), piece: &Piece| {
            let stretch = self.stretch(piece, start, Sums::default());
            let length = piece.to - piece.from;
            let gathered = self.error(&stretch, length);
            (Some(stretch.convergence.distance(length)), error + gathered)
        };
        pieces.iter().fold((start, 0.0), step)
    }

    fn stretch(&self, piece: &Piece, start: Option<Length>, before: Sums) -> Stretch {
        let rest = self.braiding.at_lay(piece.load, piece.lay);
        let convergence = Convergence::new(&self.braiding, piece.load, &rest, self.guide, start);
        Stretch {
            piece: *piece,
            rest,
            convergence,
            before,
        }
    }

    fn dress(&self, braid: &Braid) -> Dressed {
        self.dressing.dress(braid, self.braiding.fibre_fraction)
    }

    fn error(&self, stretch: &Stretch, length: Length) -> f64 {
        let squared = |angle: Angle| (angle - self.target).degrees().powi(2);
        let rest = squared(stretch.rest.angle);
        let mut error = rest * length.metres();
        if !stretch.convergence.is_at_rest() {
            for (left, part) in stretch.convergence.samples(length) {
                let angle = stretch.convergence.angle_with(left);
                error += (squared(angle) - rest) * part.metres();
            }
        }
        error
    }

    /// What so much of a stretch adds, from its beginning.
    fn sums(&self, stretch: &Stretch, length: Length) -> Sums {
        let at_rest = Rates::of(self, &stretch.rest);
        let mut sums = at_rest.over(length);
        if !stretch.convergence.is_at_rest() {
            for (left, part) in stretch.convergence.samples(length) {
                let cosine = stretch.convergence.cosine_with(left);
                let braid = self.braiding.at_cosine(stretch.piece.load, cosine);
                sums = sums.and(Rates::of(self, &braid).less(&at_rest).over(part));
            }
        }
        sums
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
        let bound = |sign: f64| {
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
        self.convergence.angle(at - self.piece.from)
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
        let index = self
            .stretches
            .partition_point(|stretch| stretch.piece.to < at);
        let stretch = &self.stretches[index.min(self.stretches.len() - 1)];
        self.station_in(stretch, at)
    }

    /// The line at a place within a stretch, its own end included.
    pub fn station_in(&self, stretch: &Stretch, at: Length) -> Station {
        let at = at.max(stretch.piece.from).min(stretch.piece.to);
        let braid = self
            .making
            .braiding
            .at_angle(stretch.piece.load, stretch.angle_at(at));
        Station {
            piece: stretch.piece,
            braid,
            dressed: self.making.dress(&braid),
        }
    }

    /// Mass between two places before dressing.
    pub fn bare_mass(&self, from: Length, to: Length) -> Mass {
        self.to(to).bare - self.to(from).bare
    }

    /// Mass between two places, dressed.
    pub fn mass(&self, from: Length, to: Length) -> Mass {
        self.mass_with(&self.making.dressing, Density::ZERO, from, to)
    }

    /// Mass between two places with another dressing, and so much liquid in every volume of voids.
    pub fn mass_with(&self, dressing: &Dressing, wet: Density, from: Length, to: Length) -> Mass {
        let length = to.min(self.length()) - from.max(Length::ZERO);
        let (end, begin) = (self.to(to), self.to(from));
        let bare = end.bare - begin.bare;
        let in_voids = self.voids_of(bare) * (dressing.oil + dressing.varnish + wet);
        let film =
            dressing.film_volume(end.breadth - begin.breadth, length) * dressing.film_density;
        (bare + in_voids + film) * ((1.0 + dressing.grease) * dressing.weighed)
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
        } = self.making.braiding;
        bare / thread.fibre_density * ((1.0 - fibre_fraction) / fibre_fraction)
    }

    /// Length of a thread engaged between two places.
    pub fn thread(&self, from: Length, to: Length) -> Length {
        self.to(to).thread - self.to(from).thread
    }

    /// The parts of the line over which the angle is outside a tolerance; what touches is one part.
    pub fn outside(&self, target: Angle, tolerance: Angle) -> Vec<(Length, Length)> {
        let mut parts: Vec<(Length, Length)> = Vec::new();
        for part in self
            .stretches
            .iter()
            .flat_map(|stretch| stretch.outside(target, tolerance))
        {
            match parts.last_mut() {
                Some(last) if last.1 == part.0 => last.1 = part.1,
                _ => parts.push(part),
            }
        }
        parts
    }

    /// How lines of this yarn are made.
    pub fn making(&self) -> &Making {
        &self.making
    }

    /// Squared angle error over the whole line, in degrees² · metres.
    pub fn squared_error(&self) -> f64 {
        self.whole.error
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
        let share = (given - stretch.before.thread) / stretch.rest.take_up;
        Some((stretch.piece.from + share).min(stretch.piece.to))
    }

    /// Carrier circuits turned between two places: what the take-off drew over what it draws in one circuit.
    pub fn circuits(&self, from: Length, to: Length) -> f64 {
        let first = self
            .stretches
            .partition_point(|stretch| stretch.piece.to <= from);
        let part = |stretch: &Stretch| {
            let (from, to) = (stretch.piece.from.max(from), stretch.piece.to.min(to));
            let distance = |at| stretch.convergence.distance(at - stretch.piece.from);
            let drawn = (to - from) + (distance(to) - distance(from));
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
        stretch.before.and(self.making.sums(stretch, part))
    }
}
