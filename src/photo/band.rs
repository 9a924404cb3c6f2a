//! Finding the braid in a picture: the straight bar that explains most of what differs across the picture.
//!
//! Two things set a braid off from its background: its brightness, and its texture. Both are projected along every direction.
//! Of every pair of parallel edges, the pair is taken between which both differ most from what is outside: the share of all variance
//! that a bar explains (the criterion of Otsu 1979, IEEE Trans. Syst. Man Cybern. 9, 62–66, for two edges instead of one level).

use core::f64::consts::PI;

use libm::{cos, sin};

use super::grid::Grid;
use super::place::{Line, Point};

/// Most columns or rows of the grid that is searched. Our own choice: a braid a tenth as wide is still sixteen wide.
const SEARCHED: usize = 160;
/// Most columns or rows of the grid whose texture is taken. Our own choice.
const TEXTURED: usize = 640;
/// Weight of brightness beside that of texture: a shadow beside the braid differs in brightness, too. Our own choice.
const BRIGHT: f64 = 0.2;
/// Steps of the search through half a turn.
const DIRECTIONS: u32 = 60;
/// Halvings of the step of directions after the search.
const REFINED: u32 = 4;
/// Least share of the picture's width across that lies outside at each side of the bar. Our own choice.
const MARGIN: f64 = 0.02;
/// Added to the texture before its logarithm is taken: what a good camera leaves of noise. Our own choice.
const QUIET: f64 = 0.003;

/// A straight bar across the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    /// A place on its axis.
    pub(super) middle: Point,
    /// Direction of the axis, radians from the x axis towards the y axis.
    pub(super) direction: f64,
    /// Half of its width, pixels.
    pub(super) half_width: f64,
    /// Share of the variance across the picture that it explains, 0 to 1.
    pub(super) clear: f64,
}

impl Band {
    /// The band between two edges, and which way it is turned follows the first.
    pub(super) fn between(edges: [Line; 2]) -> Option<Self> {
        let [first, mut second] = edges;
        let is_possible =
            |line: Line| line.from.is_possible() && line.to.is_possible() && line.length() >= 1.0;
        if !edges.into_iter().all(is_possible) {
            return None;
        }
        if cos(first.direction() - second.direction()) < 0.0 {
            second = second.reversed();
        }
        let axis = Line::new(
            first.from.half_way(second.from),
            first.to.half_way(second.to),
        );
        let direction = axis.direction();
        let middle = axis.from.half_way(axis.to);
        let across = |line: Line| {
            let at = line.from.half_way(line.to);
            (at.y - middle.y) * cos(direction) - (at.x - middle.x) * sin(direction)
        };
        let half_width = 0.5 * (across(second) - across(first)).abs();
        (half_width.is_finite() && half_width > 0.0 && axis.length() >= 1.0).then_some(Self {
            middle,
            direction,
            half_width,
            clear: 1.0,
        })
    }
}

/// The clearest bar of a picture; `None` where the picture is too small to have one.
pub(super) fn find(light: &Grid) -> Option<Band> {
    let (features, scale) = features(light)?;
    let best = |best: Option<Found>, direction: f64| {
        let found = features.best_along(direction)?;
        Some(match best {
            Some(best) if best.clear >= found.clear => best,
            _ => found,
        })
    };
    let step = PI / f64::from(DIRECTIONS);
    let directions = (0..DIRECTIONS).map(|index| f64::from(index) * step);
    let mut found = directions.fold(None, best)?;
    let mut step = step;
    for _ in 0..REFINED {
        step *= 0.5;
        let around = [found.direction - step, found.direction + step];
        found = around.into_iter().fold(Some(found), best)?;
    }
    let middle = Point::new(
        0.5 * features.bright.width as f64,
        0.5 * features.bright.height as f64,
    );
    let across = 0.5 * (found.first + found.second);
    let middle = middle.towards(found.direction + 0.5 * PI, across);
    Some(Band {
        middle: Point::new(middle.x * scale, middle.y * scale),
        direction: found.direction,
        half_width: 0.5 * (found.second - found.first) * scale,
        clear: found.clear,
    })
}

/// Two things that set the braid off.
struct Features {
    bright: Grid,
    /// Mean squares of the slopes to the right and down, and mean product of both.
    slopes: [Grid; 3],
}

/// A bar in the grid of the search: its edges by their distance from the middle of the grid, square to its direction.
#[derive(Clone, Copy)]
struct Found {
    direction: f64,
    first: f64,
    second: f64,
    clear: f64,
}

/// Brightness and texture on a small grid, and how many pixels of the picture one of its columns has.
fn features(light: &Grid) -> Option<(Features, f64)> {
    let mut fine = light.clone();
    let mut scale = 1.0;
    while fine.width.max(fine.height) > TEXTURED {
        fine = fine.halved();
        scale *= 2.0;
    }
    let [along, down] = fine.smoothed(0.8).slopes(0.8);
    let mut slopes = [
        along.map(|slope| slope * slope),
        down.map(|slope| slope * slope),
        along.with(&down, |right, down| right * down),
    ];
    let mut bright = fine;
    while bright.width.max(bright.height) > SEARCHED {
        bright = bright.halved();
        slopes = slopes.map(|grid| grid.halved());
        scale *= 2.0;
    }
    if bright.width.min(bright.height) < 8 {
        return None;
    }
    let slopes = slopes.map(|grid| grid.smoothed(1.5));
    let bright = without_slope(&bright);
    Some((Features { bright, slopes }, scale))
}

