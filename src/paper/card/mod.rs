//! The taper card: what goes to the machine on paper. One sheet wherever it can be, more of them cleanly where it cannot.
//!
//! The card is laid out here, in millimetres, from what the plan says. Screen, printer and file draw its items and decide
//! nothing, so that a preview shows what is printed, and a test can hold every text to its place. Widths of texts are those of
//! the widest usual letters (`measure`): a device whose letters are narrower leaves more white.
//!
//! A block (`blocks`) is built by itself and then set where there is room: first all of them on one sheet, as large as goes;
//! where even the smallest type does not do, each on the next sheet that has room for it, and the schedule large again.

mod blocks;
mod drawing;
mod foot;
mod head;
mod lists;
mod measure;
mod order;
mod rows;
mod sheet;

use crate::base::choice::Choice;
use crate::base::units::show::Units;
use crate::design::Design;
use crate::design::check::is_unseen;
use crate::paper::figures::verdict_title;
use crate::plan::Plan;
use crate::plan::days::Day;
use blocks::Block;
use lists::List;
use order::Map;
use sheet::{bold, plain};

pub use sheet::{Anchor, Item, Paint, Place, Sheet, Spot, Type};

/// White kept free on every side of a sheet, in millimetres: printers cannot reach the edge. Common practice, no source.
pub const MARGIN: f64 = 11.0;
/// Room between two blocks, in millimetres.
const GAP: f64 = 1.6;
/// Room that the running head of a further sheet takes, in millimetres.
const RUNNING_HEAD: f64 = 9.0;
/// Share of a sheet that must be left for a list to begin there rather than on the next.
const WORTH_BEGINNING: f64 = 0.35;
/// Foot line of the number of a sheet, within the upper margin, in millimetres.
const NUMBER: f64 = MARGIN - 2.4;
/// Most characters in the name of a maker.
pub const MAKER_ROOM: usize = 60;

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm. Source: ISO 216.
    #[default]
    A4,
    /// 8½ × 11 in. Source: ANSI/ASME Y14.1, size A.
    Letter,
}

impl Paper {
    /// Width and height, in millimetres.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// Width between the margins, in millimetres.
    fn room(self) -> f64 {
        self.size().0 - 2.0 * MARGIN
    }

    /// Height between the margins, in millimetres.
    fn height(self) -> f64 {
        self.size().1 - 2.0 * MARGIN
    }
}

impl Choice for Paper {
    const ALL: &'static [Self] = &[Self::A4, Self::Letter];

    fn key(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "US Letter",
        }
    }
}

/// What a card says beside the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside<'a> {
    /// Who braids the line; nothing where that is not given.
    pub maker: &'a str,
    /// The day it was made, where it is known.
    pub day: Option<Day>,
    /// The whole link of the line; else why there is none.
    pub link: Result<&'a str, &'a str>,
    /// The reader's units.
    pub units: Units,
    /// What it is printed on.
    pub paper: Paper,
}

/// A card, laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// What the line is called.
    pub title: String,
    /// What it is printed on.
    pub paper: Paper,
    /// Its sheets, at least one.
    pub sheets: Vec<Sheet>,
}

/// How close the card is set.
#[derive(Clone, Copy)]
struct Level {
    /// Size of what is read at a glance, in millimetres.
    words: f64,
    /// Size of what is read once, in millimetres.
    small: f64,
    /// Height of the drawing in pixels of its own.
    drawing: f64,
    /// The smallest type that the lists may come to, in millimetres.
    least: f64,
    /// How much the schedule says in its columns.
    columns: Columns,
}

/// How much the schedule says of every stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Columns {
    /// Place, deed, gear, threads and circuits.
    Fewest,
    /// Crossings too.
    Crossings,
    /// The angle too.
    All,
}

/// From roomy to close.
const LEVELS: [Level; 5] = [
    level(2.9, 2.5, 322.0, 3.0, Columns::All),
    level(2.7, 2.3, 312.0, 2.6, Columns::All),
    level(2.6, 2.15, 300.0, 2.3, Columns::Crossings),
    level(2.5, 2.05, 278.0, 2.05, Columns::Crossings),
    level(2.4, 2.0, 252.0, 2.05, Columns::Fewest),
];
/// Where there is more than one sheet nothing need be close.
const SPREAD: Level = level(2.9, 2.5, 322.0, 2.8, Columns::All);

const fn level(words: f64, small: f64, drawing: f64, least: f64, columns: Columns) -> Level {
    Level {
        words,
        small,
        drawing,
        least,
        columns,
    }
}

impl Card {
    /// The card of a plan.
    pub fn of(design: &Design, plan: &Plan, beside: Beside<'_>) -> Self {
        let matter = Matter {
            design,
            plan,
            beside,
            map: Map::of(design, plan),
            code: foot::code(&beside),
        };
        let one = LEVELS.iter().find_map(|level| matter.on_one(level));
        let sheets = one.map_or_else(|| matter.on_several(), |sheet| vec![sheet]);
        Self {
            title: design.title().to_owned(),
            paper: beside.paper,
            sheets,
        }
    }
}

