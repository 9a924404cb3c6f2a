//! The surface of the braid laid flat: the picture sampled along the axis and round the braid.
//!
//! A place `φ` round a braid of radius `R` is seen at `x = R sin φ` across its axis, so that what lies beside the middle looks
//! narrower than it is. On the surface laid flat, across is `u = R φ`: the round shape is taken out before anything is measured.
//! Analytic, for a camera far away.

use libm::{sin, sqrt};

use super::axis::Axis;
use super::grid::Grid;
use super::pyramid::{Pyramid, scaled};

/// Samples across a diameter. Our own choice: a thread of thirty-two then has some ten.
const SAMPLES: f64 = 128.0;
/// How far round the braid samples are taken to each side, radians.
const REACH: f64 = 1.1;
/// Most rows.
const MOST_ROWS: f64 = 4000.0;

/// The surface laid flat: columns round the braid from left to right, rows along the axis, all `step` pixels apart.
#[derive(Clone, Debug)]
pub(super) struct Surface {
    /// Brightness, with light and shade of the whole braid taken out: mean 0, deviation 1.
    pub(super) relief: Grid,
    /// Pixels of the picture from one sample to the next.
    pub(super) step: f64,
    /// Half of the diameter in samples.
    pub(super) radius: f64,
    /// Where the first row is, pixels along the axis.
    pub(super) start: f64,
    /// Mean brightness of the braid, 0 to 1.
    pub(super) light: f64,
    /// Standard deviation of what the threads make of brightness.
    pub(super) contrast: f64,
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "all counts are held between one and some thousands"
)]
fn count(value: f64, most: f64) -> usize {
    value.round().clamp(1.0, most) as usize
}

impl Surface {
    /// Of a braid in a picture.
    pub(super) fn of(pyramid: &Pyramid, axis: &Axis) -> Self {
        let step = (2.0 * axis.radius / SAMPLES)
            .max(1.0)
            .max(axis.length() / MOST_ROWS);
        let (grid, scale) = pyramid.for_step(step);
        let half = count(REACH * axis.radius / step, SAMPLES);
        let rows = count(axis.length() / step, MOST_ROWS);
        let start = axis.ends[0] + 0.5 * (axis.length() - (rows - 1) as f64 * step);
        let flat = Grid::of(2 * half + 1, rows, |column, row| {
            let along = start + row as f64 * step;
            let radius = axis.radius_at(along);
            // Rows keep the angle round the braid, so that a taper is taken out, too.
            let round = (column as f64 - half as f64) * step / axis.radius;
            grid.at(scaled(axis.at(along, radius * sin(round)), scale))
        });
        let (relief, light, contrast) = relief(&flat, axis.radius / step);
        Self {
            relief,
            step,
            radius: axis.radius / step,
            start,
            light,
            contrast,
        }
    }

    /// The columns up to so far round the braid to both sides, radians.
    pub(super) fn columns(&self, reach: f64) -> core::ops::Range<usize> {
        let middle = self.relief.width / 2;
        let half = count(reach * self.radius, 1e4).min(middle);
        middle - half..middle + half + 1
    }
}

/// Brightness without light and shade of the whole braid, evened out along it; its mean before that, and its deviation.
#[expect(
    clippy::cast_possible_truncation,
    reason = "brightness needs no more digits"
)]
fn relief(flat: &Grid, radius: f64) -> (Grid, f64, f64) {
    let values = flat.values();
    let all = values.len().max(1) as f64;
    let light = values.iter().map(|value| f64::from(*value)).sum::<f64>() / all;
    // Shade depends on the place round the braid, and changes slowly along it.
    let shade = flat.smoothed_along(2.0 * radius);
    let bare = flat.with(&shade, |value, shade| value - shade);
    let squares = bare.map(|value| value * value);
    let contrast = sqrt(
        squares
            .values()
            .iter()
            .map(|value| f64::from(*value))
            .sum::<f64>()
            / all,
    );
    let local = squares.smoothed_along(radius).smoothed(0.25 * radius);
    let least = (0.2 * contrast * contrast).max(1e-9) as f32;
    let even = bare.with(&local, |value, square| {
        value / libm::sqrtf(square.max(least))
    });
    (even, light, contrast)
}
