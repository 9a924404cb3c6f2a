//! Schedule and bobbins in columns: as large as there is room for, and never cut without saying so.

use super::measure::width;
use super::sheet::{Anchor, Sheet, Type, bold, plain};
use super::{LEFT, ROOM};

/// Sizes of the rows, from large to small, in millimetres. The last is five and a half points, the least that is read without
/// a glass: common practice, no source.
const SIZES: [f64; 7] = [3.0, 2.8, 2.6, 2.4, 2.2, 2.05, 1.94];
/// Distance of rows, in sizes of the type.
const PITCH: f64 = 1.34;
/// Room between cells, and between columns of rows, in sizes of the type.
const GAP: f64 = 0.8;
const GUTTER: f64 = 1.6;
/// Side of a box to tick, in sizes of the type, and room for it.
const TICK: f64 = 0.9;
const TICK_ROOM: f64 = 1.4;
/// So many cells of a row are set on the left, and heavy.
const ON_THE_LEFT: usize = 2;
/// Share of the room that the bobbins may take where there is too little for all.
const FOR_BOBBINS: f64 = 0.35;

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
    /// Where rows that are left out can be found.
    pub(super) elsewhere: &'static str,
}

/// How a list is set.
struct Setting {
    size: f64,
    /// Width of each cell.
    cells: Vec<f64>,
    /// Columns of rows beside each other.
    columns: usize,
}

impl List {
    fn set(&self, size: f64) -> Setting {
        let widest = |cell: usize| {
            let set = type_of(cell, size);
            let rows = self.rows.iter().map(|row| width(&row[cell], set));
            rows.fold(width(self.head[cell], plain(size)), f64::max)
        };
        let cells: Vec<f64> = (0..self.head.len()).map(widest).collect();
        let mut setting = Setting {
            size,
            cells,
            columns: 1,
        };
        let (column, gutter) = (setting.column(self.ticked), GUTTER * size);
        setting.columns = count((ROOM + gutter) / (column + gutter)).max(1);
        setting
    }

    /// How many rows fit a height, all of them where they do; else one line is kept free to say how many do not.
    fn fitting(&self, setting: &Setting, height: f64) -> usize {
        if setting.height(self.rows.len()) <= height {
            return self.rows.len();
        }
        let lines = count((height - heading(setting.size)) / setting.pitch());
        lines.saturating_sub(2) * setting.columns
    }
}

impl Setting {
    fn pitch(&self) -> f64 {
        self.size * PITCH
    }

    /// Height of heading, heads and so many rows.
    fn height(&self, rows: usize) -> f64 {
        heading(self.size) + (rows.div_ceil(self.columns) + 1) as f64 * self.pitch()
    }

    /// Width of one column of rows.
    fn column(&self, ticked: bool) -> f64 {
        let gaps = GAP * self.size * (self.cells.len() - 1) as f64;
        self.cells.iter().sum::<f64>() + gaps + if ticked { TICK_ROOM * self.size } else { 0.0 }
    }
}

fn heading(size: f64) -> f64 {
    size * 2.2
}

/// Whole pieces in a share; nothing on a sheet is longer.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn count(share: f64) -> usize {
    share.clamp(0.0, 1_000.0) as usize
}

/// Sets two lists one below the other between two heights; both in the same size of type.
pub(super) fn put(sheet: &mut Sheet, lists: [&List; 2], (top, foot): (f64, f64)) {
    let room = foot - top;
    let needed = |size: f64| -> f64 {
        let height = |list: &List| list.set(size).height(list.rows.len());
        lists.iter().map(|list| height(list)).sum()
    };
    let last = SIZES[SIZES.len() - 1];
    let size = SIZES.into_iter().find(|size| needed(*size) <= room);
    let size = size.unwrap_or(last);
    let settings = lists.map(|list| list.set(size));
    let heights = shared(lists, &settings, room);
    let mut y = top;
    for ((list, setting), height) in lists.into_iter().zip(&settings).zip(heights) {
        y = one(sheet, list, setting, (y, height));
    }
}

/// How much of the room each list gets: what it needs, where there is as much; else the second its share at most.
fn shared(lists: [&List; 2], settings: &[Setting; 2], room: f64) -> [f64; 2] {
    let need = |n: usize| settings[n].height(lists[n].rows.len());
    let second = need(1).min((room * FOR_BOBBINS).max(room - need(0)));
    [room - second, second]
}

/// Sets a list; returns the height below it.
fn one(sheet: &mut Sheet, list: &List, setting: &Setting, (top, height): (f64, f64)) -> f64 {
    let fitting = list.fitting(setting, height);
    let left_out = list.rows.len() - fitting;
    let mut y = top + heading(setting.size) * 0.8;
    sheet.text(
        (LEFT, y),
        Anchor::Start,
        bold(setting.size * 1.2),
        list.title,
    );
    y = top + heading(setting.size);
    let lines = fitting.div_ceil(setting.columns).max(1);
    for (column, rows) in list.rows[..fitting].chunks(lines).enumerate() {
        let x = LEFT + column as f64 * (setting.column(list.ticked) + GUTTER * setting.size);
        block(sheet, list, setting, (x, y), rows);
    }
    y += (lines + 1) as f64 * setting.pitch();
    if left_out > 0 {
        let said = format!("{left_out} more rows have no room here: {}", list.elsewhere);
        let foot = y + setting.size;
        sheet.text((LEFT, foot), Anchor::Start, bold(setting.size), &said);
        y += setting.pitch();
    }
    y
}

/// Sets rows under their heads, from this upper left corner.
fn block(
    sheet: &mut Sheet,
    list: &List,
    setting: &Setting,
    (x, top): (f64, f64),
    rows: &[Vec<String>],
) {
    let (pitch, size) = (setting.pitch(), setting.size);
    let first = x + if list.ticked { TICK_ROOM * size } else { 0.0 };
    let heads = list
        .head
        .iter()
        .map(|head| (*head).to_owned())
        .collect::<Vec<_>>();
    let foot = top + size;
    cells(sheet, setting, (first, foot), |_| plain(size), &heads);
    let edge = foot + size * 0.25;
    sheet.rule((x, edge), (x + setting.column(list.ticked), edge), 0.25);
    for (index, row) in rows.iter().enumerate() {
        let y = foot + (index + 1) as f64 * pitch;
        if list.ticked {
            sheet.tick_box((x, y - size * 0.8), TICK * size);
        }
        cells(sheet, setting, (first, y), |cell| type_of(cell, size), row);
    }
}

fn cells(
    sheet: &mut Sheet,
    setting: &Setting,
    (mut x, y): (f64, f64),
    set: impl Fn(usize) -> Type,
    row: &[String],
) {
    for (cell, (words, width)) in row.iter().zip(&setting.cells).enumerate() {
        if cell < ON_THE_LEFT {
            sheet.text((x, y), Anchor::Start, set(cell), words);
        } else {
            sheet.text((x + width, y), Anchor::End, set(cell), words);
        }
        x += width + GAP * setting.size;
    }
}

/// Where and what is heavy; the rest is plain.
fn type_of(cell: usize, size: f64) -> Type {
    if cell < ON_THE_LEFT {
        bold(size)
    } else {
        plain(size)
    }
}
