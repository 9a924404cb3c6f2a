//! Out of the way, back again, and away for good: always the maker's own doing.
//!
//! What is in the bin stays where it is; a note says of its newest state that it is there. So nothing has to be copied
//! where there is no room, and a change made in another tab brings it back by itself.

use super::document::Document;
use super::find::Kept;
use super::ids::{Id, RevisionId, SeenRevision};
use super::keep::unkept;
use super::keys::{Keys, bin_key, key};
use super::revision;
use super::revisions::{LoadedRevision, Revisions, UnreadableText};
use super::store::{Shelf, Store, StoreError, Unkept};
use crate::plan::days::Day;

impl<S: Store> Shelf<S> {
    /// Lays a line or workshop into the bin. Whether it is as it was seen: what another tab changed meanwhile stays, and
    /// what cannot be read is taken away by [`Shelf::discard`] only.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses; then it is where it was.
    pub fn delete<T: Document>(
        &mut self,
        seen: &SeenRevision,
        today: Option<Day>,
    ) -> Result<bool, StoreError> {
        let number = seen.number;
        let revisions = Revisions::<T>::of(&self.store, number)?;
        let Some(head) = as_seen(&revisions, seen) else {
            return Ok(false);
        };
        let (key, note) = (
            bin_key::<T>(number, head.revision.mark),
            revision::bin_note(head.revision.id, today),
        );
        match self.store.get(&key)? {
            Some(there)
                if revision::binned(&there).is_some_and(|(id, _)| id == head.revision.id) => {}
            Some(_) => return Err(StoreError::NotKept),
            None => self.put_text(&key, &note)?,
        }
        Ok(true)
    }

    /// Takes a line or workshop out of the bin again.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses; then it is still in the bin.
    pub fn restore<T: Document>(&mut self, number: u32) -> Result<(), StoreError> {
        for mark in Keys::of::<T>(&self.store)?.notes_of(number) {
            self.take_note_away::<T>(number, mark)?;
        }
        Ok(())
    }

    fn take_note_away<T: Document>(
        &mut self,
        number: u32,
        mark: RevisionId,
    ) -> Result<(), StoreError> {
        let key = bin_key::<T>(number, mark);
        let is_note = self
            .store
            .get(&key)?
            .is_some_and(|note| revision::binned(&note).is_some());
        if is_note { self.must_go(&key) } else { Ok(()) }
    }

    fn must_go(&mut self, key: &str) -> Result<(), StoreError> {
        self.store.remove(key)?;
        if self.store.get(key)?.is_none() {
            Ok(())
        } else {
            Err(StoreError::NotKept)
        }
    }

    /// Empties the bin of what the maker saw lying in it: that is gone for good, unless it was changed or taken out meanwhile.
    /// How many went.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses on the way; what is left is still in the bin.
    pub fn empty_bin<T: Document>(&mut self, seen: &[SeenRevision]) -> Result<usize, StoreError> {
        let mut count = 0;
        for seen in seen {
            if self.is_binned::<T>(seen.number)? && self.delete_for_good::<T>(seen)? {
                count += 1;
            }
        }
        Ok(count)
    }

    /// Takes a line or workshop away for good, in the bin or not, with what is kept beside it. Whether it was as it was seen:
    /// what another tab changed meanwhile stays, as do texts under its number that cannot be read.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses on the way. Its newest state goes last, so that no older one comes to light.
    pub fn delete_for_good<T: Document>(
        &mut self,
        seen: &SeenRevision,
    ) -> Result<bool, StoreError> {
        let number = seen.number;
        let revisions = Revisions::<T>::of(&self.store, number)?;
        let Some(head) = as_seen(&revisions, seen) else {
            return Ok(false);
        };
        for old in revisions.before(&head.revision).iter().rev() {
            self.must_go(&key::<T>(number, old.revision.mark))?;
        }
        self.must_go(&key::<T>(number, head.revision.mark))?;
        for beside in T::BESIDE {
            self.must_go(&format!("{beside}{number}"))?;
        }
        self.restore::<T>(number)?;
        Ok(true)
    }

    /// Takes a text away that cannot be read, once the maker says so, and only as long as it is the text the maker saw.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn discard(&mut self, strange: &UnreadableText) -> Result<(), StoreError> {
        if self.store.get(&strange.key)?.as_ref() == Some(&strange.text) {
            self.must_go(&strange.key)?;
        }
        Ok(())
    }

    /// Keeps a copy of a line or workshop under a number and lasting name of its own.
    ///
    /// # Errors
    /// [`Unkept`] when the browser refuses.
    pub fn duplicate<T: Document>(
        &mut self,
        work: &T,
        id: Id,
        today: Option<Day>,
    ) -> Result<Kept<T>, Unkept> {
        let base = if work.name().is_empty() {
            T::UNNAMED
        } else {
            work.name()
        };
        let room = T::NAME_ROOM.saturating_sub(COPY.chars().count());
        let held: String = base.chars().take(room).collect();
        let copy = work.renamed(&format!("{}{COPY}", held.trim_end()));
        self.put_new(id, (1, self.writer), &copy.write(), today)
            .map_err(unkept::<T>)
    }
}

/// The newest state of a number's own work, where it is the one that was seen and nothing newer stands beside it.
fn as_seen<'a, T: Document>(
    revisions: &'a Revisions<T>,
    seen: &SeenRevision,
) -> Option<&'a LoadedRevision<T>> {
    let head = revisions.head(revisions.owner()?)?;
    let is_as_seen = (head.revision.id, head.revision.mark) == (seen.id, seen.mark);
    (is_as_seen && revisions.newer.is_empty()).then_some(head)
}

/// What a copy is called after the name of the work.
const COPY: &str = " (copy)";
