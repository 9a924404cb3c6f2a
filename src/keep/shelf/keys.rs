//! The keys of a kind of work: which numbers there are, and which states of each. Always read off the store as it is now:
//! there is no list that could be wrong.

use std::collections::{BTreeMap, BTreeSet};

use super::document::Document;
use super::ids::{RevisionId, Writer};
use super::prefixes::WORK_KEYS;
use super::store::{Store, StoreError};

/// The mark before all others.
const FIRST: RevisionId = RevisionId {
    revision: 0,
    writer: Writer(0),
    sum: 0,
};

/// The keys of one kind of work.
#[derive(Debug, Default)]
pub(super) struct Keys {
    /// Numbers in use, with the marks of their states, the oldest first.
    pub(super) states: BTreeMap<u32, Vec<RevisionId>>,
    /// States with a note that they lie in the bin.
    pub(super) binned: BTreeSet<(u32, RevisionId)>,
    /// Keys that look like ours and are not: left alone, shown, and exported.
    pub(super) strange: Vec<String>,
}

impl Keys {
    /// The keys of this kind in a store.
    pub(super) fn of<T: Document>(store: &impl Store) -> Result<Self, StoreError> {
        let mut keys = Self::default();
        for key in store.keys()? {
            if let Some(rest) = key.strip_prefix(T::PREFIX) {
                match state(rest) {
                    Some((number, mark)) => keys.states.entry(number).or_default().push(mark),
                    None => keys.strange.push(key),
                }
            } else if let Some(state) = key.strip_prefix(T::BIN).and_then(state) {
                keys.binned.insert(state);
            }
        }
        keys.states
            .values_mut()
            .for_each(|marks| marks.sort_unstable());
        Ok(keys)
    }

    /// States of a number with a note that they lie in the bin.
    pub(super) fn notes_of(&self, number: u32) -> impl Iterator<Item = RevisionId> {
        let noted = self.binned.range((number, FIRST)..);
        let of_number = noted.take_while(move |(noted, _)| *noted == number);
        of_number.map(|(_, mark)| *mark)
    }

    /// The number after the highest in use; the lowest gap where there is none after it.
    ///
    /// The keys are listed twice, and what either list has is in use: work that came to lie under a number whose text cannot
    /// be read here would be there, but not be found.
    pub(super) fn free_number<T: Document>(store: &impl Store) -> Result<u32, StoreError> {
        let mut used: BTreeSet<u32> = Self::of::<T>(store)?.states.into_keys().collect();
        used.extend(Self::of::<T>(store)?.states.into_keys());
        let next = used
            .last()
            .map_or(Some(1), |highest| highest.checked_add(1));
        let gap = || (1..u32::MAX).find(|number| !used.contains(number));
        next.or_else(gap).ok_or(StoreError::Full)
    }
}

/// Kind and number a state stands under, and its mark, read off its key.
pub(super) fn place(key: &str) -> Option<((&'static str, u32), RevisionId)> {
    let prefix = WORK_KEYS
        .into_iter()
        .find(|prefix| key.starts_with(prefix))?;
    let (number, mark) = state(&key[prefix.len()..])?;
    Some(((prefix, number), mark))
}

/// The key of a state of a number.
pub(super) fn key<T: Document>(number: u32, mark: RevisionId) -> String {
    format!("{}{number}/{}", T::PREFIX, mark.word())
}

/// The key of the note that a state of a number is in the bin.
pub(super) fn bin_key<T: Document>(number: u32, mark: RevisionId) -> String {
    format!("{}{number}/{}", T::BIN, mark.word())
}

/// The number in a key of this kind, also where an unreleased version wrote it.
pub fn number_in<T: Document>(key: &str) -> Option<u32> {
    let rest = key.strip_prefix(T::PREFIX)?;
    let of_state = state(rest).map(|(number, _)| number);
    of_state.or_else(|| number(rest))
}

/// Whether a key is one that unreleased versions wrote: a number alone, with the text of a file under it.
pub(super) fn is_unreleased<T: Document>(key: &str) -> bool {
    key.strip_prefix(T::PREFIX).and_then(number).is_some()
}

/// Number and mark after the prefix. What only looks like one of ours (`+7`, `07`) is somebody else's.
fn state(rest: &str) -> Option<(u32, RevisionId)> {
    let (digits, word) = rest.split_once('/')?;
    Some((number(digits)?, RevisionId::of_word(word)?))
}

fn number(digits: &str) -> Option<u32> {
    let number: u32 = digits.parse().ok()?;
    (number.to_string() == digits).then_some(number)
}
