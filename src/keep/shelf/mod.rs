//! The lines and workshops kept in this browser, so that none is ever lost.
//!
//! - **Nothing is written over.** Every state has a key of its own: number, revision, and the tab that wrote it. A new
//!   state stands beside the one it was made from; what lies behind both is let go only when the new one read back as
//!   written. So one state that reads is always there, whatever a write does.
//! - **No list is kept.** What there is, is read off the keys. The note of which line is open is a hint.
//! - **What cannot be read is left alone**, listed, and exported as it stands.
//! - **Two tabs** never lose each other's work: who was there first keeps the number, the other's becomes a copy beside it.
//! - **Only a shelf that was loaded can write**, and only what was read before ([`SeenRevision`]) can be followed by a new state.
//!
//! ```
//! # use std::collections::BTreeMap;
//! # use taperwright::design::{Design, demo::demo};
//! # use taperwright::edit::Edit;
//! use taperwright::keep::shelf::{Lookup, Id, Shelf, Writer, memory::Memory};
//!
//! let mut shelf = Shelf::load(Memory::default(), Writer(1)).expect("there is storage");
//! let kept = shelf.keep_new(Id(7), &demo(), None).expect("there is room");
//! let renamed = Edit::Name("Reed Pool".to_owned()).apply(&demo())?;
//! shelf.keep(&kept.seen, &renamed, None).expect("there is room");
//! assert!(matches!(shelf.look::<Design>(1), Lookup::Kept(kept) if kept.work == renamed));
//! # Ok::<(), taperwright::design::refusal::Refusal>(())
//! ```

pub mod backup;
mod bin;
mod document;
mod find;
mod ids;
mod keep;
mod keys;
pub mod memory;
mod mend;
mod news;
mod reminder;
mod revision;
mod revisions;
mod settle;
mod sought;
mod steps;
mod store;

pub use document::{Document, Unread};
pub use find::{EntryStatus, Kept, Lookup, ShelfEntry};
pub use ids::{Id, RevisionId, SeenRevision, Writer};
pub use keep::{Keeping, Parted};
pub use keys::number_in;
pub use mend::Mending;
pub use news::{News, concerns};
pub use reminder::{Exported, MOST_DAYS, MOST_SAVES, Reminder};
pub use revisions::UnreadableText;
pub use settle::Settled;
pub use sought::{Order, sought};
pub use store::{Store, StoreError, Unkept};

/// Keys of lines: this, then the number, then the mark of a state.
pub const LINE_KEY: &str = "taperwright/line/";
/// Keys of workshops, in the same manner.
pub const WORKSHOP_KEY: &str = "taperwright/workshop/";
/// Keys of the steps that can be undone on a line: this, then its number.
pub const STEPS_KEY: &str = "taperwright/steps/";
/// Keys of notes that something lies in the bin: this, then the kind.
pub const BIN_KEY: &str = "taperwright/bin/";
/// Keys of texts from a backup that could not be read: this, then a name made of the text.
pub const ASIDE_KEY: &str = "taperwright/unreadable/";
/// Key of the number of the open line.
pub const OPEN_KEY: &str = "taperwright/open";

/// Whether a key is that of a state, whose text never changes: so a copy of it kept elsewhere cannot be out of date.
pub fn is_state(key: &str) -> bool {
    let behind = |prefix| key.strip_prefix(prefix);
    let marked = behind(LINE_KEY).or_else(|| behind(WORKSHOP_KEY));
    marked.is_some_and(|rest| rest.contains('/')) || key.starts_with(ASIDE_KEY)
}

/// The number of a kept line.
pub type LineNumber = u32;
/// The number of a kept workshop.
pub type WorkshopNumber = u32;

/// The shelf: a store that was loaded, and the rules for using it.
#[derive(Clone, Debug)]
pub struct Shelf<S> {
    store: S,
    writer: Writer,
}

impl<S: Store> Shelf<S> {
    /// The shelf on a store whose keys can be read. Nothing is written by it, and nothing can be written without it.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read: then there is nothing to write on either.
    pub fn load(store: S, writer: Writer) -> Result<Self, StoreError> {
        store.keys()?;
        Ok(Self { store, writer })
    }

    /// The store below.
    pub fn into_store(self) -> S {
        self.store
    }

    /// Remembers a line as the one to open with.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn open(&mut self, number: LineNumber) -> Result<(), StoreError> {
        let note = number.to_string();
        if self.store.get(OPEN_KEY)?.as_deref() == Some(&note) {
            return Ok(());
        }
        self.store.set(OPEN_KEY, &note)
    }
}
