//! The edges of the braid, found exactly, piece by piece along the line.
//!
//! At first by texture: from outside, the edge is where brightness begins to change along the line. In a shadow beside the braid it does
//! not. Then by brightness, once the spacing of the threads is known: threads bulge, and the diameter is that over their
//! crowns, as jaws of a micrometer find it. So places that lie alike between crossings are taken together, and of these groups those
//! count that reach out farthest.

use libm::{exp, log};

use super::axis::Axis;
use super::grid::Grid;
use super::profile::{robust_line, slopes, split, vertex};
use super::pyramid::{Pyramid, scaled};

/// How far from the axis edges are looked for, in half widths.
const REACH: f64 = 1.6;
/// Samples across half a width.
const SAMPLES: f64 = 48.0;
/// Length of a piece, in half widths. Our own choice: some threads, so that their bulges give a mean.
const PIECE: f64 = 1.0;
/// How far from the edge found before the one by brightness may be, one deviation, in half widths, at each look. Our own choice.
const NEAR: [f64; 3] = [0.16, 0.09, 0.06];
/// Groups of places alike between crossings.
const GROUPS: usize = 8;
/// Of these, so many that reach out farthest are the crowns.
const CROWNS: usize = 2;
/// Smoothing across before slopes are taken, in half widths.
const SMOOTH: f64 = 0.02;
/// Weight of brightness beside that of texture, where the edge is looked for first. Our own choice.
const BRIGHT: f64 = 0.5;
/// Change of brightness from one sample to the next that counts as none. Our own choice.
const QUIET: f64 = 0.002;

/// Both edges at one place along the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct EdgePair {
    /// Pixels along the axis from its middle.
    pub(super) along: f64,
    /// Pixels across, of the left and of the right edge.
    pub(super) across: [f64; 2],
    /// How far the edges of each group of places lie out from their mean, pixels: both sides together.
    pub(super) bulges: [f64; GROUPS],
}

impl EdgePair {
    /// Pixels from edge to edge.
    pub(super) fn diameter(&self) -> f64 {
        self.across[1] - self.across[0]
    }
}

/// The axis with the edges of the texture. The axis is the one given where they stay unclear.
pub(super) fn by_texture(pyramid: &Pyramid, axis: Axis) -> Axis {
    let mut axis = axis;
    for _ in 0..2 {
        let look = Look::new(pyramid, &axis, PIECE * axis.radius);
        let pairs: Vec<EdgePair> = look
            .pieces()
            .map(|piece| look.texture_edges(piece))
            .collect();
        if let Some(better) = fitted(&axis, &pairs).and_then(|axis| axis.centred(pyramid.whole())) {
            axis = better;
        }
    }
    axis
}

/// The axis with the edges over the crowns of threads that are `spacing` pixels apart along the axis, and what each piece shows.
pub(super) fn by_crowns(pyramid: &Pyramid, axis: Axis, spacing: f64) -> (Axis, Vec<EdgePair>) {
    let mut axis = axis;
    let mut pairs = Vec::new();
    for near in NEAR {
        let look = Look::new(pyramid, &axis, (PIECE * axis.radius).max(2.0 * spacing));
        pairs = look
            .pieces()
            .map(|piece| look.crown_edges(piece, spacing, near))
            .collect();
        let Some(better) = fitted(&axis, &pairs).and_then(|axis| axis.centred(pyramid.whole()))
        else {
            break;
        };
        // The middle of the axis may have moved along it; across it moved by less than a pixel.
        let by = axis.along_of(better.middle);
        for pair in &mut pairs {
            pair.along -= by;
        }
        axis = better;
    }
    (axis, pairs)
}

/// How far the outline goes in and out with the threads, pixels: the mean of all pieces, so that what is left to chance falls away.
pub(super) fn bulging(pairs: &[EdgePair]) -> f64 {
    let means: [f64; GROUPS] = core::array::from_fn(|group| {
        let sum: f64 = pairs.iter().map(|pair| 0.5 * pair.bulges[group]).sum();
        sum / pairs.len().max(1) as f64
    });
    let mean_square = means.iter().map(|mean| mean * mean).sum::<f64>() / GROUPS as f64;
    libm::sqrt(mean_square)
}