/// Without what a plane explains: light from one side.
#[expect(
    clippy::cast_possible_truncation,
    reason = "brightness needs no more digits"
)]
fn without_slope(grid: &Grid) -> Grid {
    let (x0, y0) = (
        0.5 * (grid.width as f64 - 1.0),
        0.5 * (grid.height as f64 - 1.0),
    );
    let (mut x, mut y, mut xx, mut yy) = (0.0, 0.0, 0.0, 0.0);
    for row in 0..grid.height {
        for (column, value) in grid.row(row).iter().enumerate() {
            let (right, down) = (column as f64 - x0, row as f64 - y0);
            x += right * f64::from(*value);
            y += down * f64::from(*value);
            xx += right * right;
            yy += down * down;
        }
    }
    let (x, y) = (x / xx.max(1.0), y / yy.max(1.0));
    Grid::of(grid.width, grid.height, |column, row| {
        let plane = x * (column as f64 - x0) + y * (row as f64 - y0);
        grid.get(column, row) - plane as f32
    })
}

/// Sums of one feature over the strips of one direction.
struct Sums {
    /// Up to each strip.
    running: Vec<f64>,
    mean: f64,
    /// Sum of the squares of what differs from the mean, over all pixels.
    squares: f64,
}

impl Features {
    /// The clearest bar in one direction.
    fn best_along(&self, direction: f64) -> Option<Found> {
        let (width, height) = (self.bright.width as f64, self.bright.height as f64);
        let (c, s) = (cos(direction), sin(direction));
        // How far from the middle of the grid the farthest strip lies.
        let reach = 0.5 * (width * s.abs() + height * c.abs());
        let strip = |column: usize, row: usize| {
            let (x, y) = (
                column as f64 + 0.5 - 0.5 * width,
                row as f64 + 0.5 - 0.5 * height,
            );
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "held above zero, and no more than the diagonal"
            )]
            let strip = (y * c - x * s + reach).max(0.0) as usize;
            strip
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "no more than the diagonal of the grid"
        )]
        let count = (2.0 * reach) as usize + 2;
        let mut pixels = vec![0.0; count];
        let mut values = [vec![0.0; count], vec![0.0; count]];
        let mut squares = [0.0; 2];
        for row in 0..self.bright.height {
            for (column, bright) in self.bright.row(row).iter().enumerate() {
                // Only what changes along the bar is texture: a shadow beside it does not.
                let [right, down, both] =
                    [0, 1, 2].map(|index: usize| f64::from(self.slopes[index].get(column, row)));
                let along = c * c * right + s * s * down + 2.0 * c * s * both;
                let texture = libm::log(libm::sqrt(along.max(0.0)) + QUIET);
                let strip = strip(column, row).min(count - 1);
                pixels[strip] += 1.0;
                for (feature, value) in [f64::from(*bright), texture].into_iter().enumerate() {
                    values[feature][strip] += value;
                    squares[feature] += value * value;
                }
            }
        }
        let pixels = running(&pixels);
        let all = *pixels.last()?;
        let sums = [0, 1].map(|feature| {
            let running = running(&values[feature]);
            let mean = running.last().copied().unwrap_or_default() / all;
            Sums {
                squares: (squares[feature] - all * mean * mean).max(1e-9),
                mean,
                running,
            }
        });
        let mut best: Option<(f64, usize, usize)> = None;
        let margin = MARGIN * all;
        for first in 1..count {
            if pixels[first] < margin {
                continue;
            }
            for second in first + 2..count {
                if all - pixels[second] < margin {
                    break;
                }
                let inside = pixels[second] - pixels[first];
                let [bright, texture] = [0, 1]
                    .map(|feature: usize| sums[feature].explained(first, second, inside, all));
                let clear = BRIGHT * bright + (1.0 - BRIGHT) * texture;
                if best.is_none_or(|(most, ..)| clear > most) {
                    best = Some((clear, first, second));
                }
            }
        }
        let (clear, first, second) = best?;
        Some(Found {
            direction,
            first: first as f64 - reach,
            second: second as f64 - reach,
            clear,
        })
    }
}

impl Sums {
    /// Share of the variance that a bar between two strips explains.
    fn explained(&self, first: usize, second: usize, inside: f64, all: f64) -> f64 {
        let sum = self.running[second] - self.running[first] - inside * self.mean;
        // What is outside has the opposite sum.
        sum * sum * (1.0 / inside + 1.0 / (all - inside)) / self.squares
    }
}

/// Sums up to each place; one more than there are values.
fn running(values: &[f64]) -> Vec<f64> {
    let mut sum = 0.0;
    let sums = values.iter().map(|value| {
        sum += value;
        sum
    });
    core::iter::once(0.0).chain(sums).collect()
}
