//! Which bobbins of the line on the bench are wound. That is kept beside the line; where the browser keeps no line it lasts as
//! long as the line stands on the page.

use leptos::prelude::*;

use super::opening::{kept_wound, shelf};
use super::state::Bench;
use crate::keep::shelf::{SeenRevision, wound_key};
use crate::plan::wound::Wound;

impl Bench {
    /// Changes which bobbins are wound. A line that is nowhere yet is kept from then on.
    pub(crate) fn set_wound(self, wound: Wound) {
        self.wound.set(wound);
        if self.seen().is_none() {
            // Keeping the line keeps what is wound too; where it cannot be kept that is said.
            self.keep();
        } else {
            self.keep_wound();
        }
    }

    /// The line was kept: for the first time, under another number, or again.
    pub(super) fn carry_wound(self, before: Option<&SeenRevision>) {
        let place = |seen: &SeenRevision| (seen.number(), seen.id());
        let has_moved = self.seen().as_ref().map(place) != before.map(place);
        if has_moved && self.wound.with_untracked(|wound| !wound.is_empty()) {
            self.keep_wound();
        }
    }

    fn keep_wound(self) {
        let Some(seen) = self.seen() else {
            return;
        };
        let kept = self
            .wound
            .with_untracked(|wound| shelf()?.keep_wound(seen.number(), seen.id(), wound));
        if let Err(error) = kept {
            self.say(error.to_string());
        }
    }

    /// Another tab may have wound something.
    pub(super) fn hear_wound(self, key: Option<&str>) {
        let seen = self.seen();
        let is_ours = |seen: &SeenRevision| key.is_none_or(|key| key == wound_key(seen.number()));
        if seen.as_ref().is_some_and(is_ours) {
            self.wound.set(kept_wound(seen.as_ref()));
        }
    }
}
