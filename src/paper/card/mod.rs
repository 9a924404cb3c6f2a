//! The taper card: what goes to the machine on paper. It takes one sheet where it can and more where it cannot.
//!
//! The card is laid out here, in millimetres, from the plan. Screen, printer and file draw its items and decide nothing: so a
//! preview shows what is printed, and a test checks the place of every text without a browser. No font is measured: every text
//! gets the room that it takes in the widest common sans serif (`measure`), and narrower letters leave more white.
//!
//! Each block (`blocks`) is built by itself and then put where there is room. First all of them are tried on one sheet, in five
//! steps from roomy to close (`spacing`). Where even the closest step is too large, each block goes to the next sheet with room
//! for it, and the schedule is set large again.
//!
//! To a screen reader a sheet is one picture, since the page itself says all of it too. Paper size and maker's name belong to
//! the reader, not to the line: they are kept in the browser and no link carries them. The page draws the card when it is looked
//! at or printed, not at every change.

mod blocks;
mod drawing;
mod foot;
mod head;
mod input;
mod link_code;
mod lists;
mod measure;
mod order;
mod paper;
mod rows;
mod sheet;
mod spacing;
mod start_map;

use crate::design::Design;
use crate::paper::figures::verdict_title;
use crate::plan::Plan;
use blocks::{Block, GAP};
use input::CardInput;
use lists::List;
use sheet::{bold, plain};
use spacing::{LEAST, SPACINGS, SPREAD, Spacing};
use start_map::StartMap;

pub use input::{CardDetails, MAKER_ROOM, maker};
pub use paper::{MARGIN, Paper};
pub use sheet::{Anchor, Item, Paint, Placement, Sheet, SheetPoint, Type};

/// Room that the running head of a further sheet takes, in millimetres.
const RUNNING_HEAD: f64 = 9.0;
/// Share of a sheet that must be left for a list to begin there rather than on the next.
const WORTH_BEGINNING: f64 = 0.35;
/// Foot line of the number of a sheet, within the upper margin, in millimetres.
const NUMBER: f64 = MARGIN - 2.4;
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

impl Card {
    /// The card of a plan.
    pub fn of(design: &Design, plan: &Plan, details: CardDetails<'_>) -> Self {
        let input = CardInput {
            design,
            plan,
            details,
            map: StartMap::of(design, plan),
            code: link_code::code(&details),
        };
        let one = SPACINGS.iter().find_map(|spacing| input.on_one(spacing));
        let sheets = one.map_or_else(|| input.on_several(), |sheet| vec![sheet]);
        Self {
            title: design.title().to_owned(),
            paper: details.paper,
            sheets,
        }
    }
}

impl CardInput<'_> {
    /// Everything but the lists, from the top; the last stands at the foot.
    fn blocks(&self, spacing: &Spacing) -> Vec<Block> {
        vec![
            head::head(self, spacing),
            head::warnings(self, spacing),
            drawing::drawing(self, spacing),
            order::order(self, spacing),
            foot::foot(self, spacing),
        ]
    }

    fn lists(&self, spacing: &Spacing) -> [List; 2] {
        [
            rows::schedule(self.plan, self.details.units, spacing.columns),
            rows::bobbins(self.plan, self.details.units),
        ]
    }

    /// The card on one sheet, if it fits with this spacing.
    fn on_one(&self, spacing: &Spacing) -> Option<Sheet> {
        let (room, height) = (self.details.paper.room(), self.details.paper.height());
        let lists = self.lists(spacing);
        let blocks = self.blocks(spacing);
        let taken: f64 = blocks.iter().map(|block| block.height + GAP).sum();
        let size = lists::largest(&lists, room, height - taken, spacing.least)?;
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
        let paper = self.details.paper;
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
        let (width, _) = self.details.paper.size();
        let right = (width - MARGIN, NUMBER);
        let count = format!("sheet {} of {all}", index + 1);
        sheet.text(right, Anchor::End, plain(LEAST), &count);
        if index > 0 {
            let class = verdict_title(&self.plan.verdict);
            let words = format!("{} · {class}", self.design.title());
            let set = bold(3.0);
            let room = self.details.paper.room();
            let line = measure::wrapped(&words, room, set).swap_remove(0);
            sheet.text((MARGIN, MARGIN + 3.0), Anchor::Start, set, &line);
            let under = (MARGIN, MARGIN + 6.6);
            sheet.text(under, Anchor::Start, plain(LEAST), foot::AT_THE_MACHINE);
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

    /// Sets a list, and where it does not fit as a whole, as much of it on each new sheet as fits.
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
