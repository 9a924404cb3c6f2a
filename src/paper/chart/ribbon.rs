//! The ribbon: below the profile, over the same axis, one cell for every stretch of equal threads, and one for every gear.

use super::path::Path;
use super::scale::{Band, LEFT, Scale};
use crate::base::units::Length;
use crate::braid::stretch::Stretch;
use crate::plan::Plan;

/// Pixels one character in a cell takes at most, and room beside them.
const CHARACTER: f64 = 8.4;
const BESIDE: f64 = 4.0;
/// Height of a figure, and room below it at most, in pixels.
const ASCENT: f64 = 11.0;
const FOOT: f64 = 5.0;
/// Half the space between two cells, in pixels.
const SPACE: f64 = 0.75;
/// A cell is drawn at least so wide, in pixels.
const LEAST: f64 = 0.5;

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// Where it begins on the line.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
    /// Threads, or the teeth of the gear.
    pub value: String,
    /// Middle of its figure, in pixels from the left; `None` where there is no room for one.
    pub label_at: Option<f64>,
}

/// A row of cells.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// The cells, tip first, without gap.
    pub cells: Vec<Cell>,
    /// Their outlines, as path data, but those of the highest bars.
    pub outlines: String,
    /// The outlines of the highest bars.
    pub highest: String,
    /// Foot of all figures, in pixels from the top.
    pub foot: f64,
}

impl Row {
    /// Where cells begin, and where the last ends, in metres, as words: `0 0.45 1.2`.
    pub fn ends(&self) -> String {
        let begins = self.cells.iter().map(|cell| cell.from);
        let ends = begins.chain(self.cells.last().map(|cell| cell.to));
        let words: Vec<String> = ends.map(|at| at.metres().to_string()).collect();
        words.join(" ")
    }
}

/// The row of threads: bars as high as the yarn in them, so that a heavier thread counts as more; written is how many there are.
pub fn threads(plan: &Plan, scale: &Scale) -> Row {
    let alike = |a: &Stretch, b: &Stretch| a.piece.level == b.piece.level;
    let yarn = |stretch: &Stretch| stretch.piece.load.yarn;
    let most = plan.line.stretches().iter().map(yarn).fold(0.0, f64::max);
    let bar = |stretch: &Stretch| Bar {
        value: stretch.piece.load.threads.to_string(),
        top: scale.y_of_threads(yarn(stretch)),
        is_highest: yarn(stretch) >= most,
    };
    row(plan, scale, scale.staircase(), alike, bar)
}

/// The row of gears.
pub fn gears(plan: &Plan, scale: &Scale) -> Row {
    let band = scale.gears();
    let alike = |a: &Stretch, b: &Stretch| a.piece.wheels == b.piece.wheels;
    let bar = |stretch: &Stretch| Bar {
        value: stretch.piece.wheels.to_string(),
        top: band.top,
        is_highest: false,
    };
    row(plan, scale, band, alike, bar)
}

/// What is drawn for a cell.
struct Bar {
    value: String,
    top: f64,
    is_highest: bool,
}

fn row(
    plan: &Plan,
    scale: &Scale,
    band: Band,
    alike: impl Fn(&Stretch, &Stretch) -> bool,
    bar: impl Fn(&Stretch) -> Bar,
) -> Row {
    let foot = ((band.height - ASCENT) / 2.0).clamp(3.0, FOOT);
    let (mut outlines, mut highest) = (Path::default(), Path::default());
    let stretches = plan.line.stretches().chunk_by(alike);
    let cells = stretches.map(|chunk| {
        let (first, last) = (&chunk[0], &chunk[chunk.len() - 1]);
        let (from, to) = (first.from(), last.to());
        let Bar {
            value,
            top,
            is_highest,
        } = bar(first);
        let path = if is_highest {
            &mut highest
        } else {
            &mut outlines
        };
        let (left, right) = (scale.x_of(from) + SPACE, scale.x_of(to) - SPACE);
        let right = right.max(left + LEAST);
        for (x, y) in [(left, band.bottom()), (left, top), (right, top)] {
            path.to(x, y);
        }
        path.to(right, band.bottom());
        path.shut();
        let room = value.chars().count() as f64 * CHARACTER + BESIDE;
        Cell {
            from,
            to,
            value,
            label_at: label_at((from, to), room, scale),
        }
    });
    let cells = cells.collect();
    Row {
        cells,
        outlines: outlines.open(),
        highest: highest.open(),
        foot: band.bottom() - foot,
    }
}

/// The middle of the widest part of a cell that is seen and not broken, where a figure so wide has room in it.
fn label_at((from, to): (Length, Length), room: f64, scale: &Scale) -> Option<f64> {
    let mut begin = scale.x_of(from).max(LEFT);
    let end = scale.x_of(to).min(scale.right());
    let mut widest = (0.0, 0.0);
    let mut part = |begin: f64, end: f64| {
        // Of two alike the first, however their numbers round.
        if end - begin > widest.1 - widest.0 + BESIDE {
            widest = (begin, end);
        }
    };
    for fold in scale.folds.iter() {
        let (left, right) = (scale.x_of(fold.from), scale.x_of(fold.to));
        if right > begin && left < end {
            part(begin, left);
            begin = right;
        }
    }
    part(begin, end);
    (widest.1 - widest.0 >= room).then(|| f64::midpoint(widest.0, widest.1))
}
