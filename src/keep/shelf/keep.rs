//! Keeping: how a state gets into the store, and what happens where another tab was there first.
//!
//! Every state has a key of its own, which no other tab writes. So nothing is ever written over: a new state is put beside
//! the one it was made from, read back, and only then is what is older than both taken away. Two tabs that write at the same
//! moment leave two states, which [`Shelf::settle`] makes two pieces of work.

use super::document::Document;
use super::find::Kept;
use super::ids::{Id, RevisionId, SeenRevision, Writer};
use super::keys::{Keys, key};
use super::revision::Revision;
use super::revisions::{LoadedRevision, Revisions};
use super::store::{Shelf, Store, StoreError, Unkept};
use crate::plan::days::Day;

/// Why what was to be kept was kept as a piece of work of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Parted {
    /// Another tab changed it.
    Elsewhere,
    /// A newer version of this page changed it.
    Newer,
    /// It cannot be read any more.
    Unreadable,
}

/// What came of keeping something.
#[derive(Clone, Debug, PartialEq)]
pub struct Keeping<T> {
    /// It, as it is kept: under the number it had, or under another where it had to be parted.
    pub kept: Kept<T>,
    /// Why it was parted from what it was, where it was; then it also has another name.
    pub parted: Option<Parted>,
}

impl Parted {
    /// What a copy is called after the name of the work.
    fn suffix(self) -> &'static str {
        match self {
            Self::Elsewhere => " (copy: another tab changed it)",
            Self::Newer => " (copy: a newer version changed it)",
            Self::Unreadable => " (copy: the original cannot be read)",
        }
    }

    /// What to tell the maker.
    pub fn words<T: Document>(self) -> String {
        let what = T::WORD;
        let why = match self {
            Self::Elsewhere => {
                format!("Another tab changed this {what} while you worked on it here.")
            }
            Self::Newer => format!(
                "A newer version of this page changed this {what}. Reload the page to work on it."
            ),
            Self::Unreadable => format!("This {what} cannot be read from storage any more."),
        };
        format!("{why} Your version is saved as a copy. Nothing is lost.")
    }
}

/// What a piece of work kept beside another is called: its name, held to the room there is, and why.
pub(super) fn copy_name<T: Document>(name: &str, why: Parted) -> String {
    let suffix = why.suffix();
    let base = if name.is_empty() { T::UNNAMED } else { name };
    let base = base.strip_suffix(suffix).unwrap_or(base);
    let room = T::NAME_ROOM.saturating_sub(suffix.chars().count());
    let held: String = base.chars().take(room).collect();
    format!("{}{suffix}", held.trim_end())
}

/// A state to be put into the store.
pub(super) struct Putting<'a> {
    pub(super) number: u32,
    pub(super) id: Id,
    pub(super) base: Option<RevisionId>,
    pub(super) copied: Option<RevisionId>,
    pub(super) turn: (u64, Writer),
    pub(super) file: &'a str,
    pub(super) changed: Option<Day>,
}

impl<S: Store> Shelf<S> {
    /// Keeps a line or workshop for the first time, under a number of its own.
    ///
    /// # Errors
    /// [`Unkept`] when the browser refuses, when what was written does not read back, or when it never would.
    pub fn keep_new<T: Document>(
        &mut self,
        id: Id,
        work: &T,
        today: Option<Day>,
    ) -> Result<Kept<T>, Unkept> {
        let kept = self.put_new(id, (1, self.writer), &work.write(), today);
        kept.map_err(unkept::<T>)
    }

    /// Keeps the next state of a line or workshop seen before. Where another tab changed it meanwhile, both are kept: this
    /// one under a number of its own.
    ///
    /// # Errors
    /// [`Unkept`] when the browser refuses, when what was written does not read back, or when it never would. All that was
    /// kept before is still there.
    pub fn keep<T: Document>(
        &mut self,
        seen: &SeenRevision,
        work: &T,
        today: Option<Day>,
    ) -> Result<Keeping<T>, Unkept> {
        self.keep_seen(seen, work, today).map_err(unkept::<T>)
    }

