//! What two tabs wrote at the same moment is taken apart: every piece of work gets a number of its own.

use super::Shelf;
use super::branch::{Branch, Head};
use super::find::Found;
use super::keep::{Parted, Putting, copy_name};
use super::keys::{Keys, key};
use super::leaf::Leaf;
use super::mark::{Id, Mark};
use super::store::{Store, StoreError};
use super::work::Work;

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
    /// own. Each is written and read back before it is taken from where it was. Doing it twice, or in two tabs, does no
    /// more than doing it once.
    ///
    /// # Errors
    /// [`StoreError`] when the store fails on the way: what was not yet moved is still where it was.
    pub fn settle<T: Work>(&mut self, number: u32) -> Result<Vec<Settled>, StoreError> {
        let branch = Branch::<T>::of(&self.store, number)?;
        let Some(own) = branch.owner().and_then(|id| branch.head(id)) else {
            return Ok(Vec::new());
        };
        // Where a newer version writes, this one keeps its hands off.
        if !branch.newer.is_empty() {
            return Ok(Vec::new());
        }
        let mut settled = Vec::new();
        // The oldest first, so that what stays behind when the store fails still hangs together.
        for stray in branch.strays().into_iter().rev() {
            let to = if stray.leaf.id == own.leaf.id {
                self.settle_sibling(own, stray)?
            } else {
                Some(self.settle_stranger::<T>(number, &stray.leaf)?)
            };
            if !self.take_away(&key::<T>(number, stray.leaf.mark)) {
                return Err(StoreError::NotKept);
            }
            let name = stray.leaf.name.clone();
            settled.extend(to.map(|to| Settled {
                from: number,
                to,
                name,
            }));
        }
        Ok(settled)
    }

    /// Whether there is work of this name that can be read.
    fn is_kept<T: Work>(&self, id: Id) -> Result<bool, StoreError> {
        let number = self.number_of::<T>(id)?;
        let found = number.map(|number| self.look::<T>(number));
        Ok(matches!(found, Some(Found::Kept(kept)) if kept.seen.id == id))
    }

    /// Another state of the same work becomes a copy. Its name follows from the state, so that nobody makes it twice; the
    /// number of the copy, where one was made now.
    fn settle_sibling<T: Work>(
        &mut self,
        own: &Head<T>,
        stray: &Head<T>,
    ) -> Result<Option<u32>, StoreError> {
        let id = stray.leaf.id.parted(stray.leaf.mark);
        if stray.leaf.file == own.leaf.file || self.is_kept::<T>(id)? {
            return Ok(None);
        }
        let copy = stray
            .work
            .renamed(&copy_name::<T>(stray.work.name(), Parted::Elsewhere));
        let mark = stray.leaf.mark;
        let mark = if mark == Mark::PLAIN {
            mark.next(self.writer)
        } else {
            mark
        };
        let kept = self.put_new(id, mark, &copy, stray.leaf.changed)?;
        Ok(Some(kept.seen.number))
    }

    /// A state of other work moves as it is, to where that work already is, else to a number of its own.
    fn settle_stranger<T: Work>(&mut self, from: u32, leaf: &Leaf) -> Result<u32, StoreError> {
        let home = self.home_of::<T>(from, leaf.id)?;
        let number = match home {
            Some(number) => number,
            None => Keys::of::<T>(&self.store)?.free_number()?,
        };
        if leaf.mark == Mark::PLAIN {
            if home.is_none() {
                let mark = leaf.mark.next(self.writer);
                let (id, file) = (leaf.id, leaf.file.as_str());
                self.put::<T>(&Putting {
                    number,
                    id,
                    base: None,
                    mark,
                    file,
                    changed: None,
                })?;
            }
            return Ok(number);
        }
        let (key, text) = (key::<T>(number, leaf.mark), leaf.write());
        match self.store.get(&key)? {
            Some(there) if there == text => {}
            Some(_) => return Err(StoreError::NotKept),
            None => self.put_text(&key, &text)?,
        }
        Ok(number)
    }

    /// The number other than this that a work belongs to.
    fn home_of<T: Work>(&self, from: u32, id: Id) -> Result<Option<u32>, StoreError> {
        let is_home = |number: &u32| *number != from;
        Ok(self.number_of::<T>(id)?.filter(is_home))
    }
}
