//! What an entry of the book really brought.

use super::sureness::Sureness;
use super::worths::sureness;
use crate::design::Design;
use crate::keep::book::entry::BookEntry;
use crate::keep::book::estimate::Estimate;
use crate::keep::book::workshop::Workshop;
use crate::plan::Plan;
use crate::plan::prediction::NINETY_FIVE;

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

    /// In words: `This swatch narrows the weight of the head from ± 26 to ± 12 gr; chance of class 5 from 34 % to 71 %.`
    pub fn words(&self) -> String {
        let what = match self.entry {
            BookEntry::Swatch(_) => "swatch",
            BookEntry::Line(_) => "line",
        };
        format!(
            "This {what} narrows the weight of the head {}.",
            self.facts()
        )
    }

    /// The same where a name stands before it: `from ± 26 to ± 12 gr; chance of class 5 from 34 % to 71 %`. The margins hold 95 of 100
    /// lines.
    pub fn facts(&self) -> String {
        let margin = |sureness: &Sureness| NINETY_FIVE * sureness.spread.grains();
        format!(
            "from ± {:.1} to ± {:.1} gr; {}",
            margin(&self.before),
            margin(&self.after),
            self.before.change_words(&self.after)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::keep::book::swatch::{Swatch, SwatchField};

    fn book() -> Workshop {
        let plan = Plan::of(&demo());
        let mut swatch = Swatch::of_belly(&demo(), &plan);
        let lay = demo().parameters().0[0] * plan.belly.piece.wheels.ratio();
        swatch.set(SwatchField::Length, Some(0.3));
        swatch.set(SwatchField::Circuits, Some(300.0 / lay));
        swatch.set(SwatchField::Angle, Some(plan.belly.braid.angle.degrees()));
        let mut book = Workshop::new("home".to_owned(), &demo());
        book.swatches.push(swatch);
        book
    }

    fn brought(book: &Workshop, entry: BookEntry) -> Option<Brought> {
        let plan = Plan::of(&demo());
        Brought::of(book, &Estimate::of(book), (&demo(), &plan), entry)
    }

    #[test]
    fn a_swatch_brought_what_the_book_lacks_without_it() {
        let brought = brought(&book(), BookEntry::Swatch(0)).expect("it teaches something");
        let empty = Workshop::new("home".to_owned(), &demo());
        let plan = Plan::of(&demo());
        let nothing = sureness(&empty, &Estimate::of(&empty), (&demo(), &plan));
        assert_eq!(Some(brought.before), nothing);
        assert!(brought.after.spread < brought.before.spread);
        assert!(brought.after.chance > brought.before.chance);
        let words = brought.words();
        for number in [brought.before, brought.after] {
            let said = format!("± {:.1}", 1.96 * number.spread.grains());
            assert!(words.contains(&said), "{words} lacks {said}");
        }
        assert!(words.starts_with("This swatch narrows"), "{words}");
    }

    /// An entry that is not there, or of which nothing is learnt, brought nothing that could be said.
    #[test]
    fn what_teaches_nothing_brought_nothing() {
        let mut book = book();
        book.swatches.push(Swatch::default());
        assert_eq!(brought(&book, BookEntry::Swatch(1)), None);
        assert_eq!(brought(&book, BookEntry::Line(0)), None);
        assert_eq!(book.without(BookEntry::Line(7)), book);
    }
}
