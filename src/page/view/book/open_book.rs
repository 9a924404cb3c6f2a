//! The bench book that is open on the page: its workshop, what is learnt from it, and the only way it changes.

use leptos::ev;
use leptos::prelude::*;

use super::opened::Opened;
use crate::design::Design;
use crate::keep::book::doubt::Doubt;
use crate::keep::book::estimate::Estimate;
use crate::keep::book::record::LineRecord;
use crate::keep::book::swatch::Swatch;
use crate::keep::book::{MOST_RECORDS, MOST_SWATCHES, Source, Workshop};
use crate::keep::shelf::{
    Document as _, EntryStatus, Lookup, SeenRevision, ShelfEntry, StoreError, Unkept,
    WorkshopNumber,
};
use crate::page::view::bench::{Bench, settle_all, shelf};
use crate::page::view::window_events::on_window;

/// Most states of the book that can be gone back to.
const MOST_PAST: usize = 50;

/// A workshop to choose.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    /// Its number.
    pub(super) number: WorkshopNumber,
    /// Its title, or that it cannot be read.
    title: String,
    /// The same, and what tells it from others of its title.
    pub(super) words: String,
}

/// The open book.
#[derive(Clone, Copy)]
pub(crate) struct OpenBook {
    /// The workshop.
    pub(crate) workshop: RwSignal<Workshop>,
    /// Its number among the stored workshops, once it is stored.
    pub(crate) number: RwSignal<Option<WorkshopNumber>>,
    /// What is learnt from it; calculated only when read.
    pub(crate) estimate: Memo<Estimate>,
    /// Every workshop in this browser.
    pub(super) choices: RwSignal<Vec<Choice>>,
    /// What went wrong with keeping it.
    pub(crate) trouble: RwSignal<Option<String>>,
    past: RwSignal<Vec<Workshop>>,
    /// Its entries that are open.
    pub(super) opened: Opened,
    /// Which stored state was last seen.
    pub(super) seen: StoredValue<Option<SeenRevision>>,
    /// Whether the last change was kept.
    pub(super) is_kept: StoredValue<bool>,
}

/// The book of this page.
pub(crate) fn open_book() -> OpenBook {
    expect_context::<OpenBook>()
}

impl OpenBook {
    /// Opens the book of the workshop that the line on the bench names; else the first there is; else an empty one, which is
    /// stored once something is written in it.
    pub(crate) fn open(bench: Bench) -> Self {
        let design = bench.settled.get_untracked();
        let workshop = RwSignal::new(first_book(&design));
        let open_book = Self {
            workshop,
            number: RwSignal::new(None),
            estimate: Memo::new(move |_| workshop.with(Estimate::of)),
            choices: RwSignal::new(Vec::new()),
            trouble: RwSignal::new(None),
            past: RwSignal::new(Vec::new()),
            opened: Opened::none(),
            seen: StoredValue::new(None),
            is_kept: StoredValue::new(true),
        };
        settle_all::<Workshop>(&kept_books());
        open_book.follow_line(&design);
        on_window(ev::storage, move |event| {
            open_book.hear(event.key().as_deref());
        });
        on_window(ev::visibilitychange, move |_| open_book.try_again());
        // A line that names another workshop opens the book of that one.
        Effect::watch(
            move || bench.settled.with(|design| design.draft().workshop.clone()),
            move |_, _, _| open_book.follow_line(&bench.settled.get_untracked()),
            false,
        );
        open_book
    }

    /// Opens the book of the workshop that the line names. A line that names none uses the book that is open.
    fn follow_line(self, design: &Design) {
        let all = kept_books();
        let home = &design.draft().workshop;
        let is_home = |kept: &&ShelfEntry| kept.name.as_ref() == Some(home);
        let readable = |kept: &&ShelfEntry| kept.name.is_some();
        let at_home = all.iter().find(is_home).filter(|_| !home.is_empty());
        let found = match self.number.get_untracked() {
            Some(_) => at_home,
            // Where no book can be read, that is said.
            None => at_home
                .or_else(|| all.iter().find(readable))
                .or(all.first()),
        };
        let number = found.map(|kept| kept.number);
        if let Some(number) = number.filter(|_| number != self.number.get_untracked()) {
            self.choose(number);
        }
        self.list(&all);
    }

