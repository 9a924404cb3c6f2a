//! What makers draw: level pieces, and lines that are the same from both ends.

use crate::base::segments::{Bounds, Broken, Criterion, Refined, Sums, Ties, polish, refine};

/// Pieces whose ends differ by more scatters than this are not tried.
const STEEP: f64 = 12.0;

/// A line with what is tied in it.
#[derive(Clone, Debug)]
pub(super) struct Shaped {
    pub(super) line: Broken,
    pub(super) ties: Ties,
    pub(super) is_level: Vec<bool>,
    pub(super) is_mirrored: bool,
    pub(super) squares: f64,
    pub(super) cost: f64,
}

/// Lines of more knots are not tried mirrored: no maker draws such a double taper.
const MOST_MIRRORED: usize = 16;

/// Numbers, and what lines through them are judged by.
#[derive(Clone, Copy)]
pub(super) struct Shaper<'a> {
    pub(super) sums: &'a Sums,
    pub(super) bounds: &'a Bounds,
    pub(super) criterion: &'a Criterion,
}

impl Shaper<'_> {
    /// The line with level pieces and mirrored ends wherever that costs less.
    pub(super) fn shaped(&self, found: &Refined) -> Shaped {
        let free = self.levelled(&found.line, false);
        let mirrored = self.mirrored(&found.line).into_iter();
        let mirrored = mirrored.map(|line| self.levelled(&line, true));
        let best = mirrored.fold(
            free,
            |best, next| {
                if next.cost < best.cost { next } else { best }
            },
        );
        let Refined { line, squares } = polish(self.sums, best.line, &best.ties, self.bounds);
        Shaped {
            cost: self.criterion.cost(squares, best.ties.count()),
            line,
            squares,
            ..best
        }
    }

    /// Mirrored lines to try: both halves put together where they have as many knots, and each half with its own image. A line of
    /// two knots has no shape that could be mirrored.
    fn mirrored(&self, line: &Broken) -> Vec<Broken> {
        let Bounds {
            first, last, gap, ..
        } = *self.bounds;
        let count = line.places.len();
        if !(3..=MOST_MIRRORED).contains(&count) {
            return Vec::new();
        }
        let image = |place: f64| first + last - place;
        let middle = f64::midpoint(first, last);
        let in_half = |place: &f64| *place > first && *place <= middle - 0.5 * gap;
        let front: Vec<f64> = line.places.iter().copied().filter(in_half).collect();
        let rear = line.places.iter().rev().map(|&place| image(place));
        let rear: Vec<f64> = rear.filter(in_half).collect();
        let mut halves = vec![front.clone(), rear.clone()];
        if front.len() == rear.len() {
            let both = front.iter().zip(&rear);
            halves.insert(
                0,
                both.map(|(&one, &other)| f64::midpoint(one, other))
                    .collect(),
            );
        }
        let has_middle = count % 2 == 1;
        let whole = |half: Vec<f64>, has_middle: bool| {
            let mut places = vec![first];
            places.extend(&half);
            places.extend(has_middle.then_some(middle));
            places.extend(half.iter().rev().map(|&place| image(place)));
            places.push(last);
            let line = Broken::along(self.sums, places, self.bounds);
            (line.places.len() > 2).then_some(line)
        };
        let plain = halves.iter().filter_map(|half| whole(half.clone(), false));
        let mut lines: Vec<Broken> = plain.collect();
        if has_middle {
            lines.extend(halves.iter().filter_map(|half| whole(half.clone(), true)));
        }
        lines
    }

    /// The line with level pieces wherever that costs less.
    fn levelled(&self, line: &Broken, is_mirrored: bool) -> Shaped {
        let pieces = line.places.len() - 1;
        let mut best = self.tied(line, vec![false; pieces], is_mirrored);
        let scatter = self
            .criterion
            .variance(best.squares, best.ties.count())
            .sqrt();
        let other = |piece: usize| pieces - 1 - piece;
        let tied_at = |mut is_level: Vec<bool>, piece: usize| {
            is_level[piece] = true;
            is_level[other(piece)] |= is_mirrored;
            is_level
        };
        let is_flat = |piece: &usize| {
            let (from, to) = (best.line.values[*piece], best.line.values[piece + 1]);
            (from - to).abs() <= STEEP * scatter && !(is_mirrored && other(*piece) < *piece)
        };
        let flat = (0..pieces).filter(is_flat);
        let tries = flat.map(|piece| (piece, tied_at(vec![false; pieces], piece)));
        let tries =
            tries.map(|(piece, is_level)| (self.tied(line, is_level, is_mirrored).cost, piece));
        let mut tries: Vec<(f64, usize)> = tries.collect();
        tries.sort_by(|one, other| one.0.total_cmp(&other.0));
        for (_, piece) in tries {
            let is_level = tied_at(best.is_level.clone(), piece);
            // Two level pieces beside each other would be one.
            if is_level.windows(2).any(|pair| pair[0] && pair[1]) {
                continue;
            }
            let next = self.tied(&best.line, is_level, is_mirrored);
            if next.cost < best.cost {
                best = next;
            }
        }
        best
    }

    /// The line fitted with these ties.
    fn tied(&self, line: &Broken, is_level: Vec<bool>, is_mirrored: bool) -> Shaped {
        let ties = Ties::of(&is_level, is_mirrored);
        let start = ties.evened(line);
        let Refined { line, squares } = refine(self.sums, start, &ties, self.bounds);
        Shaped {
            cost: self.criterion.cost(squares, ties.count()),
            line,
            ties,
            is_level,
            is_mirrored,
            squares,
        }
    }
}
