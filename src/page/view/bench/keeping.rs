//! Storing the line, and following other tabs that store it too.

use leptos::prelude::*;

use super::opening::{Message, Opening, StorageState, note_open, settle, shelf};
use super::state::{Bench, BenchState};
use crate::design::Design;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::shelf::{
    Document, Keeping, Kept, LineNumber, News, Parted, SeenRevision, Unkept, concerns, number_in,
};
use crate::measured::MeasuredLine;
use crate::page::browser::storage::fresh_id;
use crate::page::browser::{address, clock, persistence, rescue, text_input};

impl Bench {
    /// Which stored state of the line is on the bench.
    pub(super) fn seen(self) -> Option<SeenRevision> {
        self.state.with_value(|state| state.saved.seen)
    }

    pub(super) fn set_seen(self, seen: Option<SeenRevision>) {
        self.state.update_value(|state| state.saved.seen = seen);
    }

    /// Stores the settled design. A preview that is changed becomes a line of its own, beside the others.
    pub(crate) fn keep(self) {
        let seen = self.seen();
        address::forget_design();
        match self
            .settled
            .with_untracked(|design| keep(seen.as_ref(), design))
        {
            Ok(Keeping { kept, parted }) => {
                let number = kept.seen.number();
                self.set_seen(Some(kept.seen));
                if let Some(parted) = parted {
                    self.take_name(kept.work.draft().name.clone(), parted);
                }
                if self.storage_state.get_untracked() != StorageState::Kept(number) {
                    self.storage_state.set(StorageState::Kept(number));
                    self.spoken.set("Saved in this browser.");
                }
                note_open(number);
                self.note_failed(false);
                self.keep_steps(number);
                self.carry_wound(seen.as_ref());
                persistence::request();
            }
            Err(error) => {
                let number = seen.map(|seen| seen.number());
                self.storage_state.set(StorageState::Unkept {
                    number,
                    filed: false,
                });
                self.note_failed(true);
                self.message
                    .set(Some(Message::of_unkept(error.to_string())));
            }
        }
    }

    /// Notes whether the last change could not be stored. A message about that disappears with the next change that is stored.
    fn note_failed(self, failed: bool) {
        self.state.update_value(|state| state.saved.failed = failed);
        let is_said = |message: &Option<Message>| message.as_ref().is_some_and(|it| it.is_unkept);
        if !failed && self.message.with_untracked(is_said) {
            self.message.set(None);
        }
    }

    /// The page is hidden, perhaps for good: what is being typed is taken as entered, and what could not be stored is tried
    /// again.
    pub(super) fn hide(self) {
        text_input::commit_focused();
        if self.state.with_value(|state| state.saved.failed) {
            self.keep();
        }
    }

    /// Saves everything as one file, and says whether that worked.
    pub(crate) fn export(self) {
        self.say(if self.save_everything() {
            "Backup saved. You can restore it under “My lines”.".to_owned()
        } else {
            "The browser did not save the file.".to_owned()
        });
    }

    /// Saves everything as one file: what is stored here, and this line too where it is not. Whether the browser took it.
    pub(crate) fn save_everything(self) -> bool {
        if matches!(
            self.storage_state.get_untracked(),
            StorageState::Unkept { .. }
        ) {
            self.hold();
        }
        let is_saved = rescue::export();
        if is_saved {
            self.filed();
            rescue::let_go::<Workshop>();
            rescue::let_go::<MeasuredLine>();
        }
        is_saved
    }

    /// Hands the line to where it survives a crash.
    fn hold(self) {
        let id = self.seen().map_or_else(fresh_id, |seen| seen.id());
        self.settled
            .with_untracked(|design| rescue::hold(id, design));
    }

    /// The line was stored as a copy under another name, which it has from now on.
    fn take_name(self, name: String, parted: Parted) {
        self.state.update_value(|BenchState { sketch, .. }| {
            // The shelf made the name and has read it back: a line can have it.
            let _ = sketch.try_out(Edit::Name(name));
            sketch.settle();
        });
        self.show_sketch();
        self.say(parted.words::<Design>());
    }

