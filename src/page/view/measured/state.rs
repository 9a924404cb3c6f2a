//! The measured line that is open on the page, what is found in it, and the only way it changes.

use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;

use crate::base::units::text::Unit;
use crate::keep::share::readings::{self, AskedUnits, ReadTable};
use crate::keep::share::{link, measured_file};
use crate::keep::shelf::{Keeping, Kept, Lookup, News, SeenRevision, ShelfEntry, concerns};
use crate::measured::{FoundTaper, MadeOf, MeasuredEdit, MeasuredLine};
use crate::page::browser::{address, rescue};
use crate::page::view::bench::{Bench, keep, shelf};
use crate::page::view::sheet_kind::SheetKind;
use crate::page::view::window_events::on_window;

/// Most states that can be gone back to.
const MOST_PAST: usize = 50;

/// A table that was read last, so that it can be read again in other units.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TableReport {
    /// The line before it.
    before: MeasuredLine,
    /// The table.
    text: String,
    /// How it was read.
    pub(super) table: ReadTable,
}

/// The open measured line.
#[derive(Clone, Copy)]
pub(crate) struct OpenMeasured {
    bench: Bench,
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
    number: RwSignal<Option<u32>>,
    past: RwSignal<Vec<MeasuredLine>>,
    seen: StoredValue<Option<SeenRevision>>,
    is_kept: StoredValue<bool>,
    /// The fragment of the link shown last.
    taken: StoredValue<String>,
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

