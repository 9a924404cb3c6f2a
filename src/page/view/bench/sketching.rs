//! Changes of the design, finished and under way. The sketch has the rules; here the signals of the page follow it.

use leptos::prelude::*;

use super::Ghost;
use super::state::{Bench, BenchState, HeldPoint, steps_of};
use crate::design::DraftPoint;
use crate::design::refusal::Refusal;
use crate::edit::Edit;
use crate::edit::sketch::Sketch;

impl Bench {
    /// Makes a change that is finished at once.
    pub(crate) fn edit(self, edit: Edit) -> Result<(), Refusal> {
        self.held.set(None);
        self.try_out(edit)?;
        self.settle();
        Ok(())
    }

    /// Makes a change that is finished at once, or says in words why not: what a field wants to hear.
    pub(crate) fn commit(self, edit: Edit) -> Result<(), String> {
        self.edit(edit).map_err(|refusal| refusal.to_string())
    }

    /// Makes a change that is finished at once, or says why not at the top of the page; whether it was made.
    pub(crate) fn commit_or_say(self, edit: Edit) -> bool {
        let made = self.commit(edit);
        made.map_err(|said| self.say(said)).is_ok()
    }

    /// Makes a change that plans the line again, and lays the line before beside it, so that what it changes is seen at once. One
    /// that the maker compares with stays.
    pub(crate) fn commit_and_compare(self, edit: Edit) {
        let before = self.settled.get_untracked();
        if self.commit_or_say(edit) && self.ghost.with_untracked(Option::is_none) {
            self.ghost.set(Some(Ghost::before(before)));
        }
    }

    /// Makes a change within a gesture that is still under way.
    pub(crate) fn try_out(self, edit: Edit) -> Result<(), Refusal> {
        let tried = self
            .state
            .try_update_value(|state| state.sketch.try_out(edit))
            .unwrap_or(Ok(()));
        self.show_sketch();
        tried
    }

    /// Moves a point towards where the hand wants it, within a gesture that is still under way, and notes what held it back.
    pub(crate) fn try_move(self, index: usize, wish: DraftPoint) {
        let options = self.move_options.get_untracked();
        let tried = self
            .state
            .try_update_value(|state| state.sketch.try_move(index, wish, options));
        // Moves are held back by neighbours and ranges; nothing is left that could be refused.
        let by = tried.and_then(Result::ok).flatten();
        let held = by.map(|by| HeldPoint { index, wish, by });
        if self.held.get_untracked() != held {
            self.held.set(held);
        }
        self.show_sketch();
    }

    /// Ends a change: scales and card follow, the line is kept, and the change can be undone.
    pub(crate) fn settle(self) {
        if self.with_sketch(Sketch::settle) {
            self.follow("");
        }
    }

    /// Undoes the last finished change; in the middle of a drag, cancels the drag.
    pub(crate) fn undo(self) {
        if self.drag.with_untracked(Option::is_some) {
            return self.abort();
        }
        self.held.set(None);
        if self.with_sketch(Sketch::undo) {
            self.follow("Undone.");
        }
    }

    /// Redoes the change last undone.
    pub(crate) fn redo(self) {
        if self.drag.with_untracked(Option::is_some) {
            return;
        }
        self.held.set(None);
        if self.with_sketch(Sketch::redo) {
            self.follow("Redone.");
        }
    }

    /// Whether there is something to undo.
    pub(crate) fn can_undo(self) -> bool {
        self.steps.get().0
    }

    /// Whether there is something to redo.
    pub(crate) fn can_redo(self) -> bool {
        self.steps.get().1
    }

    fn with_sketch(self, change: fn(&mut Sketch) -> bool) -> bool {
        self.state
            .try_update_value(|state| change(&mut state.sketch))
            .unwrap_or(false)
    }

    /// Sets the signals from the sketch; those that did not change stay untouched.
    pub(super) fn show_sketch(self) {
        self.state.with_value(|BenchState { sketch, .. }| {
            if self.design.with_untracked(|design| design != sketch.now()) {
                self.design.set(sketch.now().clone());
            }
            if self
                .settled
                .with_untracked(|design| design != sketch.settled())
            {
                self.settled.set(sketch.settled().clone());
            }
        });
        let steps = self.state.with_value(|state| steps_of(&state.sketch));
        if self.steps.get_untracked() != steps {
            self.steps.set(steps);
        }
    }

    fn follow(self, spoken: &'static str) {
        self.spoken.set(spoken);
        self.show_sketch();
        self.hold_chosen();
        self.bring_into_sight();
        self.keep();
    }

    /// Keeps the chosen point within those there are.
    pub(super) fn hold_chosen(self) {
        let last = self
            .settled
            .with_untracked(|design| design.draft().points.len() - 1);
        if self.chosen.get_untracked() > last {
            self.chosen.set(last);
        }
    }

    /// Cancels a change that is not finished.
    pub(crate) fn abort(self) {
        if self.drag.with_untracked(Option::is_some) {
            self.drag.set(None);
        }
        self.held.set(None);
        self.state.update_value(|state| state.sketch.abort());
        self.show_sketch();
        self.catch_up();
    }
}