    /// Stores what can be undone. Where there is no room that is said once: it is a convenience, and the line itself is stored.
    fn keep_steps(self, number: LineNumber) {
        let kept = self
            .state
            .with_value(|BenchState { sketch, .. }| shelf()?.keep_steps(number, sketch));
        if kept.is_err() && !self.state.with_value(|state| state.saved.steps_missed) {
            self.state
                .update_value(|state| state.saved.steps_missed = true);
            self.say(
                "The line is saved, but your last change cannot be undone after a reload: the browser’s storage is full."
                    .to_owned(),
            );
        }
    }

    /// Another tab wrote something. A line without unfinished changes follows it; an unfinished change stays on the bench, and
    /// is stored beside the other's once it is finished.
    pub(super) fn hear(self, key: Option<&str>) {
        self.hear_wound(key);
        if !concerns(key) {
            return;
        }
        if let Some(number) = key.and_then(number_in::<Design>) {
            settle::<Design>(number);
        }
        self.catch_up();
    }

    /// Follows what other tabs did to the line, unless a change is under way.
    pub(super) fn catch_up(self) {
        let is_clean = matches!(self.storage_state.get_untracked(), StorageState::Kept(_));
        let is_drawing = self.drag.with_untracked(Option::is_some);
        let Some(seen) = self.seen().filter(|_| is_clean && !is_drawing) else {
            return;
        };
        match shelf().and_then(|shelf| shelf.news::<Design>(&seen)) {
            Ok(News::Same) | Err(_) => {}
            Ok(News::Changed(kept)) => self.follow_other(
                *kept,
                "Another tab changed this line. You now see that version.",
            ),
            Ok(News::Moved(kept)) => self.follow_other(
                *kept,
                "Another tab changed this line at the same moment. Your version is saved as a copy.",
            ),
            Ok(News::Binned) => self.say(
                "Another tab moved this line to the bin. It is restored when you change it here.".to_owned(),
            ),
            Ok(News::Newer) => self.lose_place(
                "A newer version of this page changed this line in another tab. Reload the page before you continue. Changes you make here are saved as a copy.",
            ),
            Ok(News::Gone) => self.lose_place(
                "This line is no longer saved in this browser: another tab deleted it. To save what you see, change it or save it as a file.",
            ),
        }
    }

    fn follow_other(self, kept: Kept<Design>, words: &str) {
        let Opening {
            sketch,
            storage_state,
            seen,
            ..
        } = Opening::kept(kept, None);
        let before = self.seen();
        self.set_seen(seen);
        self.carry_wound(before.as_ref());
        self.state.update_value(|state| state.sketch = sketch);
        self.held.set(None);
        self.show_sketch();
        self.hold_chosen();
        self.bring_into_sight();
        if self.storage_state.get_untracked() != storage_state {
            self.storage_state.set(storage_state);
        }
        self.say(words.to_owned());
    }

    fn lose_place(self, words: &str) {
        let number = self.seen().map(|seen| seen.number());
        self.storage_state.set(StorageState::Unkept {
            number,
            filed: false,
        });
        self.hold();
        self.say(words.to_owned());
    }
}

/// Stores work as the successor of the state last seen, or as new work.
pub(crate) fn keep<T: Document>(
    seen: Option<&SeenRevision>,
    work: &T,
) -> Result<Keeping<T>, Unkept> {
    let kept = kept(seen, work);
    if kept.is_ok() {
        rescue::let_go::<T>();
    } else {
        rescue::hold(seen.map_or_else(fresh_id, SeenRevision::id), work);
    }
    kept
}

fn kept<T: Document>(seen: Option<&SeenRevision>, work: &T) -> Result<Keeping<T>, Unkept> {
    let today = clock::today();
    let what = T::WORD;
    let mut shelf = shelf().map_err(|why| Unkept { what, why })?;
    if let Some(seen) = seen {
        return shelf.keep(seen, work, today);
    }
    let kept = shelf.keep_new(fresh_id(), work, today)?;
    Ok(Keeping { kept, parted: None })
}
