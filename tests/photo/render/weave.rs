//! The surface of a braid, as a table over one repeat.
//!
//! Columns count rising threads, rows falling ones (A and B of [`super::threads`]): so the edges of threads run along columns and rows and
//! are no stairs. The pattern repeats after S threads of either family, and where one thread is unlike another after all of them as well.

use std::f64::consts::TAU;

use super::noise::mix;
use super::scene::Scene;
use super::threads::{Seen, Threads};

/// What the eye sees of one place.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Look {
    /// Height, 0 at the core to 1 at the outer radius; more where a thread stands out.
    pub(crate) height: f32,
    /// Growth of the height round the axis for a radian.
    pub(crate) by_round: f32,
    /// Growth of the height along the axis for a lay.
    pub(crate) by_lay: f32,
    /// Light that reaches it, as a share.
    pub(crate) open: f32,
    /// 1 on the steep wall between a thread and what lies below it, 0 on the upper side of a thread.
    pub(crate) wall: f32,
    /// What is seen.
    pub(crate) seen: Seen,
}

/// One cell of the table.
#[derive(Clone, Copy, Debug)]
struct Cell {
    height: f32,
    /// Growth of the height for one thread across the rising ones, and across the falling ones.
    by_rising: f32,
    by_falling: f32,
    open: f32,
    wall: f32,
    seen: Seen,
}

/// The table.
pub(crate) struct Weave {
    /// Columns and rows.
    size: usize,
    /// Threads of one family.
    half: f64,
    /// Repeats of the table a thread.
    repeats: f64,
    heights: Vec<f32>,
    looks: Vec<Cell>,
    /// The greatest height in it.
    pub(crate) top: f32,
}

impl Weave {
    /// The surface of the scene; with its flaw, or as if it had none.
    pub(crate) fn of(scene: &Scene, with_flaw: bool) -> Self {
        let flaw = scene.flaw.filter(|_| with_flaw);
        let threads = Threads::of(scene, flaw);
        let half = scene.threads / 2;
        let repeat = scene.pattern.repeat();
        let are_alike = flaw.is_none() && scene.engaged.is_none();
        let period = if are_alike {
            repeat
        } else {
            common_multiple(half, repeat)
        };
        // A little finer than the picture, as far as the table stays small.
        let spacing_px = 1.2 * TAU * scene.pixels_per_diameter / f64::from(scene.threads);
        let most = if are_alike { 400 } else { 900 } / period;
        let fine = (spacing_px.ceil() as u32).clamp(32, 128).min(most).max(8);
        let size = (period * fine) as usize;
        let (mut heights, mut seen) = (Vec::new(), Vec::new());
        for row in 0..size {
            for column in 0..size {
                let place = |cell: usize| cell as f64 / f64::from(fine);
                let (height, thread) = threads.at(place(column), place(row));
                heights.push(height as f32);
                seen.push(thread);
            }
        }
        Self {
            size,
            half: f64::from(half),
            repeats: 1.0 / f64::from(period),
            top: heights.iter().fold(0.0_f32, |top, height| top.max(*height)),
            looks: looks(&heights, &seen, size, fine as usize),
            heights,
        }
    }

    /// Where a place round the axis (radians) and along it (lays) lies in the table: four corners and the shares across and down.
    fn locate(&self, round: f64, along: f64) -> ([usize; 4], f32, f32) {
        let (turns, wound) = (self.half * round / TAU, self.half * along);
        let column = within((turns - wound) * self.repeats) * self.size as f64;
        let row = within((turns + wound) * self.repeats) * self.size as f64;
        let (left, upper) = (column as u32, row as u32);
        let (across, down) = (column - f64::from(left), row - f64::from(upper));
        let last = self.size - 1;
        let (left, upper) = ((left as usize).min(last), (upper as usize).min(last));
        let right = if left == last { 0 } else { left + 1 };
        let lower = if upper == last { 0 } else { upper + 1 };
        let (here, below) = (upper * self.size, lower * self.size);
        let corners = [here + left, here + right, below + left, below + right];
        (corners, across as f32, down as f32)
    }

    /// Height at a place: round the axis in radians, along it in lays.
    pub(crate) fn height(&self, round: f64, along: f64) -> f32 {
        let (corners, across, down) = self.locate(round, along);
        let [first, second, third, fourth] = corners.map(|corner| self.heights[corner]);
        mix(mix(first, second, across), mix(third, fourth, across), down)
    }