/// The picture across a braid.
struct Look<'a> {
    grid: &'a Grid,
    scale: f64,
    axis: &'a Axis,
    /// Pixels from sample to sample.
    step: f64,
    /// Pixels along a piece.
    piece: f64,
}

impl<'a> Look<'a> {
    fn new(pyramid: &'a Pyramid, axis: &'a Axis, piece: f64) -> Self {
        let step = (axis.radius / SAMPLES).max(0.5);
        let (grid, scale) = pyramid.for_step(step);
        let count = count(axis.length() / piece.max(4.0));
        Self {
            grid,
            scale,
            axis,
            step,
            piece: axis.length() / f64::from(count),
        }
    }

    /// Where each piece begins.
    fn pieces(&self) -> impl Iterator<Item = f64> + use<> {
        let (start, piece) = (self.axis.ends[0], self.piece);
        (0..count(self.axis.length() / piece)).map(move |index| start + f64::from(index) * piece)
    }

    /// Brightness across the axis at a place along it.
    fn row(&self, along: f64) -> Vec<f64> {
        let reach = REACH * self.axis.radius;
        (0..=count(2.0 * reach / self.step))
            .map(|column| {
                let across = f64::from(column).mul_add(self.step, -reach);
                f64::from(
                    self.grid
                        .at(scaled(self.axis.at(along, across), self.scale)),
                )
            })
            .collect()
    }

    /// Rows of a piece, some pixels apart.
    fn rows(&self, start: f64) -> impl Iterator<Item = (f64, Vec<f64>)> + use<'_, 'a> {
        let rows = count(self.piece / self.step.max(1.0));
        (0..rows).map(move |row| {
            let along = start + (f64::from(row) + 0.5) / f64::from(rows) * self.piece;
            (along, self.row(along))
        })
    }

    /// Pixels across of a sample.
    fn across(&self, sample: f64) -> f64 {
        sample.mul_add(self.step, -REACH * self.axis.radius)
    }

    /// The sample at so many half widths across.
    fn sample(&self, half_widths: f64) -> usize {
        count_from_zero((half_widths + REACH) * self.axis.radius / self.step)
    }

    /// The edges by texture.
    fn texture_edges(&self, start: f64) -> EdgePair {
        let (mut sums, mut light): (Vec<f64>, Vec<f64>) = (Vec::new(), Vec::new());
        let mut rows = 0.0;
        let mut last: Option<Vec<f64>> = None;
        for (_, row) in self.rows(start) {
            sums.resize(row.len(), 0.0);
            light.resize(row.len(), 0.0);
            for (sum, value) in light.iter_mut().zip(&row) {
                *sum += value;
            }
            if let Some(last) = last {
                rows += 1.0;
                for ((sum, value), before) in sums.iter_mut().zip(&row).zip(last) {
                    *sum += (value - before).abs();
                }
            }
            last = Some(row);
        }
        let texture: Vec<f64> = sums
            .iter()
            .map(|sum| log(sum / f64::max(rows, 1.0) + QUIET))
            .collect();
        let [inner_left, inner_right] = [self.sample(-0.3), self.sample(0.3)];
        let both = |part: fn(&[f64], usize) -> &[f64], at: usize| {
            split(&[(part(&texture, at), 1.0), (part(&light, at), BRIGHT)])
        };
        let left = both(|profile, at| &profile[..at.min(profile.len())], inner_left);
        let right = both(|profile, at| &profile[at.min(profile.len())..], inner_right);
        let radius = self.axis.radius_at(start + 0.5 * self.piece);
        let edge = |place: Option<f64>, from: usize, usual: f64| {
            place.map_or(usual, |place| self.across(place + from as f64 - 0.5))
        };
        EdgePair {
            along: start + 0.5 * self.piece,
            across: [edge(left, 0, -radius), edge(right, inner_right, radius)],
            bulges: [0.0; GROUPS],
        }
    }

