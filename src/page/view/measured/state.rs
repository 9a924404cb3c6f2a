//! The measured line that is open on the page, what is found in it, and the only way it changes.

use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;

use crate::keep::share::link;
use crate::keep::share::readings::ReadTable;
use crate::keep::shelf::{Lookup, SeenRevision, ShelfEntry};
use crate::measured::{FoundTaper, MadeOf, MeasuredEdit, MeasuredLine};
use crate::page::browser::address;
use crate::page::view::bench::{Bench, shelf};
use crate::page::view::sheet_kind::SheetKind;
use crate::page::view::window_events::on_window;

/// Most states that can be gone back to.
const MOST_PAST: usize = 50;

/// A table that was read last, so that it can be read again in other units.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TableReport {
    /// The line before it.
    pub(super) before: MeasuredLine,
    /// The table.
    pub(super) text: String,
    /// How it was read.
    pub(super) table: ReadTable,
}

/// The open measured line.
#[derive(Clone, Copy)]
pub(crate) struct OpenMeasured {
    pub(super) bench: Bench,
    /// The line.
    pub(super) line: RwSignal<MeasuredLine>,
    /// The taper in its readings; `None` with fewer than two places.
    pub(super) found: Memo<Option<Arc<FoundTaper>>>,
    /// What size and weight say about it.
    pub(super) made_of: Memo<Option<Arc<MadeOf>>>,
    /// The table read last.
    pub(super) report: RwSignal<Option<TableReport>>,
    /// Whether it came by link and is not saved here.
    pub(super) is_preview: RwSignal<bool>,
    /// What went wrong with saving it.
    pub(super) trouble: RwSignal<Option<String>>,
    /// Its number among the stored ones, once it is stored.
    pub(super) number: RwSignal<Option<u32>>,
    pub(super) past: RwSignal<Vec<MeasuredLine>>,
    pub(super) seen: StoredValue<Option<SeenRevision>>,
    pub(super) is_kept: StoredValue<bool>,
    /// The fragment of the link shown last.
    taken: StoredValue<String>,
    /// Whether the last change was one of the slider: a hand at it makes one step to undo.
    pub(super) is_sliding: StoredValue<bool>,
    /// How many lines were shown so far: the sheet is built again for each.
    pub(super) shown: RwSignal<u32>,
}

/// The measured line of this page.
pub(crate) fn open_measured() -> OpenMeasured {
    expect_context::<OpenMeasured>()
}

impl OpenMeasured {
    /// None yet, unless the address brings one.
    pub(crate) fn open(bench: Bench) -> Self {
        let line = RwSignal::new(MeasuredLine::new());
        let found = Memo::new(move |_| line.with(MeasuredLine::found).map(Arc::new));
        let open = Self {
            bench,
            line,
            found,
            made_of: Memo::new(move |_| {
                let taper = found.get()?.taper();
                line.with(|line| Some(Arc::new(line.made_of(&taper))))
            }),
            report: RwSignal::new(None),
            is_preview: RwSignal::new(false),
            trouble: RwSignal::new(None),
            number: RwSignal::new(None),
            past: RwSignal::new(Vec::new()),
            seen: StoredValue::new(None),
            is_kept: StoredValue::new(true),
            taken: StoredValue::new(String::new()),
            is_sliding: StoredValue::new(false),
            shown: RwSignal::new(0),
        };
        open.follow_address();
        on_window(ev::hashchange, move |_| open.follow_address());
        on_window(ev::storage, move |event| open.hear(event.key().as_deref()));
        open
    }

    /// Shows the line of a link in the address, once: the browser's history may come back to it.
    fn follow_address(self) {
        let fragment = address::fragment();
        if !address::carries_measured() || self.taken.get_value() == fragment {
            // Going back leads to an address whose line was kept meanwhile.
            if !self.is_preview.get_untracked() {
                address::forget_measured();
            }
            return;
        }
        self.taken.set_value(fragment.clone());
        match link::read(&fragment) {
            Some(Ok(link::Linked::Measured(line))) => self.look_at(*line),
            Some(Err(error)) => self.bench.say(error.to_string()),
            _ => {}
        }
    }

    pub(super) fn show(self, line: MeasuredLine, seen: Option<SeenRevision>) {
        self.past.set(Vec::new());
        self.is_sliding.set_value(false);
        self.report.set(None);
        self.trouble.set(None);
        self.number.set(seen.map(|seen| seen.number()));
        self.seen.set_value(seen);
        self.is_kept.set_value(true);
        self.is_preview.set(false);
        self.line.set(line);
        self.shown.update(|shown| *shown += 1);
        self.bench.sheet.set(Some(SheetKind::Measured));
    }

    /// Whether another line may be opened without a loss; where it may not, says so.
    pub(super) fn may_leave(self) -> bool {
        let may = self.is_kept.get_value();
        if !may {
            self.bench.say(
                "The open measured line is not saved anywhere. Save it as a file first.".to_owned(),
            );
            self.bench.sheet.set(Some(SheetKind::Measured));
        }
        may
    }

    /// Begins a line of which nothing is known yet. It is saved with its first reading.
    pub(crate) fn begin(self) {
        self.begin_named("");
    }

