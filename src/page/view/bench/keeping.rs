//! Keeping the line, and living with other tabs that keep it too.

use leptos::prelude::*;

use super::opening::{Message, Opening, StorageState, note_open, settle, shelf};
use super::state::{Bench, BenchState};
use crate::design::Design;
use crate::edit::Edit;
use crate::keep::book::Workshop;
use crate::keep::shelf::{
    Keeping, Kept, LineNumber, News, Parted, Seen, Unkept, Work, concerns, number_in,
};
use crate::page::browser::storage::fresh_id;
use crate::page::browser::{address, clock, persistence, rescue, text_input};

impl Bench {
    /// Which state of the kept line is on the bench.
    fn seen(self) -> Option<Seen> {
        self.state.with_value(|state| state.saved.seen)
    }

    pub(super) fn set_seen(self, seen: Option<Seen>) {
        self.state.update_value(|state| state.saved.seen = seen);
    }

    /// Keeps the settled design. A preview that is changed becomes a line of one's own, beside those there are.
    pub(crate) fn keep(self) {
        let seen = self.seen();
        address::forget_fragment();
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
                }
                note_open(number);
                self.note_failed(false);
                self.keep_steps(number);
                persistence::ask();
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

    /// Notes whether the last change could not be kept. What was said of one that could not goes with the next that is.
    fn note_failed(self, failed: bool) {
        self.state.update_value(|state| state.saved.failed = failed);
        let is_said = |message: &Option<Message>| message.as_ref().is_some_and(|it| it.is_unkept);
        if !failed && self.message.with_untracked(is_said) {
            self.message.set(None);
        }
    }

    /// The page goes out of sight, perhaps for good: what is being typed is taken as it stands, and what could not be kept is
    /// tried once more.
    pub(super) fn hide(self) {
        text_input::enter();
        if self.state.with_value(|state| state.saved.failed) {
            self.keep();
        }
    }

    /// Hands everything to the browser as one file, and says what came of it.
    pub(crate) fn export(self) {
        self.say(if self.save_everything() {
            "Saved as one file. Under “My lines” it can be brought in again.".to_owned()
        } else {
            "The browser would not save the file.".to_owned()
        });
    }

    /// Hands everything to the browser as one file: what is kept here, and this line too where it is not. Whether it took it.
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
        }
        is_saved
    }

    /// Lays the line aside where it outlasts a program that breaks.
    fn hold(self) {
        let id = self.seen().map_or_else(fresh_id, |seen| seen.id());
        self.settled
            .with_untracked(|design| rescue::hold(id, design));
    }

    /// The line was kept as a copy under another name, which it bears from now on.
    fn take_name(self, name: String, parted: Parted) {
        self.state.update_value(|BenchState { sketch, .. }| {
            // The name was given by the shelf, which read it back: it is one a line can have.
            let _ = sketch.try_out(Edit::Name(name));
            sketch.settle();
        });
        self.show_sketch();
        self.say(parted.words::<Design>());
    }

    /// Keeps what can be undone. Where that has no room it is said once: it is a convenience, and the line itself is kept.
    fn keep_steps(self, number: LineNumber) {
        let kept = self
            .state
            .with_value(|BenchState { sketch, .. }| shelf()?.keep_steps(number, sketch));
        if kept.is_err() && !self.state.with_value(|state| state.saved.steps_missed) {
            self.state
                .update_value(|state| state.saved.steps_missed = true);
            self.say(
                "The line is kept, but what you did to it cannot be undone after a reload: the browser’s storage is full."
                    .to_owned(),
            );
        }
    }

    /// Another tab wrote something. What is kept as it was last seen follows; what is not finished stays on the bench, and
    /// is kept beside the other's when it is.
    pub(super) fn hear(self, key: Option<&str>) {
        if !concerns(key) {
            return;
        }
        if let Some(number) = key.and_then(number_in::<Design>) {
            settle::<Design>(number);
        }
        self.catch_up();
    }

    /// Follows what other tabs did to the line, unless a change is going on.
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
                "Another tab changed this line. You see it as it is now.",
            ),
            Ok(News::Moved(kept)) => self.follow_other(
                *kept,
                "Another tab changed this line at the same moment. Yours is kept beside it, as a copy.",
            ),
            Ok(News::Binned) => self.say(
                "Another tab put this line into the bin. It comes back when you change it here.".to_owned(),
            ),
            Ok(News::Newer) => self.lose_place(
                "A newer version of this page changed this line in another tab. Reload the page before you go on; what you change here is kept as a copy.",
            ),
            Ok(News::Gone) => self.lose_place(
                "This line is no longer kept in this browser: another tab took it away. Change it, or save it as a file, if you want to keep what you see.",
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
        self.set_seen(seen);
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

/// Keeps work after what was seen of it, or as something new.
pub(crate) fn keep<T: Work>(seen: Option<&Seen>, work: &T) -> Result<Keeping<T>, Unkept> {
    let kept = kept(seen, work);
    if kept.is_ok() {
        rescue::let_go::<T>();
    } else {
        rescue::hold(seen.map_or_else(fresh_id, Seen::id), work);
    }
    kept
}

fn kept<T: Work>(seen: Option<&Seen>, work: &T) -> Result<Keeping<T>, Unkept> {
    let today = clock::today();
    let what = T::WORD;
    let mut shelf = shelf().map_err(|why| Unkept { what, why })?;
    if let Some(seen) = seen {
        return shelf.keep(seen, work, today);
    }
    let kept = shelf.keep_new(fresh_id(), work, today)?;
    Ok(Keeping { kept, parted: None })
}
