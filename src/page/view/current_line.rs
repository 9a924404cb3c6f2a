//! The line being made: the newest record in the bench book of the drawing on the bench.

use leptos::prelude::*;

use super::bench::Bench;
use super::book::OpenBook;
use crate::edit::Edit;
use crate::keep::book::Frozen;
use crate::keep::book::record::LineRecord;

/// The line being made from the drawing on the bench.
#[derive(Clone, Copy)]
pub(crate) struct CurrentLine {
    bench: Bench,
    open_book: OpenBook,
    /// Its place in the book, and its record.
    pub(crate) record: Memo<Option<(usize, LineRecord)>>,
}

/// The line being made on this page.
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

    /// Writes a line of the plan on the bench into the book, unless one is being made already. From then on the drawing is at
    /// home in that book.
    pub(crate) fn begin(self) {
        if self.record.with_untracked(Option::is_some) {
            return;
        }
        let bench = self.bench;
        if bench.number_untracked().is_none() {
            bench.keep();
        }
        let Some(number) = bench.number_untracked() else {
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

    /// Lets the line go and writes another of the same plan into the book: from now on that is the one being made.
    pub(crate) fn begin_same(self) {
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

    /// What went wrong with keeping the book, if anything did.
    pub(crate) fn trouble(self) -> Option<String> {
        self.open_book.trouble.get()
    }

    /// The line made last is done with: the next one begins a record of its own.
    pub(crate) fn let_go(self) {
        self.change(|record| record.line = None);
    }
}
