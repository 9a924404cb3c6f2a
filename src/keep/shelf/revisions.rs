//! Everything under one number: the states that can be read, which of them are one work's history, and the rest.

use super::document::{Document, Unread};
use super::ids::{Id, RevisionId};
use super::keys::{Keys, key};
use super::revision::{Revision, RevisionText};
use super::store::{Store, StoreError};

/// A text that cannot be read, as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnreadableText {
    /// Its key.
    pub key: String,
    /// The text.
    pub text: String,
    /// Why it cannot be read, in words.
    pub why: String,
}

/// A text of a newer version of this page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Newer {
    pub(super) key: String,
    pub(super) text: String,
    /// The file in it, where that can be found.
    pub(super) file: Option<String>,
}

/// A state whose file was read, and what it holds.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LoadedRevision<T> {
    pub(super) revision: Revision,
    pub(super) work: T,
}

/// Everything under one number.
#[derive(Clone, Debug)]
pub(super) struct Revisions<T> {
    /// States that can be read, the newest first.
    pub(super) heads: Vec<LoadedRevision<T>>,
    /// Texts of a newer version.
    pub(super) newer: Vec<Newer>,
    /// Texts that cannot be read.
    pub(super) strange: Vec<UnreadableText>,
}

impl<T: Document> Revisions<T> {
    /// Reads everything under a number.
    pub(super) fn of(store: &impl Store, number: u32) -> Result<Self, StoreError> {
        let mut marks = Keys::of::<T>(store)?
            .states
            .remove(&number)
            .unwrap_or_default();
        marks.reverse();
        Self::of_marks(store, number, &marks)
    }

    /// Reads these states of a number, given the newest first.
    pub(super) fn of_marks(
        store: &impl Store,
        number: u32,
        marks: &[RevisionId],
    ) -> Result<Self, StoreError> {
        let mut revisions = Self {
            heads: Vec::new(),
            newer: Vec::new(),
            strange: Vec::new(),
        };
        for &mark in marks {
            let key = key::<T>(number, mark);
            if let Some(text) = store.get(&key)? {
                revisions.take(key, mark, text);
            }
        }
        Ok(revisions)
    }

    /// Whether nothing at all stands under the number.
    pub(super) fn is_empty(&self) -> bool {
        self.heads.is_empty() && self.newer.is_empty() && self.strange.is_empty()
    }

    fn take(&mut self, key: String, mark: RevisionId, text: String) {
        match read::<T>(mark, &text) {
            Ok(head) => self.heads.push(head),
            Err(Unsound::Newer(file)) => self.newer.push(Newer { key, text, file }),
            Err(Unsound::UnreadableText(why)) => {
                self.strange.push(UnreadableText { key, text, why });
            }
        }
    }

    /// The work the number belongs to: where two were begun under one number at the same moment, the one whose name comes
    /// first, so that every tab says the same.
    pub(super) fn owner(&self) -> Option<Id> {
        self.heads.iter().map(|head| head.revision.id).min()
    }

    /// The newest state of a work.
    pub(super) fn head(&self, id: Id) -> Option<&LoadedRevision<T>> {
        self.heads.iter().find(|head| head.revision.id == id)
    }

    /// The states a state was made from, the newest first, as far back as they are here.
    pub(super) fn before(&self, revision: &Revision) -> Vec<&LoadedRevision<T>> {
        let mut found = Vec::new();
        let mut base = revision.base;
        while let Some(mark) = base {
            let made_from = |head: &&LoadedRevision<T>| {
                head.revision.mark == mark && head.revision.id == revision.id
            };
            let Some(head) = self.heads.iter().find(made_from) else {
                break;
            };
            // Going back, marks only get smaller; a circle would be somebody's forgery.
            base = head.revision.base.filter(|next| *next < mark);
            found.push(head);
        }
        found
    }

    /// States that belong neither to the number's own work as it is now nor to its history: what two tabs wrote at the
    /// same moment.
    pub(super) fn strays(&self) -> Vec<&LoadedRevision<T>> {
        let Some(own) = self.owner().and_then(|id| self.head(id)) else {
            return Vec::new();
        };
        let history = self.before(&own.revision);
        let is_history = |head: &LoadedRevision<T>| {
            head.revision == own.revision || history.iter().any(|old| old.revision == head.revision)
        };
        self.heads.iter().filter(|head| !is_history(head)).collect()
    }
}

/// Why a text is no state.
pub(super) enum Unsound {
    Newer(Option<String>),
    UnreadableText(String),
}

/// The state under a key.
pub(super) fn read<T: Document>(
    mark: RevisionId,
    text: &str,
) -> Result<LoadedRevision<T>, Unsound> {
    let strange = |unread: Unread| Unsound::UnreadableText(unread.why);
    match Revision::read::<T>(text, mark) {
        RevisionText::Sound(revision) => match T::read(&revision.file) {
            Ok(work) => Ok(LoadedRevision { revision, work }),
            Err(unread) if unread.is_newer => Err(Unsound::Newer(Some(revision.file))),
            Err(unread) => Err(strange(unread)),
        },
        RevisionText::Newer(file) => Err(Unsound::Newer(file)),
        RevisionText::Damaged(why) => Err(Unsound::UnreadableText(why.to_owned())),
    }
}