/// A maker's name as it may stand on a card: without unseen characters, and no longer than [`MAKER_ROOM`].
pub fn maker(raw: &str) -> String {
    let shown = |c: &char| !c.is_control() && !is_unseen(*c);
    let clean: String = raw.chars().filter(shown).take(MAKER_ROOM).collect();
    clean.trim().to_owned()
}

/// What a card is made from.
struct Matter<'a> {
    design: &'a Design,
    plan: &'a Plan,
    beside: Beside<'a>,
    /// The machine at the start.
    map: Map,
    /// The code of the link, or why there is none.
    code: Block,
}

impl Matter<'_> {
    /// Everything but the lists, from the top; the last stands at the foot.
    fn blocks(&self, level: &Level) -> Vec<Block> {
        vec![
            head::head(self, level),
            head::warnings(self, level),
            drawing::drawing(self, level),
            order::order(self, level),
            foot::foot(self, level),
        ]
    }

    fn lists(&self, level: &Level) -> [List; 2] {
        [
            rows::schedule(self.plan, self.beside.units, level.columns),
            rows::bobbins(self.plan, self.beside.units),
        ]
    }

    /// The card on one sheet, if it goes so close.
    fn on_one(&self, level: &Level) -> Option<Sheet> {
        let (room, height) = (self.beside.paper.room(), self.beside.paper.height());
        let lists = self.lists(level);
        let blocks = self.blocks(level);
        let taken: f64 = blocks.iter().map(|block| block.height + GAP).sum();
        let size = lists::largest(&lists, room, height - taken, level.least)?;
        let mut sheet = Sheet::default();
        let mut y = MARGIN;
        let (foot, above) = blocks.split_last()?;
        let lists = lists.iter().map(|list| list.whole(size, room));
        for block in above.iter().cloned().chain(lists) {
            y += block.put(&mut sheet, y) + GAP;
        }
        foot.put(&mut sheet, MARGIN + height - foot.height);
        Some(sheet)
    }

    /// The card on as many sheets as it takes: each block on the first sheet where there is room, the bobbins where they
    /// follow, the schedule on sheets of its own.
    fn on_several(&self) -> Vec<Sheet> {
        let paper = self.beside.paper;
        let mut flow = Flow {
            height: paper.height(),
            sheets: vec![(Sheet::default(), 0.0)],
        };
        for block in self.blocks(&SPREAD) {
            flow.put(&block);
        }
        let [schedule, bobbins] = self.lists(&SPREAD);
        for list in [bobbins, schedule] {
            flow.list(&list, list.spread(paper.room()), paper.room());
        }
        let all = flow.sheets.len();
        let mut sheets: Vec<Sheet> = flow.sheets.into_iter().map(|(sheet, _)| sheet).collect();
        for (index, sheet) in sheets.iter_mut().enumerate() {
            self.number(sheet, index, all);
        }
        sheets
    }

    /// Which sheet it is; on all but the first also whose.
    fn number(&self, sheet: &mut Sheet, index: usize, all: usize) {
        let (width, _) = self.beside.paper.size();
        let right = (width - MARGIN, NUMBER);
        let count = format!("sheet {} of {all}", index + 1);
        sheet.text(right, Anchor::End, plain(2.7), &count);
        if index > 0 {
            let class = verdict_title(&self.plan.verdict);
            let words = format!("{} · {class}", self.design.title());
            let set = bold(3.0);
            let room = self.beside.paper.room();
            let line = measure::wrapped(&words, room, set).swap_remove(0);
            sheet.text((MARGIN, MARGIN + 3.0), Anchor::Start, set, &line);
            let under = (MARGIN, MARGIN + 6.6);
            sheet.text(under, Anchor::Start, plain(2.5), foot::AT_THE_MACHINE);
        }
    }
}

/// Sheets being filled one after the other; of each, how far down it is filled.
struct Flow {
    height: f64,
    sheets: Vec<(Sheet, f64)>,
}

impl Flow {
    /// How much room is left on the last sheet.
    fn left(&self) -> f64 {
        self.sheets.last().map_or(0.0, |last| self.height - last.1)
    }

    fn turn(&mut self) {
        self.sheets.push((Sheet::default(), RUNNING_HEAD));
    }

    /// Sets a block on the last sheet, or where it does not fit on a new one.
    fn put(&mut self, block: &Block) {
        if block.height > self.left() {
            self.turn();
        }
        if let Some((sheet, y)) = self.sheets.last_mut() {
            *y += block.put(sheet, MARGIN + *y) + GAP;
        }
    }

    /// Sets a list, and where it does not fit as a whole, as much of it on each new sheet as goes.
    fn list(&mut self, list: &List, size: f64, room: f64) {
        let whole = list.whole(size, room);
        if whole.height <= self.left() {
            return self.put(&whole);
        }
        let mut from = 0;
        while from < list.rows.len() {
            if from > 0 || self.left() < self.height * WORTH_BEGINNING {
                self.turn();
            }
            let most = list.fitting(size, room, self.left()).max(1);
            let to = list.rows.len().min(from + most);
            self.put(&list.part(from..to, size, room));
            from = to;
        }
    }
}