    /// What the eye sees at a place.
    pub(crate) fn look(&self, round: f64, along: f64) -> Look {
        let (corners, across, down) = self.locate(round, along);
        let [first, second, third, fourth] = corners.map(|corner| &self.looks[corner]);
        let between = |value: fn(&Cell) -> f32| {
            let (upper, lower) = (
                mix(value(first), value(second), across),
                mix(value(third), value(fourth), across),
            );
            mix(upper, lower, down)
        };
        let upper = if across > 0.5 { second } else { first };
        let lower = if across > 0.5 { fourth } else { third };
        let half = self.half as f32;
        let (rising, falling) = (
            between(|cell| cell.by_rising),
            between(|cell| cell.by_falling),
        );
        Look {
            height: between(|cell| cell.height),
            by_round: half / std::f32::consts::TAU * (rising + falling),
            by_lay: half * (falling - rising),
            open: between(|cell| cell.open),
            wall: between(|cell| cell.wall),
            seen: if down > 0.5 { lower.seen } else { upper.seen },
        }
    }
}

/// The looks of a table of so many columns and rows that closes on itself, with so many cells for a thread.
fn looks(heights: &[f32], seen: &[Seen], size: usize, fine: usize) -> Vec<Cell> {
    // Valleys are felt as far as half a thread away.
    let mean = smoothed(heights, size, fine / 2);
    let by_thread = 0.5 * fine as f32;
    let around = |place: usize| [place + size - 1, place, place + 1].map(|place| place % size);
    let mut walls = Vec::with_capacity(heights.len());
    let mut cells = Vec::with_capacity(heights.len());
    for row in 0..size {
        let [above, here, below] = around(row).map(|row| row * size);
        for column in 0..size {
            let [left, middle, right] = around(column);
            let near = [above, here, below]
                .map(|row| [left, middle, right].map(|column| heights[row + column]));
            let (mut low, mut high) = (f32::MAX, 0.0_f32);
            for height in near.as_flattened() {
                (low, high) = (low.min(*height), high.max(*height));
            }
            // The round side of a thread falls by less than this from cell to cell.
            walls.push(((high - low - 0.17) / 0.1).clamp(0.0, 1.0));
            let height = heights[here + middle];
            cells.push(Cell {
                height,
                by_rising: by_thread * (near[1][2] - near[1][0]),
                by_falling: by_thread * (near[2][1] - near[0][1]),
                // A place sees less of the light the lower it lies under the mean round it.
                open: 1.0 - (2.2 * (mean[here + middle] - height + 0.04)).clamp(0.0, 1.0),
                wall: 0.0,
                seen: seen[here + middle],
            });
        }
    }
    // A wall is two cells broad; seen from the side it is far broader, so it fades towards the thread and what lies below.
    let reach = 1 + fine / 32;
    let share = (reach as f32 + 0.5) * 0.9;
    for (cell, wall) in cells.iter_mut().zip(smoothed(&walls, size, reach)) {
        cell.wall = (share * wall).min(1.0);
    }
    cells
}

/// The least number that both divide.
fn common_multiple(one: u32, other: u32) -> u32 {
    (1..=other)
        .map(|times| times * one)
        .find(|multiple| multiple % other == 0)
        .unwrap_or(one * other)
}

/// Means over a square of `reach` cells to all sides of a table that closes on itself.
fn smoothed(values: &[f32], size: usize, reach: usize) -> Vec<f32> {
    let across = mean_around(values, size, (1, size), reach);
    mean_around(&across, size, (size, 1), reach)
}

/// The part of a number beyond a whole one, from 0 to 1. Numbers of a picture are small, so the cast is faster than a floor and exact.
fn within(number: f64) -> f64 {
    let raised = number + 65_536.0;
    raised - f64::from(raised as u32)
}

/// Mean over `reach` values to both sides along one direction of a table: the strides from value to value and from line to line.
fn mean_around(
    values: &[f32],
    size: usize,
    (stride, line_stride): (usize, usize),
    reach: usize,
) -> Vec<f32> {
    let mut means = vec![0.0; values.len()];
    let count = (2 * reach + 1) as f32;
    for line in 0..size {
        let at = |index: usize| line * line_stride + (index % size) * stride;
        let start = size * (reach / size + 1) - reach;
        let mut sum: f32 = (0..=2 * reach).map(|step| values[at(start + step)]).sum();
        for index in 0..size {
            means[at(index)] = sum / count;
            sum += values[at(start + index + 2 * reach + 1)] - values[at(start + index)];
        }
    }
    means
}