    /// The edges over the crowns.
    fn crown_edges(&self, start: f64, spacing: f64, near: f64) -> EdgePair {
        let mut groups: Vec<(f64, Vec<f64>)> = vec![(0.0, Vec::new()); GROUPS];
        for (along, row) in self.rows(start) {
            let group = count_from_zero((along / spacing).rem_euclid(1.0) * GROUPS as f64);
            let (rows, sums) = &mut groups[group % GROUPS];
            sums.resize(row.len(), 0.0);
            *rows += 1.0;
            for (sum, value) in sums.iter_mut().zip(row) {
                *sum += value;
            }
        }
        let radius = self.axis.radius_at(start + 0.5 * self.piece);
        let mut bulges = [0.0; GROUPS];
        let across = [-1.0, 1.0].map(|side| {
            let edges: Vec<Option<f64>> = groups
                .iter()
                .map(|(rows, sums)| {
                    (*rows > 0.0).then(|| side * self.sharpest(sums, (side, radius), near))
                })
                .collect();
            let mut known: Vec<f64> = edges.iter().copied().flatten().collect();
            known.sort_by(|one, two| two.total_cmp(one));
            let mean = known.iter().sum::<f64>() / known.len().max(1) as f64;
            for (bulge, edge) in bulges.iter_mut().zip(edges) {
                *bulge += edge.map_or(0.0, |edge| edge - mean);
            }
            let crowns = known.len().clamp(1, CROWNS);
            side * known.iter().take(crowns).sum::<f64>() / crowns as f64
        });
        EdgePair {
            along: start + 0.5 * self.piece,
            across,
            bulges,
        }
    }

    /// Where brightness changes most near the expected edge of a side.
    fn sharpest(&self, profile: &[f64], (side, radius): (f64, f64), near: f64) -> f64 {
        let slopes = slopes(profile, SMOOTH * radius / self.step);
        let weight = |index: usize| {
            let off = (self.across(index as f64) - side * radius) / (near * radius);
            slopes[index].abs() * exp(-0.5 * off * off)
        };
        let inside = 1..slopes.len().saturating_sub(1);
        let best = inside.max_by(|one, two| weight(*one).total_cmp(&weight(*two)));
        let Some(best) = best.filter(|best| weight(*best) > 0.0) else {
            return side * radius;
        };
        let three = [best - 1, best, best + 1].map(|index| slopes[index].abs());
        self.across(best as f64 + vertex(three))
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between 1 and some thousands"
)]
fn count(value: f64) -> u32 {
    value.round().clamp(1.0, 4000.0) as u32
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between 0 and some thousands"
)]
fn count_from_zero(value: f64) -> usize {
    value.clamp(0.0, 8000.0) as usize
}

/// The axis that the edges of all pieces give: a straight line through each, those far off left out.
fn fitted(axis: &Axis, pairs: &[EdgePair]) -> Option<Axis> {
    let lines = [0, 1].map(|side: usize| {
        let points: Vec<[f64; 2]> = pairs
            .iter()
            .map(|pair| [pair.along, pair.across[side]])
            .collect();
        robust_line(&points, 0.01 * axis.radius)
    });
    let [Some(left), Some(right)] = lines else {
        return None;
    };
    let (shift, slope) = (0.5 * (left[0] + right[0]), 0.5 * (left[1] + right[1]));
    let radius = 0.5 * (right[0] - left[0]);
    if radius < 0.4 * axis.radius || radius > 1.8 * axis.radius {
        return None;
    }
    Some(Axis {
        middle: axis.at(0.0, shift),
        direction: axis.direction + libm::atan(slope),
        ends: axis.ends,
        radius: radius / libm::hypot(1.0, slope),
        taper: 0.5 * (right[1] - left[1]),
    })
}
