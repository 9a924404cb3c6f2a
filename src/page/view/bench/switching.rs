//! Putting another line on the bench: a stored one, one from a file, one from a link.

use leptos::prelude::*;

use super::opening::{
    Opening, StorageState, from_address, from_shelf, kept_wound, look, note_open, opening_of,
    settle,
};
use super::state::{Bench, Cursor, belly_begins};
use crate::design::Design;
use crate::keep::shelf::LineNumber;
use crate::page::browser::{address, rescue};

impl Bench {
    /// Puts another line on the bench, with the message about it.
    fn show(self, opening: Opening) {
        let Opening {
            sketch,
            storage_state,
            seen,
            message,
        } = opening;
        self.message.set(message);
        self.set_seen(seen);
        self.state.update_value(|state| state.saved.failed = false);
        rescue::let_go::<Design>();
        self.drag.set(None);
        self.held.set(None);
        self.cursor.set(Cursor::Point);
        self.sight.set(None);
        self.ghost.set(None);
        self.wish.set(None);
        self.chosen.set(belly_begins(sketch.settled()));
        self.wound.set(kept_wound(seen.as_ref()));
        self.storage_state.set(storage_state);
        self.state.update_value(|state| state.sketch = sketch);
        self.show_sketch();
    }

    /// Goes back from a preview, or from a deleted line, to the line last open.
    pub(crate) fn turn_to_own(self) {
        address::forget_design();
        self.show(from_shelf());
    }

    /// Puts a stored line on the bench.
    pub(crate) fn fetch(self, number: LineNumber) {
        if !self.may_leave() {
            return;
        }
        address::forget_design();
        settle::<Design>(number);
        self.show(opening_of(look(number)));
        // A line that cannot be read is not worth coming back to at the next visit.
        if matches!(self.storage_state.get_untracked(), StorageState::Kept(_)) {
            note_open(number);
        }
    }

    /// Puts a design from a file on the bench, as a line of its own.
    pub(crate) fn take_in(self, design: Design) {
        if !self.may_leave() {
            return;
        }
        address::forget_design();
        self.show(Opening::of(design, StorageState::New, None));
        self.keep();
    }

    /// Notes that the line was saved as a file.
    pub(crate) fn filed(self) {
        self.storage_state.update(|storage_state| {
            if let StorageState::Unkept { filed, .. } = storage_state {
                *filed = true;
            }
        });
        rescue::let_go::<Design>();
    }

    /// Whether another line may replace this one; where that would lose it, says so.
    pub(crate) fn may_leave(self) -> bool {
        let would_lose = matches!(
            self.storage_state.get_untracked(),
            StorageState::Unkept { filed: false, .. }
        );
        if would_lose {
            self.say(
                "This line is not saved anywhere. Save it as a file, then open the other one again."
                    .to_owned(),
            );
        }
        !would_lose
    }

    /// Shows a design that came as a link as a preview.
    pub(crate) fn look_at(self, design: Design) {
        if self.may_leave() {
            address::forget_design();
            self.show(Opening::of(design, StorageState::Preview, None));
        }
    }

    pub(super) fn follow_address(self) {
        if let Some(shared) = from_address().filter(|_| self.may_leave()) {
            self.show(shared);
        }
    }
}
