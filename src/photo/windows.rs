//! The braid piece by piece along the line: what differs, and how sure the whole is.

use core::f64::consts::TAU;
use core::ops::Range;

use libm::{atan, sin, sqrt};

use super::count::Counted;
use super::edges::EdgePair;
use super::found::Found;
use super::likeness::{self, Stretch};
use super::reading::{Estimate, PhotoWindow, WindowDoubt};
use super::spacing;
use super::waves::{self, Round};

/// Length of a piece, in diameters, and in spacings.
const LENGTH: [f64; 2] = [0.7, 2.4];
/// How far round the line pieces are compared to each side, radians.
const SIDE: f64 = 0.8;
/// Most pieces.
const MOST: usize = 24;
/// Least error of the spacing, as a share. Our own choice: samples, and a camera that is not quite square to the line.
const LEAST_ERROR: f64 = 0.004;
/// A piece differs when it is so many deviations off the middle …
const DEVIATIONS: f64 = 4.0;
/// … and by at least so much: its angle in radians …
const DIFFERS: f64 = 0.05;
/// … or its diameter, as a share. Both our own choice.
const SWOLLEN: f64 = 0.06;
/// A piece is unclear when it is so much less like the others than usual, from 0 to 1 …
const UNLIKE: f64 = 0.08;
/// … or one spacing on less alike than this share of what is usual. Both our own choice.
const UNCLEAR: f64 = 0.5;

/// All pieces, and what they say of the whole.
pub(super) struct Windows {
    /// Each piece.
    pub(super) all: Vec<PhotoWindow>,
    /// Error of the spacing over the whole line, as a share.
    pub(super) spacing_error: f64,
    /// How much steeper one family is than the other, halved, radians.
    pub(super) skew: Estimate,
}

/// One piece as it was measured.
struct Piece {
    along: f64,
    rows: Range<usize>,
    /// Its diameter over that of the straight edges.
    swelling: f64,
    /// Spacing in samples, and how alike the piece is one spacing on.
    spacing: Option<(f64, f64)>,
    /// How like the others it is, 0 to 1.
    like: f64,
}

/// The pieces of a braid.
pub(super) fn of(found: &Found, counted: &Counted, round: &Round) -> Windows {
    let pieces = pieces(found);
    let usual = Usual::of(&pieces);
    let (skew, skew_error) = skew(found, round);
    let all = pieces
        .iter()
        .map(|piece| usual.window(piece, found, counted, skew))
        .collect();
    Windows {
        all,
        spacing_error: usual.spacing_error,
        skew: Estimate {
            value: skew,
            error: skew_error,
        },
    }
}

/// What most pieces have: a middle and a deviation each.
struct Usual {
    /// How alike a piece is one spacing on.
    alike: f64,
    /// How like the others it is.
    like: (f64, f64),
    /// Spacing in samples, of the clear pieces.
    spacing: (f64, f64),
    /// Error of the mean spacing, as a share.
    spacing_error: f64,
    /// Diameter over that of the straight edges.
    swelling: (f64, f64),
}

impl Usual {
    fn of(pieces: &[Piece]) -> Self {
        let alikes = pieces.iter().filter_map(|piece| piece.spacing);
        let mut usual = Self {
            alike: spread(&alikes.map(|(_, alike)| alike).collect::<Vec<f64>>()).0,
            like: spread(&pieces.iter().map(|piece| piece.like).collect::<Vec<f64>>()),
            spacing: (0.0, 0.0),
            spacing_error: LEAST_ERROR,
            swelling: spread(
                &pieces
                    .iter()
                    .map(|piece| piece.swelling)
                    .collect::<Vec<f64>>(),
            ),
        };
        let clear = pieces.iter().filter_map(|piece| usual.clear(piece));
        let spacings: Vec<f64> = clear.collect();
        usual.spacing = spread(&spacings);
        usual.spacing_error = resampled(&spacings).max(LEAST_ERROR);
        usual
    }

    /// The spacing of a piece whose threads are clear.
    fn clear(&self, piece: &Piece) -> Option<f64> {
        let off = self.like.0 - piece.like;
        let is_like = off < UNLIKE || off < DEVIATIONS * self.like.1;
        let (samples, alike) = piece.spacing?;
        (is_like && alike >= UNCLEAR * self.alike).then_some(samples)
    }