    fn begin_named(self, name: &str) {
        if self.may_leave() {
            address::forget_measured();
            let named = MeasuredEdit::Name(name.to_owned()).apply(&MeasuredLine::new());
            self.show(named.unwrap_or_default(), None);
        }
    }

    /// Opens the line of this name that was changed last, or begins one.
    pub(crate) fn open_named(self, name: &str) {
        let entries = shelf().and_then(|shelf| shelf.list::<MeasuredLine>());
        let is_it = |entry: &&ShelfEntry| !entry.is_binned && entry.name.as_deref() == Some(name);
        let entries = entries.unwrap_or_default();
        let found = entries
            .iter()
            .filter(is_it)
            .max_by_key(|entry| entry.changed);
        match found {
            Some(entry) => self.fetch(entry.number),
            None => self.begin_named(name),
        }
    }

    /// Whether the open line came by link and is not saved here.
    pub(crate) fn is_preview(self) -> bool {
        self.is_preview.get()
    }

    /// Shows the sheet with the line that is open.
    pub(crate) fn show_again(self) {
        self.bench.sheet.set(Some(SheetKind::Measured));
    }

    /// Opens a stored line.
    pub(crate) fn fetch(self, number: u32) {
        if untrack(|| self.is_open(number)) {
            return self.show_again();
        }
        if !self.may_leave() {
            return;
        }
        address::forget_measured();
        let found = shelf().map_or_else(Lookup::NoStorage, |shelf| shelf.look(number));
        match found {
            Lookup::Kept(kept) => self.show(kept.work, Some(kept.seen)),
            Lookup::Newer {
                work: Some(work), ..
            } => {
                self.show(*work, None);
                self.is_preview.set(true);
            }
            Lookup::Newer { .. } => self.bench.say(
                "A newer version of this page saved this measured line. Reload the page to open it.".to_owned(),
            ),
            Lookup::Unreadable { why, .. } => {
                self.bench.say(format!("This measured line cannot be read: {why}"));
            }
            Lookup::Nothing => self
                .bench
                .say("This measured line is no longer saved here.".to_owned()),
            Lookup::NoStorage(error) => self.bench.say(error.to_string()),
        }
    }

    /// Opens a line from a file as one of its own.
    pub(crate) fn take_in(self, line: MeasuredLine) {
        if self.may_leave() {
            address::forget_measured();
            self.show(line, None);
            self.keep();
        }
    }

    /// Shows a line that came by link as a preview.
    pub(crate) fn look_at(self, line: MeasuredLine) {
        if self.may_leave() {
            self.show(line, None);
            self.is_preview.set(true);
        }
    }

    /// Changes the line, and saves it; where that is not possible says why and leaves it as it was.
    ///
    /// # Errors
    /// What is not possible.
    pub(super) fn change(self, edit: MeasuredEdit) -> Result<(), String> {
        let is_slide = matches!(edit, MeasuredEdit::Closeness(_));
        let was_sliding = self.is_sliding.get_value();
        let after = self.line.with_untracked(|line| edit.apply(line));
        self.put(
            after.map_err(|refusal| refusal.to_string())?,
            is_slide && was_sliding,
        );
        self.is_sliding.set_value(is_slide);
        Ok(())
    }

    /// Changes the line by a button: what is not possible is said at its head.
    pub(super) fn press(self, edit: MeasuredEdit) {
        if let Err(said) = self.change(edit) {
            self.trouble.set(Some(said));
        }
    }

    /// Puts another state in the place of the line, and saves it. Where it goes on with the last step, both are one to undo.
    pub(super) fn put(self, after: MeasuredLine, goes_on: bool) {
        let before = self.line.get_untracked();
        if after == before {
            return;
        }
        // Units can be chosen again only while nothing else was changed since.
        self.report.set(None);
        if !goes_on {
            self.past.update(|past| {
                past.push(before);
                if past.len() > MOST_PAST {
                    past.remove(0);
                }
            });
        }
        self.line.set(after);
        self.keep();
    }

    /// Whether the last change can be undone.
    pub(super) fn can_undo(self) -> bool {
        self.past.with(|past| !past.is_empty())
    }

    /// Undoes the last change.
    pub(super) fn undo(self) {
        let mut before = None;
        self.past.update(|past| before = past.pop());
        if let Some(before) = before {
            self.is_sliding.set_value(false);
            self.report.set(None);
            self.line.set(before);
            self.keep();
        }
    }

    /// Where it is saved, in words.
    pub(super) fn standing(self) -> &'static str {
        if self.is_preview.get() {
            "From a link, not saved yet"
        } else if self.trouble.with(Option::is_some) && !self.is_kept.get_value() {
            "Not saved: save it as a file"
        } else if self.number.get().is_some() {
            "Saved in this browser"
        } else {
            "Saved with its first reading"
        }
    }

    /// Whether a stored line is the open one.
    pub(crate) fn is_open(self, number: u32) -> bool {
        self.number.get() == Some(number)
    }

    /// Whether the open line may be deleted without a loss.
    pub(crate) fn may_go(self) -> bool {
        self.is_kept.get_value()
    }

    /// Forgets the open line, which was deleted.
    pub(crate) fn put_away(self) {
        let sheet = self.bench.sheet.get_untracked();
        self.show(MeasuredLine::new(), None);
        self.bench.sheet.set(sheet);
    }
}
