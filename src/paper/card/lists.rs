//! Schedule and bobbins in columns, as large as there is room for.

use core::ops::Range;

use super::blocks::{self, Block};
use super::measure::width;
use super::paper::MARGIN;
use super::sheet::{Anchor, Type, bold, plain};
use super::spacing::LEAST;

/// Sizes of the rows, from large to small, in millimetres.
const SIZES: [f64; 4] = [3.4, 3.2, 3.0, LEAST];
/// Sizes in which rows are set on sheets of their own, in millimetres: the first in which two columns fit beside each other.
const SPREAD: [f64; 2] = [3.0, LEAST];
/// Distance of rows, in sizes of the type.
const PITCH: f64 = 1.36;
/// Room between cells, and between columns of rows, in sizes of the type.
const GAP: f64 = 0.8;
const GUTTER: f64 = 2.2;
/// Side of a box to tick, in sizes of the type, and room for it.
const TICK: f64 = 0.9;
const TICK_ROOM: f64 = 1.4;
/// So many cells of a row are set on the left, and heavy.
const ON_THE_LEFT: usize = 2;

/// Rows under one head.
pub(super) struct List {
    /// Its heading.
    pub(super) title: &'static str,
    /// Heads of the cells; the first is set on the left, so is the second, the others on the right.
    pub(super) head: Vec<&'static str>,
    /// The rows, each of as many cells.
    pub(super) rows: Vec<Vec<String>>,
    /// Whether each row has a box to tick.
    pub(super) ticked: bool,
}

/// How a list is set.
struct ListLayout {
    size: f64,
    /// Width of each cell.
    cells: Vec<f64>,
    /// Columns of rows beside each other.
    columns: usize,
    /// Distance from the left of one column to that of the next.
    step: f64,
}

impl List {
    /// The whole list as a block.
    pub(super) fn whole(&self, size: f64, room: f64) -> Block {
        self.part(0..self.rows.len(), size, room)
    }

    /// Some of its rows as a block with heading and heads.
    pub(super) fn part(&self, rows: Range<usize>, size: f64, room: f64) -> Block {
        let layout = self.set(size, room);
        let title = if rows.start == 0 {
            self.title.to_owned()
        } else {
            format!("{}, continued", self.title)
        };
        let rows = self.rows.get(rows).unwrap_or_default();
        let mut block = Block {
            height: layout.height(rows.len()),
            ..Block::default()
        };
        let foot = (MARGIN, heading(size) * 0.72);
        block
            .sheet
            .text(foot, Anchor::Start, bold(size * 1.2), &title);
        let lines = rows.len().div_ceil(layout.columns).max(1);
        for (column, rows) in rows.chunks(lines).enumerate() {
            let x = MARGIN + column as f64 * layout.step;
            self.column(&mut block, &layout, (x, heading(size)), rows);
        }
        block
    }

    /// The size in which it is set where more sheets are used, in millimetres.
    pub(super) fn spread(&self, room: f64) -> f64 {
        let twice = |size: &f64| self.set(*size, room).columns > 1;
        SPREAD.into_iter().find(twice).unwrap_or(SPREAD[0])
    }

    /// How many rows fit a height.
    pub(super) fn fitting(&self, size: f64, room: f64, height: f64) -> usize {
        let layout = self.set(size, room);
        let lines = count((height - heading(size)) / layout.pitch());
        lines.saturating_sub(1) * layout.columns
    }

    fn set(&self, size: f64, room: f64) -> ListLayout {
        let widest = |cell: usize| {
            let set = type_of(cell, size);
            let rows = self.rows.iter().map(|row| width(&row[cell], set));
            rows.fold(width(self.head[cell], plain(size)), f64::max)
        };
        let cells: Vec<f64> = (0..self.head.len()).map(widest).collect();
        let gaps = GAP * size * (cells.len() - 1) as f64;
        let tick = if self.ticked { TICK_ROOM * size } else { 0.0 };
        let (column, gutter) = (cells.iter().sum::<f64>() + gaps + tick, GUTTER * size);
        let columns = count((room + gutter) / (column + gutter)).max(1);
        ListLayout {
            size,
            cells,
            columns,
            step: (room + gutter) / columns as f64,
        }
    }

    /// Sets rows under their heads, from this upper left corner.
    fn column(
        &self,
        block: &mut Block,
        layout: &ListLayout,
        (x, top): (f64, f64),
        rows: &[Vec<String>],
    ) {
        let (pitch, size) = (layout.pitch(), layout.size);
        let room = layout.step - GUTTER * size;
        let first = x + if self.ticked { TICK_ROOM * size } else { 0.0 };
        let foot = top + size;
        let heads = self.head.iter().copied();
        layout.cells(block, (first, x + room, foot), |_| plain(size), heads);
        let edge = foot + size * 0.28;
        block.sheet.rule((x, edge), (x + room, edge), 0.25);
        for (index, row) in rows.iter().enumerate() {
            let y = foot + (index + 1) as f64 * pitch;
            if self.ticked {
                block.sheet.tick_box((x, y - size * 0.8), TICK * size);
            }
            let words = row.iter().map(String::as_str);
            layout.cells(
                block,
                (first, x + room, y),
                |cell| type_of(cell, size),
                words,
            );
            let edge = y + size * 0.28;
            block.sheet.rule((x, edge), (x + room, edge), 0.08);
        }
    }
}

impl ListLayout {
    fn pitch(&self) -> f64 {
        self.size * PITCH
    }

    /// Height of heading, heads and rows.
    fn height(&self, rows: usize) -> f64 {
        heading(self.size) + (rows.div_ceil(self.columns) + 1) as f64 * self.pitch()
    }

    /// Sets cells from the left to the right edge at a foot line: what is wider than the cells stands before the third.
    fn cells<'a>(
        &self,
        block: &mut Block,
        (left, right, y): (f64, f64, f64),
        set: impl Fn(usize) -> Type,
        words: impl Iterator<Item = &'a str>,
    ) {
        let gap = GAP * self.size;
        let mut x = left;
        for (cell, (words, width)) in words.zip(&self.cells).enumerate() {
            if cell < ON_THE_LEFT {
                block.sheet.text((x, y), Anchor::Start, set(cell), words);
            } else {
                let behind = &self.cells[cell + 1..];
                let end = right - behind.iter().map(|width| width + gap).sum::<f64>();
                block.sheet.text((end, y), Anchor::End, set(cell), words);
            }
            x += width + gap;
        }
    }
}

/// The largest type in which the lists fit below each other within a height, and not under the least.
pub(super) fn largest(lists: &[List], room: f64, height: f64, least: f64) -> Option<f64> {
    let needed = |size: f64| -> f64 {
        let one = |list: &List| list.set(size, room).height(list.rows.len()) + blocks::GAP;
        lists.iter().map(one).sum()
    };
    let sizes = SIZES.into_iter().filter(|size| *size >= least);
    sizes.into_iter().find(|size| needed(*size) <= height)
}

fn heading(size: f64) -> f64 {
    size * 2.2
}

/// Whole pieces in a share; nothing on a sheet is longer.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn count(share: f64) -> usize {
    share.clamp(0.0, 1_000.0) as usize
}

/// Where and what is heavy; the rest is plain.
fn type_of(cell: usize, size: f64) -> Type {
    if cell < ON_THE_LEFT {
        bold(size)
    } else {
        plain(size)
    }
}