    fn show(self, line: MeasuredLine, seen: Option<SeenRevision>) {
        self.past.set(Vec::new());
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
    fn may_leave(self) -> bool {
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

    /// Opens a file: that of a measured line, or a table of readings; `None` where it is too large.
    pub(crate) fn take_file(self, text: Option<String>) {
        let Some(text) = text else {
            let error = measured_file::MeasuredFileError::TooLarge;
            return self.bench.say(error.to_string());
        };
        if text
            .trim_start_matches('\u{feff}')
            .trim_start()
            .starts_with('{')
        {
            match measured_file::read(&text) {
                Ok(line) => self.take_in(line),
                Err(error) => self.bench.say(error.to_string()),
            }
            return;
        }
        let is_empty = self.bench.sheet.get_untracked() == Some(SheetKind::Measured)
            && self
                .line
                .with_untracked(|line| line.draft().readings.is_empty());
        if !is_empty && !self.may_leave() {
            return;
        }
        let before = if is_empty {
            self.line.get_untracked()
        } else {
            MeasuredLine::new()
        };
        // What is no table opens nothing and leaves the open line as it is.
        let table = readings::read(&text, &self.read_as(None, None));
        let added = table.map_err(|error| error.to_string()).and_then(|table| {
            let line = table.edit().apply(&before);
            Ok((line.map_err(|refusal| refusal.to_string())?, table))
        });
        match added {
            Err(said) => self.bench.say(said),
            Ok((line, table)) => {
                if !is_empty {
                    address::forget_measured();
                    self.show(before.clone(), None);
                }
                self.put(line);
                self.report.set(Some(TableReport {
                    before,
                    text,
                    table,
                }));
            }
        }
    }

    /// Adds the readings of a table that was pasted.
    ///
    /// # Errors
    /// Why there are none in it.
    pub(super) fn paste(self, text: String) -> Result<(), String> {
        let table = readings::read(&text, &self.read_as(None, None));
        self.add_table(text, table.map_err(|error| error.to_string())?)
    }

    /// Reads the last table again, in other units.
    pub(super) fn read_again(self, place: Unit, diameter: Unit) {
        let Some(report) = self.report.get_untracked() else {
            return;
        };
        let read = readings::read(&report.text, &self.read_as(Some(place), Some(diameter)));
        let outcome = read.map_err(|error| error.to_string()).and_then(|table| {
            // The readings of the first time are replaced, as one step to undo.
            let line = table.edit().apply(&report.before);
            let line = line.map_err(|refusal| refusal.to_string())?;
            self.put(line);
            self.report.set(Some(TableReport { table, ..report }));
            Ok(())
        });
        if let Err(said) = outcome {
            self.trouble.set(Some(said));
        }
    }

    fn read_as(self, place: Option<Unit>, diameter: Option<Unit>) -> AskedUnits {
        AskedUnits {
            place,
            diameter,
            system: self.bench.units.get_untracked(),
        }
    }

    fn add_table(self, text: String, table: ReadTable) -> Result<(), String> {
        let before = self.line.get_untracked();
        self.change(table.edit())?;
        self.report.set(Some(TableReport {
            before,
            text,
            table,
        }));
        Ok(())
    }

    /// Changes the line, and saves it; where that is not possible says why and leaves it as it was.
    ///
    /// # Errors
    /// What is not possible.
    pub(super) fn change(self, edit: MeasuredEdit) -> Result<(), String> {
        let after = self.line.with_untracked(|line| edit.apply(line));
        self.put(after.map_err(|refusal| refusal.to_string())?);
        Ok(())
    }

    /// Changes the line by a button: what is not possible is said at its head.
    pub(super) fn press(self, edit: MeasuredEdit) {
        if let Err(said) = self.change(edit) {
            self.trouble.set(Some(said));
        }
    }

    fn put(self, after: MeasuredLine) {
        let before = self.line.get_untracked();
        if after == before {
            return;
        }
        // Units can be chosen again only while nothing else was changed since.
        self.report.set(None);
        // A hand at the slider makes one step to undo.
        let is_only_closer = |one: &MeasuredLine, other: &MeasuredLine| {
            let edit = || MeasuredEdit::Closeness(0);
            edit().apply(one) == edit().apply(other)
        };
        self.past.update(|past| {
            let last = past.last();
            if last.is_some_and(|last| is_only_closer(last, &before))
                && is_only_closer(&before, &after)
            {
                return;
            }
            past.push(before);
            if past.len() > MOST_PAST {
                past.remove(0);
            }
        });
        self.line.set(after);
        self.keep();
    }

    /// Notes that the line was saved as a file: another one may be opened then.
    pub(super) fn filed(self) {
        if !self.is_kept.get_value() {
            self.is_kept.set_value(true);
            rescue::let_go::<MeasuredLine>();
        }
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
            self.report.set(None);
            self.line.set(before);
            self.keep();
        }
    }

    /// Saves the line. Where another tab changed it meanwhile, this one becomes a copy beside it.
    pub(super) fn keep(self) {
        let seen = self.seen.get_value();
        let kept = self.line.with_untracked(|line| keep(seen.as_ref(), line));
        self.is_kept.set_value(kept.is_ok());
        match kept {
            Ok(Keeping { kept, parted }) => {
                if self.is_preview.get_untracked() {
                    self.is_preview.set(false);
                    address::forget_measured();
                }
                self.trouble.set(None);
                self.number.set(Some(kept.seen.number()));
                self.seen.set_value(Some(kept.seen));
                if let Some(parted) = parted {
                    self.line.set(kept.work);
                    self.trouble.set(Some(parted.words::<MeasuredLine>()));
                }
            }
            Err(error) => self.trouble.set(Some(error.to_string())),
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

    /// Another tab wrote something: the line follows, as long as all that was changed here is saved.
    fn hear(self, key: Option<&str>) {
        let Some(seen) = self.seen.get_value().filter(|_| concerns(key)) else {
            return;
        };
        let news = shelf().and_then(|shelf| shelf.news::<MeasuredLine>(&seen));
        match news {
            Ok(News::Changed(kept) | News::Moved(kept)) if self.is_kept.get_value() => {
                self.follow(*kept);
            }
            Ok(News::Binned) => self.trouble.set(Some(
                "Another tab moved this measured line to the bin. It is restored when you change it here.".to_owned(),
            )),
            Ok(News::Newer) => self.lose_place(
                "A newer version of this page changed this measured line in another tab. Reload the page before you continue.",
            ),
            Ok(News::Gone) => self.lose_place(
                "Another tab deleted this measured line. To save what you see, change it or save it as a file.",
            ),
            _ => {}
        }
    }

    /// What is seen here is saved nowhere any more.
    fn lose_place(self, words: &str) {
        if let Some(seen) = self.seen.get_value() {
            self.line
                .with_untracked(|line| rescue::hold(seen.id(), line));
        }
        self.is_kept.set_value(false);
        self.trouble.set(Some(words.to_owned()));
    }

    fn follow(self, kept: Kept<MeasuredLine>) {
        self.past.set(Vec::new());
        self.report.set(None);
        self.number.set(Some(kept.seen.number()));
        self.seen.set_value(Some(kept.seen));
        self.line.set(kept.work);
        self.trouble.set(Some(
            "Another tab changed this measured line. You see it as it is now.".to_owned(),
        ));
    }
}
