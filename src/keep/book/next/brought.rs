//! What an entry of the book really brought.

use super::sureness::Sureness;
use super::worths::sureness;
use crate::design::Design;
use crate::keep::book::entry::BookEntry;
use crate::keep::book::estimate::Estimate;
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;
use crate::plan::prediction::chance_percent;

/// How sure the class of a line is without an entry of the book, and with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brought {
    /// Of the book without it: learnt again from all the rest.
    pub before: Sureness,
    /// Of the whole book.
    pub after: Sureness,
    entry: BookEntry,
}

impl Brought {
    /// What an entry brought for a line; `None` where nothing was learnt from it, or the line has no class, or another yarn.
    pub fn of(
        workshop: &Workshop,
        estimate: &Estimate,
        line: (&Design, &Plan),
        entry: BookEntry,
    ) -> Option<Self> {
        let mut residuals = estimate.residuals.iter();
        residuals.find(|residual| entry.has(residual.source))?;
        let without = workshop.without(entry);
        Some(Self {
            before: sureness(&without, &Estimate::of(&without), line)?,
            after: sureness(workshop, estimate, line)?,
            entry,
        })
    }

    /// In words: `This swatch brought the spread of the head from 13 to 6 grains. Chance of class 5: 34 % before, 71 % now.`
    pub fn words(&self) -> String {
        let Self {
            before,
            after,
            entry,
        } = self;
        let what = match entry {
            BookEntry::Swatch(_) => "swatch",
            BookEntry::Line(_) => "line",
        };
        format!(
            "This {what} brought the spread of the head from {:.1} to {:.1} grains. The chance of class {} was {} without it, and is {} with it.",
            before.spread.grains(),
            after.spread.grains(),
            after.class.number,
            chance_percent(before.chance),
            chance_percent(after.chance)
        )
    }
}
