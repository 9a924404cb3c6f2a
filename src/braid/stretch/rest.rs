//! What pieces settle at, and how lines are made of them.

use super::sums::{Rates, Sums};
use super::{BraidedLine, Making, Piece, Stretch};
use crate::base::units::{Angle, Length};
use crate::braid::convergence::Convergence;
use crate::braid::geometry::{Braid, Loaded};

/// What a piece settles at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rest {
    /// Its load.
    loaded: Loaded,
    /// The bare braid.
    pub(crate) braid: Braid,
    /// At rest from the beginning.
    pub(crate) way: Convergence,
}

/// What pieces of one line, made in one way, settle at. A plan lays out and braids the same levels with the same
/// wheels again and again: each is solved once.
#[derive(Clone, Debug, Default)]
pub(crate) struct Rests {
    /// For every level the lays, the buried yarn, and what came of them.
    by_level: Vec<Vec<(Length, f64, Rest)>>,
}

impl Rests {
    /// What a piece settles at, solved now or before.
    pub(crate) fn of(&mut self, making: &Making, piece: &Piece) -> &Rest {
        if self.by_level.len() <= piece.level {
            self.by_level.resize_with(piece.level + 1, Vec::new);
        }
        let solved = &mut self.by_level[piece.level];
        let is_same = |(lay, buried, _): &&(Length, f64, Rest)| {
            *lay == piece.lay && *buried == piece.load.buried
        };
        let at = solved.iter().position(|one| is_same(&one));
        let at = at.unwrap_or_else(|| {
            let rest = making.rest(piece, making.target.radians().cos());
            solved.push((piece.lay, piece.load.buried, rest));
            solved.len() - 1
        });
        &solved[at].2
    }
}

impl Making {
    /// The line of these pieces, which follow each other without gap; at least one. It begins at rest.
    pub fn braid(&self, pieces: &[Piece]) -> BraidedLine {
        let guess = self.target.radians().cos();
        self.braid_by(pieces, |piece| self.rest(piece, guess))
    }

    /// The same, of pieces some of which were solved before.
    pub(crate) fn braid_with(&self, pieces: &[Piece], rests: &mut Rests) -> BraidedLine {
        self.braid_by(pieces, |piece| *rests.of(self, piece))
    }

    fn braid_by(&self, pieces: &[Piece], mut rest: impl FnMut(&Piece) -> Rest) -> BraidedLine {
        let mut whole = Sums::default();
        let mut start = None;
        let braid = |piece: &Piece| {
            let stretch = Stretch::of(piece, &rest(piece), start, &mut whole);
            start = Some(stretch.end);
            stretch
        };
        BraidedLine {
            making: *self,
            stretches: pieces.iter().map(braid).collect(),
            whole,
        }
    }

    /// Where threads meet at the end of some pieces that begin with the threads meeting at `start`.
    pub(crate) fn follow(
        &self,
        pieces: &[Piece],
        start: Option<Length>,
        rests: &mut Rests,
    ) -> Option<Length> {
        pieces.iter().fold(start, |start, piece| {
            let way = rests.of(self, piece).way.begun_at(start);
            Some(way.distance(piece.to - piece.from))
        })
    }

    /// The squared angle error gathered on such a way, in degrees² · metres; infinite where it reaches the most that is of
    /// interest before the end.
    pub(crate) fn error(
        &self,
        pieces: &[Piece],
        mut start: Option<Length>,
        most: f64,
        rests: &mut Rests,
    ) -> f64 {
        let squared = |angle: Angle| (angle - self.target).degrees().powi(2);
        let mut error = 0.0;
        for piece in pieces {
            let (rest, length) = (rests.of(self, piece), piece.to - piece.from);
            let way = rest.way.begun_at(start);
            let left = way.left(length);
            let at_rest = squared(rest.braid.angle);
            error += at_rest * length.metres();
            way.samples(length, left).for_each(|(distance, part)| {
                error += (squared(way.angle_at(distance)) - at_rest) * part.metres();
            });
            if error >= most {
                return f64::INFINITY;
            }
            start = Some(way.distance_with(left));
        }
        error
    }

    /// Newton's rule begins at this cosine.
    fn rest(&self, piece: &Piece, guess: f64) -> Rest {
        let loaded = self.braiding.loaded(piece.load);
        let cosine = loaded.cosine_at(piece.lay, guess);
        let braid = loaded.braid(cosine);
        Rest {
            way: Convergence::at_rest(&loaded, cosine, braid.path_diameter, self.guide),
            loaded,
            braid,
        }
    }
}

impl Stretch {
    /// `whole` is everything before it, and then everything to its end.
    fn of(piece: &Piece, rest: &Rest, start: Option<Length>, whole: &mut Sums) -> Self {
        let convergence = rest.way.begun_at(start);
        let length = piece.to - piece.from;
        let left = convergence.left(length);
        let stretch = Self {
            piece: *piece,
            loaded: rest.loaded,
            rest: rest.braid,
            end: convergence.distance_with(left),
            convergence,
            before: *whole,
        };
        *whole = whole.and(stretch.sums(length, left));
        stretch
    }

    /// What so much of it adds, from its beginning; behind it so much of the step is left.
    pub(super) fn sums(&self, length: Length, left: f64) -> Sums {
        let at_rest = Rates::of(&self.rest);
        let mut sums = at_rest.over(length);
        if !self.convergence.is_at_rest() {
            let samples = self.convergence.samples(length, left);
            sums = samples.fold(sums, |sums, (distance, part)| {
                let secant = self.convergence.secant_at(distance);
                let rates = Rates::at(&self.loaded, secant);
                sums.and(rates.less(&at_rest).over(part))
            });
        }
        sums
    }
}