    /// Opens another book in place of a deleted one.
    pub(crate) fn replace_deleted(self, design: &Design) {
        self.past.set(Vec::new());
        self.number.set(None);
        self.seen.set_value(None);
        self.is_kept.set_value(true);
        self.workshop.set(first_book(design));
        self.follow_line(design);
    }

    /// Whether a book is the open one.
    pub(crate) fn is_open(self, number: WorkshopNumber) -> bool {
        self.number.get_untracked() == Some(number)
    }

    /// Whether another book may take its place without a loss.
    pub(crate) fn may_leave(self) -> bool {
        self.is_kept.get_value()
    }

    /// Reads the list of workshops again.
    pub(crate) fn refresh_list(self) {
        self.list(&kept_books());
    }

    pub(super) fn list(self, all: &[ShelfEntry]) {
        let is_shared =
            |title: &String| all.iter().filter(|kept| title_of(kept) == *title).count() > 1;
        let choice = |kept: &ShelfEntry| {
            let title = title_of(kept);
            // Two of one name are told apart by the day they were saved, and by their number.
            let day = kept.changed.filter(|_| is_shared(&title));
            let words = match day {
                Some(day) => format!("{title}, no. {}, saved {}", kept.number, day.with_year()),
                None => title.clone(),
            };
            Choice {
                number: kept.number,
                title,
                words,
            }
        };
        self.choices.set(all.iter().map(choice).collect());
    }

    /// Opens another workshop's book.
    pub(crate) fn choose(self, number: WorkshopNumber) {
        let found = shelf().map_or_else(Lookup::NoStorage, |shelf| shelf.look(number));
        match found {
            Lookup::Kept(kept) => {
                self.past.set(Vec::new());
                self.opened.clear();
                self.trouble.set(None);
                self.number.set(Some(number));
                self.seen.set_value(Some(kept.seen));
                self.is_kept.set_value(true);
                self.workshop.set(kept.work);
            }
            Lookup::Unreadable { why, .. } => self.tell(format!(
                "This workshop’s book cannot be read: {why} It is not changed."
            )),
            Lookup::Newer { .. } => self.tell(
                "A newer version of this page saved this workshop’s book. It is not changed. Reload the page to get that version.".to_owned(),
            ),
            Lookup::Nothing => self.tell("This workshop is no longer saved here.".to_owned()),
            Lookup::NoStorage(error) => self.tell(unkept(error)),
        }
    }

    /// Begins the book of another workshop, with the settings of a design.
    pub(super) fn begin(self, design: &Design) {
        let mut names = (1_u32..).map(|count| format!("Workshop {count}"));
        let name = names.find(|name| !self.is_taken(name));
        self.open_new(Workshop::new(name.unwrap_or_default(), design));
    }

    /// Opens a book from a file, stored beside the others; where its name is taken it gets another.
    pub(crate) fn take_in(self, mut workshop: Workshop) {
        let title = workshop.title().to_owned();
        let mut names = core::iter::once(title.clone())
            .chain((2_u32..).map(|count| format!("{title}, {count}")));
        workshop.name = names.find(|name| !self.is_taken(name)).unwrap_or(title);
        self.open_new(workshop);
    }

    fn is_taken(self, name: &str) -> bool {
        self.choices
            .with_untracked(|choices| choices.iter().any(|choice| choice.title == name))
    }

    fn open_new(self, workshop: Workshop) {
        self.past.set(Vec::new());
        self.opened.clear();
        self.number.set(None);
        self.seen.set_value(None);
        self.workshop.set(workshop);
        self.keep();
    }

    /// Shows a message at the head of the book.
    pub(super) fn tell(self, said: String) {
        self.trouble.set(Some(said));
    }

