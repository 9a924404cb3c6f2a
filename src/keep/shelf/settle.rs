//! What two tabs wrote at the same moment is taken apart: every piece of work gets a number of its own.

use super::document::Document;
use super::ids::{Id, RevisionId};
use super::keep::{Parted, Putting, copy_name};
use super::keys::{Keys, key};
use super::revision::Revision;
use super::revisions::{LoadedRevision, Revisions};
use super::store::{Shelf, Store, StoreError};

/// A piece of work that got a number of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settled {
    /// The number it shared.
    pub from: u32,
    /// The number it has now.
    pub to: u32,
    /// What it is called.
    pub name: String,
}

impl<S: Store> Shelf<S> {
    /// Takes apart what shares a number: states that two tabs wrote at the same moment become lines or workshops of their
    /// own. Each is written again and read back before it is taken from where it was. Doing it twice, or in two tabs, does no
    /// more than doing it once.
    ///
    /// # Errors
    /// [`StoreError`] when the store fails on the way: what was not yet moved is still where it was.
    pub fn settle<T: Document>(&mut self, number: u32) -> Result<Vec<Settled>, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, number)?;
        let Some(own) = revisions.owner().and_then(|id| revisions.head(id)) else {
            return Ok(Vec::new());
        };
        // Where a newer version writes, this one keeps its hands off.
        if !revisions.newer.is_empty() {
            return Ok(Vec::new());
        }
        let (mut settled, strays) = (Vec::new(), revisions.strays());
        for stray in &strays {
            let to = if stray.revision.id == own.revision.id {
                self.settle_sibling(own, stray)?
            } else {
                self.settle_stranger(&revisions, number, stray)?
            };
            let (from, name) = (number, stray.revision.name.clone());
            settled.extend(to.map(|to| Settled { from, to, name }));
        }
        // The oldest first, so that what stays behind when the store fails still hangs together.
        for stray in strays.iter().rev() {
            if !self.take_away(&key::<T>(number, stray.revision.mark)) {
                return Err(StoreError::NotKept);
            }
        }
        Ok(settled)
    }

    /// Another state of the same work becomes a copy. Its name follows from the state, so that nobody makes it twice; the
    /// number of the copy, where one was made now.
    fn settle_sibling<T: Document>(
        &mut self,
        own: &LoadedRevision<T>,
        stray: &LoadedRevision<T>,
    ) -> Result<Option<u32>, StoreError> {
        let id = stray.revision.id.parted(stray.revision.mark);
        if stray.revision.file == own.revision.file || self.home_of::<T>(None, id)?.is_some() {
            return Ok(None);
        }
        let name = copy_name::<T>(stray.work.name(), Parted::Elsewhere);
        let file = stray.work.renamed(&name).write();
        let number = Keys::free_number::<T>(&self.store)?;
        self.put_copy::<T>(number, id, None, &stray.revision, &file)?;
        Ok(Some(number))
    }

    /// Other work moves to where it already is at home, else to a number of its own. Of its states only the newest has to.
    fn settle_stranger<T: Document>(
        &mut self,
        revisions: &Revisions<T>,
        from: u32,
        stray: &LoadedRevision<T>,
    ) -> Result<Option<u32>, StoreError> {
        let (revision, newest) = (&stray.revision, revisions.head(stray.revision.id));
        let is_behind =
            |newest: &LoadedRevision<T>| revisions.before(&newest.revision).contains(&stray);
        if newest.is_some_and(is_behind) {
            return Ok(None);
        }
        let Some((number, home)) = self.home_of::<T>(Some(from), revision.id)? else {
            let number = Keys::free_number::<T>(&self.store)?;
            self.put_copy::<T>(number, revision.id, None, revision, &revision.file)?;
            return Ok(Some(number));
        };
        let is_there = |head: &LoadedRevision<T>| {
            head.revision.is_as(revision.mark) || head.revision.file == revision.file
        };
        if !home.heads.iter().any(is_there) {
            let before = home
                .head(revision.id)
                .filter(|head| head.revision.copied == revision.base);
            let base = before.map(|head| head.revision.mark);
            self.put_copy::<T>(number, revision.id, base, revision, &revision.file)?;
        }
        Ok(Some(number))
    }

    /// Writes a state again under another number, and says of which it is a copy.
    fn put_copy<T: Document>(
        &mut self,
        number: u32,
        id: Id,
        base: Option<RevisionId>,
        revision: &Revision,
        file: &str,
    ) -> Result<(), StoreError> {
        let putting = Putting {
            number,
            id,
            base,
            copied: Some(revision.mark),
            turn: (revision.mark.revision, self.writer),
            file,
            changed: revision.changed,
        };
        self.put::<T>(&putting).map(drop)
    }

    /// The number other than this that a work belongs to, and what is there, where that can be read.
    fn home_of<T: Document>(
        &self,
        from: Option<u32>,
        id: Id,
    ) -> Result<Option<(u32, Revisions<T>)>, StoreError> {
        let Some(number) = self
            .number_of::<T>(id)?
            .filter(|number| Some(*number) != from)
        else {
            return Ok(None);
        };
        let revisions = Revisions::of(&self.store, number)?;
        let is_home = revisions.head(id).is_some() && revisions.newer.is_empty();
        Ok(is_home.then_some((number, revisions)))
    }
}
