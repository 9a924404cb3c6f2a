//! What the sheet shows of the shelf, and what it does to it. The shelf is read again after every action.

use leptos::prelude::*;

use super::stored_work::{OpenWork, StoredWork};
use crate::design::Design;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::shelf::{
    Keeping, Lookup, Reminder, SeenRevision, Shelf, ShelfEntry, StoreError, UnreadableText,
    concerns,
};
use crate::measured::MeasuredLine;
use crate::page::browser::storage::{LocalStore, fresh_id};
use crate::page::browser::{clock, persistence};
use crate::page::view::bench::{Bench, keep, look, settle_all, shelf};
use crate::page::view::book::OpenBook;
use crate::page::view::measured::open_measured;
use crate::page::view::places::places;
use crate::page::view::window_events::on_window;
use leptos::task::spawn_local;

/// What was done, and how it is taken back.
#[derive(Clone)]
pub(super) struct ActionReport {
    pub(super) words: String,
    pub(super) back: Option<UndoDelete>,
}

/// How to restore work that was just put into the bin. It outlives the row it came from.
#[derive(Clone, Copy)]
pub(super) struct UndoDelete {
    number: u32,
    was_open: bool,
    restore: fn(ShelfView, u32, bool),
}

impl UndoDelete {
    /// Takes it back.
    pub(super) fn take(self, shelf_view: ShelfView) {
        (self.restore)(shelf_view, self.number, self.was_open);
    }
}

/// The state of the sheet.
#[derive(Clone, Copy)]
pub(super) struct ShelfView {
    /// The bench and the book of this page. They are large, and this state has to be light enough to pass around.
    page: StoredValue<OpenWork>,
    /// Lines, also those in the bin.
    pub(super) lines: RwSignal<Vec<ShelfEntry>>,
    /// Workshops, also those in the bin.
    pub(super) books: RwSignal<Vec<ShelfEntry>>,
    /// Measured lines, also those in the bin.
    pub(super) measured: RwSignal<Vec<ShelfEntry>>,
    /// Texts that cannot be read. Looked for once the rest is on screen.
    pub(super) strange: RwSignal<Vec<UnreadableText>>,
    /// When everything was last saved as a file.
    pub(super) reminder: RwSignal<Option<Reminder>>,
    /// Whether the browser promised not to clear the storage away; nothing where it does not say.
    pub(super) lasts: RwSignal<Option<bool>>,
    /// What was done last.
    pub(super) told: RwSignal<Option<ActionReport>>,
}

/// The state of the sheet, for its parts.
pub(super) fn shelf_view() -> ShelfView {
    expect_context::<ShelfView>()
}

impl ShelfView {
    pub(super) fn open(bench: Bench, open_book: OpenBook) -> Self {
        let shelf_view = Self {
            page: StoredValue::new(OpenWork {
                bench,
                book: open_book,
                measured: open_measured(),
                places: places(),
            }),
            lines: RwSignal::new(Vec::new()),
            books: RwSignal::new(Vec::new()),
            measured: RwSignal::new(Vec::new()),
            strange: RwSignal::new(Vec::new()),
            reminder: RwSignal::new(None),
            lasts: RwSignal::new(None),
            told: RwSignal::new(None),
        };
        shelf_view.read();
        if shelf_view.settle() {
            shelf_view.read();
        }
        on_window(leptos::ev::storage, move |event| {
            if concerns(event.key().as_deref()) {
                shelf_view.read();
            }
        });
        spawn_local(async move {
            let lasts = persistence::is_granted().await;
            // The sheet may be closed by then.
            shelf_view.lasts.try_set(lasts);
        });
        shelf_view
    }

    /// The work open on this page.
    pub(super) fn page(self) -> OpenWork {
        self.page.get_value()
    }

    /// The bench of this page.
    pub(super) fn bench(self) -> Bench {
        self.page().bench
    }

    /// The bench book of this page.
    pub(super) fn open_book(self) -> OpenBook {
        self.page().book
    }

    /// Takes apart what two tabs wrote under one number; whether there was any.
    fn settle(self) -> bool {
        let of = |entries: RwSignal<Vec<ShelfEntry>>| entries.get_untracked();
        let (lines, books, measured) = (of(self.lines), of(self.books), of(self.measured));
        settle_all::<Design>(&lines);
        settle_all::<Workshop>(&books);
        settle_all::<MeasuredLine>(&measured);
        let mut all = lines.iter().chain(&books).chain(&measured);
        all.any(|entry| entry.is_tangled)
    }

    /// Reads the shelf again.
    pub(super) fn read(self) {
        let read = || {
            let shelf = shelf()?;
            self.lines.set(shelf.list::<Design>()?);
            self.books.set(shelf.list::<Workshop>()?);
            self.measured.set(shelf.list::<MeasuredLine>()?);
            self.reminder.set(Some(shelf.reminder(clock::today())?));
            Ok::<(), StoreError>(())
        };
        if let Err(error) = read() {
            self.tell(error.to_string());
        }
        // Lists first; what looks at every text comes after they are seen.
        set_timeout(move || self.read_strange(), core::time::Duration::ZERO);
    }