    fn window(&self, piece: &Piece, found: &Found, counted: &Counted, skew: f64) -> PhotoWindow {
        let angle = |samples: f64| {
            let radius = found.axis.radius_at(piece.along) / found.surface.step;
            atan(2.0 * TAU * radius / (f64::from(counted.threads) * samples))
        };
        // dα = ½ sin 2α · d(tan α)/tan α.
        let scatter = (self.spacing.1 / self.spacing.0.max(1e-9)).max(2.0 * LEAST_ERROR);
        let clear = self.clear(piece).map(|samples| {
            let value = angle(samples);
            Estimate {
                value,
                error: (0.5 * sin(2.0 * value)).abs() * scatter,
            }
        });
        let axis = found.axis.direction;
        PhotoWindow {
            middle: found.axis.at(piece.along, 0.0),
            length: piece.rows.len() as f64 * found.surface.step,
            diameter: piece.swelling * 2.0 * found.axis.radius_at(piece.along),
            angle: clear,
            directions: clear.map(|it| [axis + it.value + skew, axis - it.value + skew]),
            doubt: self.doubt(piece, clear, angle(self.spacing.0.max(1e-9))),
        }
    }

    fn doubt(&self, piece: &Piece, angle: Option<Estimate>, usual: f64) -> Option<WindowDoubt> {
        let Some(angle) = angle else {
            return Some(WindowDoubt::Unclear);
        };
        let swelling = piece.swelling - self.swelling.0;
        let off = (angle.value - usual).abs();
        if swelling.abs() > SWOLLEN && swelling.abs() > DEVIATIONS * self.swelling.1 {
            Some(if swelling > 0.0 {
                WindowDoubt::Thicker
            } else {
                WindowDoubt::Thinner
            })
        } else {
            (off > DIFFERS && off > DEVIATIONS * angle.error).then_some(WindowDoubt::Angle)
        }
    }
}

fn pieces(found: &Found) -> Vec<Piece> {
    let surface = &found.surface;
    let rows = surface.relief.height;
    let length = (LENGTH[0] * 2.0 * surface.radius).max(LENGTH[1] * found.spacing.samples);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 1 and 24"
    )]
    let count = (rows as f64 / length).round().clamp(1.0, MOST as f64) as usize;
    let mut pieces: Vec<Piece> = (0..count)
        .map(|index| piece(found, rows * index / count..rows * (index + 1) / count))
        .collect();
    let stretches: Vec<Stretch> = pieces
        .iter()
        .map(|piece| Stretch {
            rows: piece.rows.clone(),
            spacing: piece
                .spacing
                .map_or(found.spacing.samples, |(samples, _)| samples),
        })
        .collect();
    let likes = likeness::of(&surface.relief, &surface.columns(SIDE), &stretches);
    for (piece, like) in pieces.iter_mut().zip(likes) {
        piece.like = like;
    }
    pieces
}

fn piece(found: &Found, rows: Range<usize>) -> Piece {
    let surface = &found.surface;
    let along = (0.5 * (rows.start + rows.end) as f64).mul_add(surface.step, surface.start);
    let reach = 0.5 * rows.len() as f64 * surface.step;
    let near = |pair: &&EdgePair| (pair.along - along).abs() <= reach;
    let inside: Vec<f64> = found
        .pairs
        .iter()
        .filter(near)
        .map(|pair| pair.diameter() / (2.0 * found.axis.radius_at(pair.along)))
        .collect();
    let columns = surface.columns(0.5);
    Piece {
        along,
        swelling: if inside.is_empty() {
            1.0
        } else {
            inside.iter().sum::<f64>() / inside.len() as f64
        },
        spacing: spacing::near(&surface.relief, &columns, &rows, found.spacing.samples),
        like: 1.0,
        rows,
    }
}

/// How far one family lies steeper than the other, halved, with its error from piece to piece, radians.
fn skew(found: &Found, round: &Round) -> (f64, f64) {
    let shifts = waves::shifts(&found.surface, found.spacing.samples, round.turns);
    let (middle, _) = spread(&shifts);
    let of = |shift: f64| {
        let [one, two] = [round.turns + shift, round.turns - shift]
            .map(|turns| atan(found.steepness(turns.max(0.5))));
        0.5 * (one - two)
    };
    let values: Vec<f64> = shifts.iter().map(|shift| of(*shift)).collect();
    let (_, deviation) = spread(&values);
    (of(middle), deviation / sqrt(values.len().max(1) as f64))
}

fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or_default()
}

/// Median, and deviation by the median of what is off it.
fn spread(values: &[f64]) -> (f64, f64) {
    let middle = median(values.iter().copied());
    let off = median(values.iter().map(|value| (value - middle).abs()));
    (middle, 1.4826 * off)
}

/// Error of the mean as a share, by leaving out each value in turn (jackknife: Tukey 1958, Ann. Math. Statist. 29, 614).
fn resampled(values: &[f64]) -> f64 {
    let count = values.len() as f64;
    if values.len() < 3 {
        return 0.01;
    }
    let sum: f64 = values.iter().sum();
    let mean = sum / count;
    let squares: f64 = values
        .iter()
        .map(|value| {
            let without = (sum - value) / (count - 1.0);
            (without - mean) * (without - mean)
        })
        .sum();
    sqrt((count - 1.0) / count * squares) / mean
}
