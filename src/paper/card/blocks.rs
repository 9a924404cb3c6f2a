//! A part of the card, built by itself from its own upper edge, and set where there is room.

use super::measure::{width, wrapped};
use super::sheet::{Anchor, Item, Sheet, SheetPoint, Type};

/// Room between two blocks, in millimetres.
pub(super) const GAP: f64 = 1.6;
/// Distance of lines, in sizes of the type.
pub(super) const LINE: f64 = 1.25;

/// A part of the card.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Block {
    /// What stands in it, from its own upper edge; from the left it stands where it will stand on the sheet.
    pub(super) sheet: Sheet,
    /// How high it is, in millimetres.
    pub(super) height: f64,
}

impl Block {
    /// Adds words below what is there, from the left, in as many lines as they need.
    pub(super) fn words(&mut self, set: Type, (left, room): (f64, f64), words: &str) {
        for line in wrapped(words, room, set)
            .iter()
            .filter(|line| !line.is_empty())
        {
            self.height += set.size * LINE;
            let at = (left, self.height - set.size * (LINE - 1.0));
            self.sheet.text(at, Anchor::Start, set, line);
        }
    }

    /// The same after a bold word in the first line.
    pub(super) fn headed(&mut self, set: Type, place: (f64, f64), head: &str, words: &str) {
        let heavy = Type { bold: true, ..set };
        let (left, room) = place;
        // The head is wider than in plain type: the difference is kept free.
        let indent = width(head, heavy) + set.size * 0.4;
        let spare = indent - width(&format!("{head} "), set);
        let lines = wrapped(&format!("{head} {words}"), room - spare.max(0.0), set);
        let first = lines[0].strip_prefix(head).unwrap_or_default().trim_start();
        let foot = self.height + set.size;
        self.sheet.text((left, foot), Anchor::Start, heavy, head);
        self.sheet
            .text((left + indent, foot), Anchor::Start, set, first);
        self.height += set.size * LINE;
        self.words(set, place, &lines[1..].join(" "));
    }

    /// A rule across, and a little room below it.
    pub(super) fn rule(&mut self, (left, room): (f64, f64), width: f64) {
        let y = self.height;
        self.sheet.rule((left, y), (left + room, y), width);
        self.height += 0.6;
    }

    /// Sets it on a sheet at a height; returns its own height.
    pub(super) fn put(&self, sheet: &mut Sheet, top: f64) -> f64 {
        let moved = self.sheet.items.iter().map(|item| lowered(item, top));
        sheet.items.extend(moved);
        self.height
    }
}

fn lowered(item: &Item, by: f64) -> Item {
    let lower = |(x, y): SheetPoint| (x, y + by);
    let mut item = item.clone();
    match &mut item {
        Item::Text { at, .. } | Item::TickBox { at, .. } => *at = lower(*at),
        Item::Path { place, .. } => place.at = lower(place.at),
        Item::Rule { from, to, .. } => (*from, *to) = (lower(*from), lower(*to)),
    }
    item
}