    fn read_strange(self) {
        let read = || {
            let shelf = shelf()?;
            let mut strange = shelf.strange::<Design>()?;
            strange.extend(shelf.strange::<Workshop>()?);
            strange.extend(shelf.strange::<MeasuredLine>()?);
            strange.extend(shelf.laid_aside()?);
            Ok::<_, StoreError>(strange)
        };
        if let Ok(found) = read()
            && self.strange.try_with_untracked(|before| *before != found) == Some(true)
        {
            self.strange.set(found);
        }
    }

    /// Says what was done.
    pub(super) fn tell(self, words: impl Into<String>) {
        let words = words.into();
        self.told.set(Some(ActionReport { words, back: None }));
    }

    /// Changes the shelf, and reads it again; where the browser refuses, says so.
    fn change_shelf<R>(
        self,
        change_shelf: impl FnOnce(&mut Shelf<LocalStore>) -> Result<R, StoreError>,
    ) -> Option<R> {
        let done = shelf().and_then(|mut shelf| change_shelf(&mut shelf));
        self.read();
        done.inspect_err(|error| self.tell(format!("{error} Nothing was changed.")))
            .ok()
    }

    /// Puts work into the bin. Another is opened in place of the open one.
    pub(super) fn bin<T: StoredWork>(self, seen: SeenRevision, title: &str) {
        let number = seen.number();
        let was_open = T::is_open(&self.page(), number);
        if was_open && !T::may_go(&self.page()) {
            return self.tell(
                "What you see is not saved anywhere. Save it as a file first, then delete it.",
            );
        }
        match self.change_shelf(|shelf| shelf.delete::<T>(&seen, clock::today())) {
            Some(true) => {
                if was_open {
                    T::put_away(&self.page());
                }
                self.told.set(Some(ActionReport {
                    words: format!("“{title}” is in the bin."),
                    back: Some(UndoDelete {
                        number,
                        was_open,
                        restore: Self::restore::<T>,
                    }),
                }));
            }
            Some(false) => self.tell(format!(
                "Another tab has changed “{title}”. It was not deleted."
            )),
            None => {}
        }
    }

    /// Takes work out of the bin, and opens it where it was open before.
    pub(super) fn restore<T: StoredWork>(self, number: u32, is_opened: bool) {
        if self
            .change_shelf(|shelf| shelf.restore::<T>(number))
            .is_some()
        {
            self.told.set(None);
            if is_opened {
                let sheet = self.bench().sheet.get_untracked();
                T::open(&self.page(), number);
                self.bench().sheet.set(sheet);
            }
        }
    }

    /// Deletes for good what is in the bin.
    pub(super) fn empty_bin(
        self,
        lines: &[SeenRevision],
        books: &[SeenRevision],
        measured: &[SeenRevision],
    ) {
        let emptied = self.change_shelf(|shelf| {
            let lines = shelf.empty_bin::<Design>(lines)?;
            let books = shelf.empty_bin::<Workshop>(books)?;
            Ok(lines + books + shelf.empty_bin::<MeasuredLine>(measured)?)
        });
        if let Some(count) = emptied {
            self.tell(format!("{count} permanently deleted."));
        }
    }

    /// Deletes a text that cannot be read.
    pub(super) fn discard(self, strange: &UnreadableText) {
        if self.change_shelf(|shelf| shelf.discard(strange)).is_some() {
            self.tell("Permanently deleted.");
        }
    }

    /// Stores a copy of work beside it.
    pub(super) fn copy<T: StoredWork>(self, number: u32) {
        let copied = shelf().and_then(|mut shelf| {
            let Lookup::Kept(kept) = shelf.look::<T>(number) else {
                return Err(StoreError::NotKept);
            };
            let copy = shelf.duplicate(&kept.work, fresh_id(), clock::today());
            copy.map_err(|unkept| unkept.why)
        });
        self.read();
        match copied {
            Ok(kept) => self.tell(format!("“{}” is saved.", kept.work.name())),
            Err(error) => self.tell(format!("{error} No copy was made.")),
        }
    }

    /// Gives a line another name; the open one by the same edit as in the head of the page.
    pub(super) fn rename(self, number: u32, name: String) -> Result<(), String> {
        let edit = Edit::Name(name);
        if Design::is_open(&self.page(), number) {
            self.bench().commit(edit)?;
        } else {
            let Lookup::Kept(kept) = look(number) else {
                return Err("It can no longer be read.".to_owned());
            };
            let design = edit.apply(&kept.work).map_err(|why| why.to_string())?;
            let Keeping { parted, .. } =
                keep(Some(&kept.seen), &design).map_err(|error| error.why.to_string())?;
            if let Some(parted) = parted {
                self.tell(parted.words::<Design>());
            }
        }
        self.read();
        Ok(())
    }
}