    /// Changes the book, and keeps it; where that would not fit a book, says why and leaves it as it was.
    ///
    /// # Errors
    /// What does not fit.
    pub(crate) fn change(self, change: impl FnOnce(&mut Workshop)) -> Result<(), String> {
        let before = self.workshop.get_untracked();
        let mut after = before.clone();
        change(&mut after);
        let after = after.admitted().map_err(|error| error.to_string())?;
        if after == before {
            return Ok(());
        }
        self.past.update(|past| {
            past.push(before);
            if past.len() > MOST_PAST {
                past.remove(0);
            }
        });
        self.workshop.set(after);
        self.keep();
        Ok(())
    }

    /// Changes the book by a button: what does not fit is said at the head of the book.
    pub(crate) fn press(self, change: impl FnOnce(&mut Workshop)) {
        if let Err(said) = self.change(change) {
            self.trouble.set(Some(said));
        }
    }

    /// Whether the last change can be taken back.
    pub(super) fn can_undo(self) -> bool {
        self.past.with(|past| !past.is_empty())
    }

    /// What was done before another tab's change cannot be taken back.
    pub(super) fn forget_past(self) {
        self.past.set(Vec::new());
    }

    /// Takes the last change back.
    pub(super) fn undo(self) {
        let mut before = None;
        self.past.update(|past| before = past.pop());
        if let Some(before) = before {
            self.workshop.set(before);
            self.keep();
        }
    }

    /// Changes a swatch, if there is one of this index.
    pub(crate) fn change_swatch(
        self,
        index: usize,
        change: impl FnOnce(&mut Swatch),
    ) -> Result<(), String> {
        self.change(|workshop| {
            if let Some(swatch) = workshop.swatches.get_mut(index) {
                change(swatch);
            }
        })
    }

    /// Changes the record of a line, if there is one of this index.
    pub(crate) fn change_record(
        self,
        index: usize,
        change: impl FnOnce(&mut LineRecord),
    ) -> Result<(), String> {
        self.change(|workshop| {
            if let Some(record) = workshop.records.get_mut(index) {
                change(record);
            }
        })
    }

    /// The question that a number raises, if any.
    pub(super) fn doubt(self, source: Source) -> Option<Doubt> {
        let estimate = self.estimate.read();
        let mut doubts = estimate.doubts.iter();
        doubts.find(|doubt| doubt.source == source).copied()
    }

    /// How many questions the numbers of an entry raise.
    pub(super) fn questions(self, is_of_entry: impl Fn(Source) -> bool) -> usize {
        let estimate = self.estimate.read();
        let doubts = estimate.doubts.iter();
        doubts.filter(|doubt| is_of_entry(doubt.source)).count()
    }

    /// Whether there is room for another swatch.
    pub(crate) fn has_room_for_swatch(self) -> bool {
        self.workshop
            .with(|workshop| workshop.swatches.len() < MOST_SWATCHES)
    }

    /// Whether there is room for another line.
    pub(crate) fn has_room_for_line(self) -> bool {
        self.workshop
            .with(|workshop| workshop.records.len() < MOST_RECORDS)
    }
}

/// Workshops in this browser, to choose from: those in the bin are not.
pub(crate) fn kept_books() -> Vec<ShelfEntry> {
    let books = shelf().and_then(|shelf| shelf.list::<Workshop>());
    let mut books = books.unwrap_or_default();
    books.retain(|book| !book.is_binned);
    books
}

fn title_of(kept: &ShelfEntry) -> String {
    match (kept.title::<Workshop>(), kept.status) {
        (Some(title), _) => title.to_owned(),
        (None, EntryStatus::Newer) => format!("Workshop {}, of a newer version", kept.number),
        (None, _) => format!("Workshop {}, unreadable", kept.number),
    }
}

fn unkept(why: StoreError) -> String {
    let what = Workshop::WORD;
    Unkept { what, why }.to_string()
}

/// The book a page begins with that has none.
fn first_book(design: &Design) -> Workshop {
    let home = design.draft().workshop.clone();
    let name = if home.is_empty() {
        "My workshop".to_owned()
    } else {
        home
    };
    Workshop::new(name, design)
}
