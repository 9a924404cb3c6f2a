//! A continuous line of straight pieces.

use super::sums::{Moments, Sums};

/// A line of straight pieces that meet in knots: two at least, their places in order.
#[derive(Clone, Debug, PartialEq)]
pub struct Broken {
    /// Places of the knots.
    pub places: Vec<f64>,
    /// The line at each.
    pub values: Vec<f64>,
}

/// What a broken line may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Place of the first knot.
    pub first: f64,
    /// Place of the last.
    pub last: f64,
    /// Least distance between knots.
    pub gap: f64,
    /// Least value at a knot.
    pub low: f64,
    /// Largest value at a knot.
    pub high: f64,
}

/// What a knot without numbers near it adds to the diagonal, as a share of the largest: enough for a solution.
const HAIR: f64 = 1e-10;

/// A piece between two knots with its numbers. `hat` is the share of a knot in the line at a number's place.
pub(super) struct Piece {
    /// Weighted sums of products of hats: of the knot before with itself, of both, of the knot after with itself.
    pub(super) before: f64,
    pub(super) both: f64,
    pub(super) after: f64,
    /// Weighted sums of the hats with what is left of the numbers.
    pub(super) pull_before: f64,
    pub(super) pull_after: f64,
    /// Weighted squares of what is left.
    pub(super) squares: f64,
    /// Rise over a unit of place.
    pub(super) slope: f64,
}

impl Broken {
    /// The line at a place, with its end pieces going on beyond its ends.
    pub fn value_at(&self, place: f64) -> f64 {
        let last = self.places.len() - 1;
        let after = self
            .places
            .partition_point(|&at| at <= place)
            .clamp(1, last);
        let (a, b) = (self.places[after - 1], self.places[after]);
        let (from, to) = (self.values[after - 1], self.values[after]);
        from + (to - from) * ((place - a) / (b - a))
    }

    /// Each piece with its numbers.
    pub(super) fn pieces<'a>(&'a self, sums: &'a Sums) -> impl Iterator<Item = Piece> + 'a {
        let ends = number_ends(sums, &self.places);
        let (at, value) = sums.centre();
        (1..self.places.len()).map(move |knot| {
            let moments = sums.moments(ends[knot - 1], ends[knot]);
            let (from, to) = (self.values[knot - 1], self.values[knot]);
            let width = self.places[knot] - self.places[knot - 1];
            let slope = (to - from) / width;
            let sums = moments.from(self.places[knot - 1] - at, from - value);
            let (before, both, after) = hats(&sums, width);
            let pull_after = (sums.xy - slope * sums.xx) / width;
            Piece {
                before,
                both,
                after,
                pull_before: sums.y - slope * sums.x - pull_after,
                pull_after,
                squares: (sums.yy - slope * (2.0 * sums.xy - slope * sums.xx)).max(0.0),
                slope,
            }
        })
    }

    /// Weighted squares that the line leaves.
    pub fn squares(&self, sums: &Sums) -> f64 {
        self.pieces(sums).map(|piece| piece.squares).sum()
    }

    /// The line of least squares with knots at these places, without those out of bounds or too close to others.
    pub fn along(sums: &Sums, places: impl IntoIterator<Item = f64>, bounds: &Bounds) -> Self {
        Self::through(sums, bounds.thinned(places), bounds).0
    }

    /// The line with knots at these places that leaves the least squares, within the bounds; and these squares. Its values follow
    /// from normal equations in which only neighbours meet.
    pub(super) fn through(sums: &Sums, places: Vec<f64>, bounds: &Bounds) -> (Self, f64) {
        let knots = places.len();
        let ends = number_ends(sums, &places);
        let (at, value) = sums.centre();
        let mut diagonal = vec![0.0; knots];
        let mut beside = vec![0.0; knots];
        let mut right = vec![0.0; knots];
        for knot in 1..knots {
            let width = places[knot] - places[knot - 1];
            let moments = sums.moments(ends[knot - 1], ends[knot]);
            let moments = moments.from(places[knot - 1] - at, 0.0);
            let (before, both, after) = hats(&moments, width);
            diagonal[knot - 1] += before;
            diagonal[knot] += after;
            beside[knot - 1] = both;
            let share = moments.xy / width;
            right[knot - 1] += moments.y - share;
            right[knot] += share;
        }
        let hair = HAIR * diagonal.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
        for one in &mut diagonal {
            *one += hair;
        }
        for knot in 1..knots {
            let share = beside[knot - 1] / diagonal[knot - 1];
            diagonal[knot] = (diagonal[knot] - share * beside[knot - 1]).max(hair);
            right[knot] -= share * right[knot - 1];
        }
        let mut values = vec![0.0; knots];
        let mut after = 0.0;
        for knot in (0..knots).rev() {
            after = (right[knot] - beside[knot] * after) / diagonal[knot];
            values[knot] = (after + value).clamp(bounds.low, bounds.high);
        }
        let broken = Self { places, values };
        let squares = broken.squares(sums);
        (broken, squares)
    }
}

impl Bounds {
    /// Whether places of knots are in order and far enough apart.
    pub(super) fn admit(&self, places: &[f64]) -> bool {
        // The last digits of a place may be lost.
        let gap = self.gap * (1.0 - 1e-9);
        places.windows(2).all(|pair| pair[1] - pair[0] >= gap)
    }

    /// These places with the ends, without those too close to others.
    pub(super) fn thinned(&self, places: impl IntoIterator<Item = f64>) -> Vec<f64> {
        let mut thinned = vec![self.first];
        for place in places {
            let before = thinned[thinned.len() - 1];
            let gap = self.gap;
            if place - before >= gap && self.last - place >= gap {
                thinned.push(place);
            }
        }
        thinned.push(self.last);
        thinned
    }
}

/// How many numbers come before each knot; all of them before the last, none before the first.
fn number_ends(sums: &Sums, places: &[f64]) -> Vec<usize> {
    let last = places.len() - 1;
    let end = |knot: usize| match knot {
        0 => 0,
        _ if knot == last => sums.count(),
        _ => sums.before(places[knot]),
    };
    (0..=last).map(end).collect()
}

/// Sums of products of the hats of a piece, from moments with places from its first knot.
fn hats(moments: &Moments, width: f64) -> (f64, f64, f64) {
    let (share, after) = (moments.x / width, moments.xx / (width * width));
    (
        (moments.w - 2.0 * share + after).max(0.0),
        share - after,
        after,
    )
}
