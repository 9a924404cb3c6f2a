//! What pieces settle at, and how lines are made of them.

use super::sums::{Rates, Sums};
use super::{BraidedLine, Piece, Process, Stretch};
use crate::base::units::{Angle, Length};
use crate::braid::convergence::Convergence;
use crate::braid::geometry::{Braid, Loaded};

/// What a piece settles at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SteadyState {
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
pub(crate) struct SteadyStates {
    /// For every level the lays, the buried yarn, and what came of them.
    by_level: Vec<Vec<(Length, f64, SteadyState)>>,
}

impl SteadyStates {
    /// What a piece settles at, solved now or before.
    pub(crate) fn of(&mut self, process: &Process, piece: &Piece) -> &SteadyState {
        if self.by_level.len() <= piece.level {
            self.by_level.resize_with(piece.level + 1, Vec::new);
        }
        let solved = &mut self.by_level[piece.level];
        let is_same = |(lay, buried, _): &&(Length, f64, SteadyState)| {
            *lay == piece.lay && *buried == piece.load.buried
        };
        let at = solved.iter().position(|one| is_same(&one));
        let at = at.unwrap_or_else(|| {
            let steady = process.steady_state(piece, process.target.radians().cos());
            solved.push((piece.lay, piece.load.buried, steady));
            solved.len() - 1
        });
        &solved[at].2
    }
}

impl Process {
    /// The line of these pieces, which follow each other without gap; at least one. It begins steady.
    pub fn braid(&self, pieces: &[Piece]) -> BraidedLine {
        let guess = self.target.radians().cos();
        self.braid_by(pieces, |piece| self.steady_state(piece, guess))
    }

    /// The same, of pieces some of which were solved before.
    pub(crate) fn braid_with(
        &self,
        pieces: &[Piece],
        steady_states: &mut SteadyStates,
    ) -> BraidedLine {
        self.braid_by(pieces, |piece| *steady_states.of(self, piece))
    }

    fn braid_by(
        &self,
        pieces: &[Piece],
        mut steady: impl FnMut(&Piece) -> SteadyState,
    ) -> BraidedLine {
        let mut whole = Sums::default();
        let mut start = None;
        let braid = |piece: &Piece| {
            let stretch = Stretch::of(piece, &steady(piece), start, &mut whole);
            start = Some(stretch.end);
            stretch
        };
        BraidedLine {
            process: *self,
            stretches: pieces.iter().map(braid).collect(),
            whole,
        }
    }

    /// Where threads meet at the end of some pieces that begin with the threads meeting at `start`.
    pub(crate) fn follow(
        &self,
        pieces: &[Piece],
        start: Option<Length>,
        steady_states: &mut SteadyStates,
    ) -> Option<Length> {
        pieces.iter().fold(start, |start, piece| {
            let way = steady_states.of(self, piece).way.begun_at(start);
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
        steady_states: &mut SteadyStates,
    ) -> f64 {
        let squared = |angle: Angle| (angle - self.target).degrees().powi(2);
        let mut error = 0.0;
        for piece in pieces {
            let (steady, length) = (steady_states.of(self, piece), piece.to - piece.from);
            let way = steady.way.begun_at(start);
            let left = way.left(length);
            let at_steady_state = squared(steady.braid.angle);
            error += at_steady_state * length.metres();
            way.samples(length, left).for_each(|(distance, part)| {
                error += (squared(way.angle_at(distance)) - at_steady_state) * part.metres();
            });
            if error >= most {
                return f64::INFINITY;
            }
            start = Some(way.distance_with(left));
        }
        error
    }

    /// Newton's rule begins at this cosine.
    fn steady_state(&self, piece: &Piece, guess: f64) -> SteadyState {
        let loaded = self.braiding.loaded(piece.load);
        let cosine = loaded.cosine_at(piece.lay, guess);
        let braid = loaded.braid(cosine);
        SteadyState {
            way: Convergence::at_steady_state(&loaded, cosine, braid.path_diameter, self.guide),
            loaded,
            braid,
        }
    }
}

impl Stretch {
    /// `whole` is everything before it, and then everything to its end.
    fn of(piece: &Piece, steady: &SteadyState, start: Option<Length>, whole: &mut Sums) -> Self {
        let convergence = steady.way.begun_at(start);
        let length = piece.to - piece.from;
        let left = convergence.left(length);
        let stretch = Self {
            piece: *piece,
            loaded: steady.loaded,
            steady: steady.braid,
            end: convergence.distance_with(left),
            convergence,
            before: *whole,
        };
        *whole = whole.and(stretch.sums(length, left));
        stretch
    }

    /// What so much of it adds, from its beginning; after it so much of the step is left.
    pub(super) fn sums(&self, length: Length, left: f64) -> Sums {
        let at_steady_state = Rates::of(&self.steady);
        let mut sums = at_steady_state.over(length);
        if !self.convergence.is_steady() {
            let samples = self.convergence.samples(length, left);
            sums = samples.fold(sums, |sums, (distance, part)| {
                let secant = self.convergence.secant_at(distance);
                let rates = Rates::at(&self.loaded, secant);
                sums.and(rates.less(&at_steady_state).over(part))
            });
        }
        sums
    }
}
