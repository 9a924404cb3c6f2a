//! What other tabs did: asked for when the browser says that the store changed, and before something else is opened.

use super::document::Document;
use super::find::{Kept, Lookup};
use super::ids::SeenRevision;
use super::prefixes::{BIN_KEY, WORK_KEYS};
use super::revisions::Revisions;
use super::store::{Shelf, Store, StoreError};

/// What became of what a tab has on its bench.
#[derive(Clone, Debug, PartialEq)]
pub enum News<T> {
    /// Nothing: it is kept as this tab last saw it.
    Same,
    /// Another tab changed it. A tab without unfinished changes follows; one that has some keeps them, and
    /// [`Shelf::keep`] makes a copy of them.
    Changed(Box<Kept<T>>),
    /// What this tab kept has another number now, since another tab wrote under its number at the same moment.
    Moved(Box<Kept<T>>),
    /// It is in the bin.
    Binned,
    /// A newer version of this page changed it: this one can no longer keep it here.
    Newer,
    /// It is not there any more, or cannot be read any more. Keeping it again makes a copy.
    Gone,
}

/// Whether a key the browser says was changed concerns what is kept here; without a key, everything was changed.
pub fn concerns(key: Option<&str>) -> bool {
    let mut ours = WORK_KEYS.into_iter().chain([BIN_KEY]);
    key.is_none_or(|key| ours.any(|prefix| key.starts_with(prefix)))
}

impl<S: Store> Shelf<S> {
    /// What became of what was seen. Where two tabs wrote at the same moment, [`Shelf::settle`] comes first.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    pub fn news<T: Document>(&self, seen: &SeenRevision) -> Result<News<T>, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, seen.number)?;
        if !revisions.newer.is_empty() {
            return Ok(News::Newer);
        }
        let Some(head) = revisions.head(seen.id) else {
            return self.news_elsewhere(seen);
        };
        if head.revision.is_as(seen.mark) {
            let is_binned = self.is_binned::<T>(seen.number)?;
            return Ok(if is_binned { News::Binned } else { News::Same });
        }
        let moved = self.copy_of_own(seen)?;
        let changed = || News::Changed(Box::new(Kept::of(seen.number, head.clone())));
        Ok(moved.map_or_else(changed, News::Moved))
    }

    fn news_elsewhere<T: Document>(&self, seen: &SeenRevision) -> Result<News<T>, StoreError> {
        if let Some(copy) = self.copy_of_own(seen)? {
            return Ok(News::Moved(copy));
        }
        let elsewhere = self
            .number_of::<T>(seen.id)?
            .filter(|number| *number != seen.number);
        Ok(match elsewhere.map(|number| self.look(number)) {
            Some(Lookup::Kept(kept)) => News::Moved(kept),
            _ => News::Gone,
        })
    }

    /// The copy that was made of the very state this tab wrote, as it was made.
    fn copy_of_own<T: Document>(
        &self,
        seen: &SeenRevision,
    ) -> Result<Option<Box<Kept<T>>>, StoreError> {
        if seen.mark.writer != self.writer {
            return Ok(None);
        }
        let id = seen.id.parted(seen.mark);
        let Some(number) = self.number_of::<T>(id)? else {
            return Ok(None);
        };
        let revisions = Revisions::<T>::of(&self.store, number)?;
        let copy = revisions
            .head(id)
            .filter(|head| head.revision.is_as(seen.mark));
        Ok(copy.map(|head| Box::new(Kept::of(number, head.clone()))))
    }
}
