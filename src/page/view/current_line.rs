//! The line in progress: the newest record in the bench book for the drawing on the bench.

use leptos::prelude::*;

use super::bench::Bench;
use super::book::OpenBook;
use crate::edit::Edit;
use crate::keep::book::Frozen;
use crate::keep::book::record::LineRecord;
use crate::plan::run::Timed;

/// The line in progress from the drawing on the bench.
#[derive(Clone, Copy)]
pub(crate) struct CurrentLine {
    bench: Bench,
    open_book: OpenBook,
    /// Its place in the book, and its record.
    pub(crate) record: Memo<Option<(usize, LineRecord)>>,
}

/// The line in progress on this page.
pub(crate) fn current_line() -> CurrentLine {
    expect_context::<CurrentLine>()
}

impl CurrentLine {
    /// The line of the drawing on the bench.
    pub(crate) fn open(bench: Bench, open_book: OpenBook) -> Self {
        let record = Memo::new(move |_| {
            let number = bench.number()?;
            open_book.workshop.with(|workshop| {
                let mut records = workshop.records.iter().enumerate().rev();
                let newest = records.find(|(_, record)| record.line == Some(number));
                newest.map(|(index, record)| (index, record.clone()))
            })
        });
        Self {
            bench,
            open_book,
            record,
        }
    }

    /// Its record, for a moment.
    pub(crate) fn record_untracked(self) -> Option<LineRecord> {
        self.record
            .with_untracked(|record| record.as_ref().map(|(_, record)| record.clone()))
    }

    /// Changes its record; where that does not fit, says why.
    pub(crate) fn change(self, change: impl FnOnce(&mut LineRecord)) {
        let index = self
            .record
            .with_untracked(|record| record.as_ref().map(|it| it.0));
        let Some(index) = index else {
            return;
        };
        if let Err(said) = self.open_book.change_record(index, change) {
            self.bench.say(said);
        }
    }

    /// Adds a record of a line of the plan on the bench to the book, unless one is in progress. From then on the drawing names
    /// that workshop.
    pub(crate) fn begin(self) {
        if self.record.with_untracked(Option::is_some) {
            return;
        }
        let bench = self.bench;
        if untrack(|| bench.number()).is_none() {
            bench.keep();
        }
        let Some(number) = untrack(|| bench.number()) else {
            return;
        };
        let book = self
            .open_book
            .workshop
            .with_untracked(|workshop| workshop.title().to_owned());
        let home = bench
            .settled
            .with_untracked(|design| design.draft().workshop.clone());
        if home != book {
            self.open_book
                .press(|workshop| workshop.name.clone_from(&book));
            bench.commit_or_say(Edit::Workshop(book));
        }
        let design = bench.settled.get_untracked();
        let mut record = LineRecord::new(design.title().to_owned(), Frozen::of(&design));
        record.line = Some(number);
        self.open_book
            .press(|workshop| workshop.records.push(record));
    }

    /// Stretches timed of the other lines of the workshop, the latest.
    pub(crate) fn earlier_timed(self) -> Vec<Timed> {
        let own = self
            .record
            .with(|record| record.as_ref().map(|(index, _)| *index));
        self.open_book.workshop.with(|workshop| workshop.timed(own))
    }

    /// Ends the line and adds another record of the same plan: from now on that one is in progress.
    pub(crate) fn begin_another(self) {
        let Some((index, record)) = self.record.get_untracked() else {
            return;
        };
        let mut next = LineRecord::new(record.name, record.design);
        next.line = record.line;
        self.open_book.press(|workshop| {
            workshop.records[index].line = None;
            workshop.records.push(next);
        });
    }

    /// What went wrong with storing the book, if anything did.
    pub(crate) fn trouble(self) -> Option<String> {
        self.open_book.trouble.get()
    }

    /// Ends the line: the next one gets a record of its own.
    pub(crate) fn end(self) {
        self.change(|record| record.line = None);
    }
}