    fn keep_seen<T: Document>(
        &mut self,
        seen: &SeenRevision,
        work: &T,
        today: Option<Day>,
    ) -> Result<Keeping<T>, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, seen.number)?;
        if !revisions.newer.is_empty() {
            return self.part(seen, work, Parted::Newer, today);
        }
        match revisions.head(seen.id) {
            Some(head) if head.revision.is_as(seen.mark) => {
                let kept = self.follow(seen.number, head, work, today)?;
                if kept.seen.mark != head.revision.mark {
                    self.let_go_of(&revisions, seen.number, &head.revision);
                    // What is changed is out of the bin; a note left behind says nothing of the new state.
                    let _ = self.restore::<T>(seen.number);
                }
                Ok(Keeping { kept, parted: None })
            }
            Some(_) => self.part(seen, work, Parted::Elsewhere, today),
            None => match self
                .number_of::<T>(seen.id)?
                .filter(|number| *number != seen.number)
            {
                // Another tab gave it another number.
                Some(number) => self.keep_seen(&SeenRevision { number, ..*seen }, work, today),
                None if revisions.is_empty() => self.keep_again(seen, work, today),
                None => self.part(seen, work, Parted::Unreadable, today),
            },
        }
    }

    /// Puts the next state of a work of which nothing is there any more, under the number it had: another tab deleted it, or the
    /// browser did. It follows what was seen, so that it stays the newest where a second copy brings the older ones back.
    fn keep_again<T: Document>(
        &mut self,
        seen: &SeenRevision,
        work: &T,
        today: Option<Day>,
    ) -> Result<Keeping<T>, StoreError> {
        let kept = self.put(&Putting {
            number: seen.number,
            id: seen.id,
            base: Some(seen.mark),
            copied: None,
            turn: self.turn_after(seen.mark),
            file: &work.write(),
            changed: today,
        })?;
        Ok(Keeping { kept, parted: None })
    }

    /// Puts the next state beside the one it was made from; what says the same already stays as it is.
    pub(super) fn follow<T: Document>(
        &mut self,
        number: u32,
        head: &LoadedRevision<T>,
        work: &T,
        today: Option<Day>,
    ) -> Result<Kept<T>, StoreError> {
        let file = work.write();
        if file == head.revision.file {
            return Ok(Kept::of(number, head.clone()));
        }
        let (id, base) = (head.revision.id, head.revision.mark);
        let turn = self.turn_after(base);
        self.put(&Putting {
            number,
            id,
            base: Some(base),
            copied: None,
            turn,
            file: &file,
            changed: today,
        })
    }

    /// Takes away what is older than the state that was just followed, the oldest first, so that what is left always hangs
    /// together. Where that fails, there is only more kept than need be.
    fn let_go_of<T: Document>(
        &mut self,
        revisions: &Revisions<T>,
        number: u32,
        followed: &Revision,
    ) {
        for old in revisions.before(followed).iter().rev() {
            if !self.take_away(&key::<T>(number, old.revision.mark)) {
                break;
            }
        }
    }

    /// This tab's turn after a state.
    fn turn_after(&self, mark: RevisionId) -> (u64, Writer) {
        (mark.revision.saturating_add(1), self.writer)
    }

    /// Takes a key away; whether it is gone.
    pub(super) fn take_away(&mut self, key: &str) -> bool {
        self.store.remove(key).is_ok() && self.store.get(key) == Ok(None)
    }

    /// Keeps a work beside the one it was, as a copy.
    fn part<T: Document>(
        &mut self,
        seen: &SeenRevision,
        work: &T,
        why: Parted,
        today: Option<Day>,
    ) -> Result<Keeping<T>, StoreError> {
        let copy = work.renamed(&copy_name::<T>(work.name(), why));
        let id = seen.id.parted(seen.mark);
        let kept = match self.number_of::<T>(id)? {
            None => self.put_new(id, self.turn_after(seen.mark), &copy.write(), today)?,
            Some(number) => self.part_again(number, id, seen, &copy, today)?,
        };
        Ok(Keeping {
            kept,
            parted: Some(why),
        })
    }

    /// A copy of this name is there already: made of the very state this tab had seen, it is followed; else this one gets
    /// another name still.
    fn part_again<T: Document>(
        &mut self,
        number: u32,
        id: Id,
        seen: &SeenRevision,
        copy: &T,
        today: Option<Day>,
    ) -> Result<Kept<T>, StoreError> {
        let revisions = Revisions::<T>::of(&self.store, number)?;
        match revisions.head(id) {
            Some(head) if head.revision.is_as(seen.mark) && revisions.newer.is_empty() => {
                self.follow(number, head, copy, today)
            }
            _ => {
                let turn = self.turn_after(seen.mark);
                self.put_new(
                    id.parted(seen.mark).parted_by_text(&copy.write()),
                    turn,
                    &copy.write(),
                    today,
                )
            }
        }
    }

    /// Puts a work under a number nobody uses.
    pub(super) fn put_new<T: Document>(
        &mut self,
        id: Id,
        turn: (u64, Writer),
        file: &str,
        changed: Option<Day>,
    ) -> Result<Kept<T>, StoreError> {
        let number = Keys::free_number::<T>(&self.store)?;
        self.put(&Putting {
            number,
            id,
            base: None,
            copied: None,
            turn,
            file,
            changed,
        })
    }

    /// Puts a state under a key that is not in use, and reads it back. Only what reads back as written is kept; what does not
    /// is taken away again, so that no half text is left behind.
    pub(super) fn put<T: Document>(
        &mut self,
        putting: &Putting<'_>,
    ) -> Result<Kept<T>, StoreError> {
        let work = T::read(putting.file).map_err(|_| StoreError::NotKept)?;
        let number = putting.number;
        let (revision, writer) = putting.turn;
        let mark = self.unused::<T>(number, RevisionId::of(revision, writer, putting.file))?;
        let revision = Revision {
            id: putting.id,
            mark,
            base: putting.base,
            copied: putting.copied,
            changed: putting.changed,
            format: T::FORMAT,
            name: work.name().to_owned(),
            // Nobody asks a state just kept for its file.
            file: String::new(),
        };
        self.put_text(&key::<T>(number, mark), &revision.text(putting.file))?;
        Ok(Kept::of(number, LoadedRevision { revision, work }))
    }

    /// The first mark from this one on whose key is not in use: neither listed nor holding a text. Otherwise a store that errs in
    /// one of the two could make this tab write over something.
    fn unused<T: Document>(
        &self,
        number: u32,
        mut mark: RevisionId,
    ) -> Result<RevisionId, StoreError> {
        let listed = Keys::of::<T>(&self.store)?
            .states
            .remove(&number)
            .unwrap_or_default();
        while listed.contains(&mark) || self.store.get(&key::<T>(number, mark))?.is_some() {
            mark.revision = mark.revision.checked_add(1).ok_or(StoreError::Full)?;
        }
        Ok(mark)
    }

    /// Puts a text under a key that was seen not to be in use, and reads it back.
    pub(super) fn put_text(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        let put = self.store.set(key, text);
        // What reads back is there, whatever the store said.
        if self.store.get(key).ok().flatten().as_deref() == Some(text) {
            return Ok(());
        }
        // Nothing stood here before this tab wrote: what is there now is its own half text.
        let _ = self.store.remove(key);
        Err(put.err().unwrap_or(StoreError::NotKept))
    }
}

pub(super) fn unkept<T: Document>(why: StoreError) -> Unkept {
    Unkept { what: T::WORD, why }
}
