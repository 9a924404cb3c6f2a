//! Two copies of what is kept, and what either lacks of the other after the browser died without warning.
//!
//! Local storage comes back as it was a while ago; the database comes back with everything it ever called complete, and may be
//! behind where much was kept at once. So either can have what the other lost, and either can have old states whose followers
//! between then and now are gone. Such an old state, brought back, would be taken for the work of another tab and be laid
//! beside the line as a copy. All of that is decided from keys alone. A text that was altered where it stands is known by the
//! checksum in its key ([`is_damaged`]).

use std::collections::BTreeSet;

use super::ids::RevisionId;
use super::keys::place;
use super::prefixes::{LINE_KEY, MEASURED_KEY, is_state};
use super::revision::{Revision, RevisionText};
use crate::design::Design;
use crate::keep::book::Workshop;
use crate::measured::MeasuredLine;

/// So many revisions later, a state comes of another under the same number, and is not what a second tab made at the same
/// moment: that tab would not have written without seeing what is there.
const OUTGROWN: u64 = 2;

/// Whether the text under the key of a state is not what was written there: a copy that is whole may take its place. What a newer
/// version wrote is not damaged.
pub fn is_damaged(key: &str, text: &str) -> bool {
    let Some(((kind, _), mark)) = place(key) else {
        return false;
    };
    let read = match kind {
        LINE_KEY => Revision::read::<Design>(text, mark),
        MEASURED_KEY => Revision::read::<MeasuredLine>(text, mark),
        _ => Revision::read::<Workshop>(text, mark),
    };
    matches!(read, RevisionText::Damaged(_))
}

/// What is to be done so that both copies hold the same, keys throughout.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mending {
    /// What the store lost and the copy has.
    pub bring_back: Vec<String>,
    /// Old states in the store that were let go once and have something newer in their place.
    pub let_go: Vec<String>,
    /// What the copy lacks.
    pub copy: Vec<String>,
    /// Old states in the copy, as the store shows.
    pub drop: Vec<String>,
    /// Notes of what was let go that have done their work.
    pub forget: Vec<String>,
}

impl Mending {
    /// Compares the keys of the store, those of the copy, and the keys that were noted as let go.
    pub fn of(store: &[String], copy: &[String], gone: &[String]) -> Self {
        let [store, copy, gone] = [store, copy, gone].map(set);
        let lost = || copy.iter().filter(|key| !store.contains(*key));
        let is_old = |key: &str| store.difference(&gone).any(|it| follows(it, key, OUTGROWN));
        let drop: Vec<&str> = lost().filter(|key| is_old(key)).copied().collect();
        let bring_back: Vec<&str> = lost()
            .filter(|key| !drop.contains(*key) && !gone.contains(*key))
            .copied()
            .collect();
        let stays = || store.difference(&gone).chain(&bring_back);
        let back: Vec<&str> = store.intersection(&gone).copied().collect();
        let let_go = back
            .iter()
            .filter(|key| stays().any(|it| follows(it, key, 1)))
            .copied();
        let mut done: Vec<&str> = gone.iter().copied().collect();
        done.retain(|_| back.is_empty());
        let lacks = store
            .iter()
            .filter(|key| !copy.contains(*key) && !gone.contains(*key));
        Self {
            bring_back: owned(&bring_back),
            let_go: let_go.map(str::to_owned).collect(),
            copy: lacks.map(|key| (*key).to_owned()).collect(),
            drop: owned(&drop),
            forget: owned(&done),
        }
    }
}

fn set(keys: &[String]) -> BTreeSet<&str> {
    keys.iter()
        .map(String::as_str)
        .filter(|key| is_state(key))
        .collect()
}

fn owned(keys: &[&str]) -> Vec<String> {
    keys.iter().map(|key| (*key).to_owned()).collect()
}

/// The marks of two keys, where both are of states under the same number.
fn marks(one: &str, other: &str) -> Option<(RevisionId, RevisionId)> {
    let ((one_place, one), (other_place, other)) = (place(one)?, place(other)?);
    (one_place == other_place).then_some((one, other))
}

/// Whether a state stands so many revisions or more behind another under the same number.
fn follows(later: &str, earlier: &str, by: u64) -> bool {
    let is_behind = |(later, earlier): (RevisionId, RevisionId)| {
        later.revision >= earlier.revision.saturating_add(by)
    };
    marks(later, earlier).is_some_and(is_behind)
}
