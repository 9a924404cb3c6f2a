//! Everything under one number: the states that can be read, which of them are one work's history, and the rest.

use super::keys::{Keys, key};
use super::leaf::{Leaf, Text};
use super::mark::{Id, Mark};
use super::store::{Store, StoreError};
use super::work::{Unread, Work};

/// A text that cannot be read, as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strange {
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
pub(super) struct Head<T> {
    pub(super) leaf: Leaf,
    pub(super) work: T,
}

/// Everything under one number.
#[derive(Clone, Debug)]
pub(super) struct Branch<T> {
    /// States that can be read, the newest first.
    pub(super) heads: Vec<Head<T>>,
    /// Texts of a newer version.
    pub(super) newer: Vec<Newer>,
    /// Texts that cannot be read.
    pub(super) strange: Vec<Strange>,
}

impl<T: Work> Branch<T> {
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
        marks: &[Mark],
    ) -> Result<Self, StoreError> {
        let mut branch = Self {
            heads: Vec::new(),
            newer: Vec::new(),
            strange: Vec::new(),
        };
        for &mark in marks {
            let key = key::<T>(number, mark);
            if let Some(text) = store.get(&key)? {
                branch.take(key, mark, text);
            }
        }
        Ok(branch)
    }

    fn take(&mut self, key: String, mark: Mark, text: String) {
        match read::<T>(mark, &text) {
            Ok(head) => self.heads.push(head),
            Err(Unsound::Newer(file)) => self.newer.push(Newer { key, text, file }),
            Err(Unsound::Strange(why)) => self.strange.push(Strange { key, text, why }),
        }
    }

    /// The work the number belongs to: where two were begun under one number at the same moment, the one whose name comes
    /// first, so that every tab says the same.
    pub(super) fn owner(&self) -> Option<Id> {
        self.heads.iter().map(|head| head.leaf.id).min()
    }

    /// The newest state of a work.
    pub(super) fn head(&self, id: Id) -> Option<&Head<T>> {
        self.heads.iter().find(|head| head.leaf.id == id)
    }

    /// The states a state was made from, the newest first, as far back as they are here.
    pub(super) fn before(&self, leaf: &Leaf) -> Vec<&Head<T>> {
        let mut found = Vec::new();
        let mut base = leaf.base;
        while let Some(mark) = base {
            let made_from = |head: &&Head<T>| head.leaf.mark == mark && head.leaf.id == leaf.id;
            let Some(head) = self.heads.iter().find(made_from) else {
                break;
            };
            // Going back, marks only get smaller; a circle would be somebody's forgery.
            base = head.leaf.base.filter(|next| *next < mark);
            found.push(head);
        }
        found
    }

    /// States that belong neither to the number's own work as it is now nor to its history: what two tabs wrote at the
    /// same moment.
    pub(super) fn strays(&self) -> Vec<&Head<T>> {
        let Some(own) = self.owner().and_then(|id| self.head(id)) else {
            return Vec::new();
        };
        let history = self.before(&own.leaf);
        let is_history = |head: &Head<T>| {
            head.leaf == own.leaf || history.iter().any(|old| old.leaf == head.leaf)
        };
        self.heads.iter().filter(|head| !is_history(head)).collect()
    }
}

/// Why a text is no state.
pub(super) enum Unsound {
    Newer(Option<String>),
    Strange(String),
}

/// The state under a key.
pub(super) fn read<T: Work>(mark: Mark, text: &str) -> Result<Head<T>, Unsound> {
    let strange = |unread: Unread| Unsound::Strange(unread.why);
    match Leaf::read::<T>(text, mark) {
        Text::Sound(leaf) => match T::read(&leaf.file) {
            Ok(work) => Ok(Head { leaf, work }),
            Err(unread) if unread.is_newer => Err(Unsound::Newer(Some(leaf.file))),
            Err(unread) => Err(strange(unread)),
        },
        Text::Newer(file) => Err(Unsound::Newer(file)),
        Text::Damaged(why) => Err(Unsound::Strange(why.to_owned())),
    }
}
