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
mod prefixes;
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
pub use prefixes::{
    ASIDE_KEY, BIN_KEY, LINE_KEY, LineNumber, OPEN_KEY, STEPS_KEY, WORKSHOP_KEY, WorkshopNumber,
    is_state,
};
pub use reminder::{Exported, MOST_DAYS, MOST_SAVES, Reminder};
pub use revisions::UnreadableText;
pub use settle::Settled;
pub use sought::{Order, sought};
pub use store::{Shelf, Store, StoreError, Unkept};
