//! The lines, measured lines and workshops kept in this browser, so that none is ever lost.
//!
//! - **Nothing is written over.** Every state has a key of its own: number, revision, and the tab that wrote it. A new
//!   state stands beside the one it was made from; what is older than both is let go only when the new one read back as
//!   written. So one state that reads is always there, whatever a write does.
//! - **No list is kept.** What there is, is read off the keys. The note of which line is open is a hint.
//! - **What cannot be read is left alone**, listed, and exported as it stands.
//! - **Two tabs** never lose each other's work: who was there first keeps the number, the other's becomes a copy beside it.
//! - **Only a shelf that was loaded can write**, and only what was read before ([`SeenRevision`]) can be followed by a new state.
//!
//! # Keys
//!
//! | key | what |
//! |---|---|
//! | `taperwright/line/<number>/<mark>` | a revision of a line |
//! | `taperwright/workshop/<number>/<mark>` | a revision of a workshop, that is its bench book |
//! | `taperwright/measured/<number>/<mark>` | a revision of a measured line |
//! | `taperwright/bin/<kind>/<number>/<mark>` | the note that this revision is in the bin |
//! | `taperwright/unreadable/<name>` | a text from a file of everything that could not be read here |
//! | `taperwright/steps/<number>` | a line's steps to undo and redo |
//! | `taperwright/wound/<number>` | which of a line’s bobbins are wound |
//! | `taperwright/open` | the number of the line last open: a hint |
//! | `taperwright/exported` | day of the last export, and how many changes had been kept by then |
//!
//! A mark is `<revision>-<writer>-<sum>`: how many revisions there were with this one, the 64 random bits of the tab in
//! hexadecimal, and the CRC-32 of the file. Files under a number alone are of versions that were never released: they stay, and
//! are listed as unreadable.
//!
//! # A revision
//!
//! ```text
//! taperwright kept 1
//! id 0123456789abcdef
//! mark 2-0fedcba987654321-a0dbb35f
//! base 1-0fedcba987654321-d0f2b7c8
//! copied none
//! changed 2026-11-26
//! format 4
//! name Reed Pool
//! checksum 1e8f3642
//!
//! {"format":"taperwright design","version":4,"design":{…}}
//! ```
//!
//! `id` is the lasting name, the same wherever the line travels. `base` is the mark of the revision it was made from, `copied`
//! that of the one it is a copy of. `format` and `name` are the file's, so that a list reads no file. `checksum` is the CRC-32 of
//! the lines above it and the file. Of a higher form only this holds: the file comes after the first empty line.
//!
//! # Rules
//!
//! - **Writing**: the next revision goes under a key that is neither listed nor holds a text, and is read back. What does not read
//!   back is taken away. Only then do revisions older than its base go, the oldest first: two are kept.
//! - **Reading**: the newest revision that is whole and can be read counts. Lists are read off the keys.
//! - **Newer** forms and formats are shown where their file holds nothing unknown, else listed as newer. Nothing is written under
//!   their number.
//! - **Two tabs** that look before either writes both succeed, since storage cannot compare and write in one step. Then two
//!   revisions share a number, and [`Shelf::settle`] gives one of them a number of its own. Names of copies follow from what they
//!   copy, so two tabs that settle at once make one copy.
//! - **Numbers** belong to one browser. A record in a bench book names its line by number and points to the wrong one if the line
//!   had to move.
//! - **The bin** is a note; nothing moves. It is void once the line is changed. The newest revision goes last when it is emptied.
//! - **Steps** are never dropped to make room.
//! - A line that was kept once has one revision: a browser that loses that key has lost the line.
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
mod wound;

pub use document::{Document, Unread};
pub use find::{EntryStatus, Kept, Lookup, ShelfEntry};
pub use ids::{Id, RevisionId, SeenRevision, Writer};
pub use keep::{Keeping, Parted};
pub use keys::number_in;
pub use mend::{Mending, is_damaged};
pub use news::{News, concerns};
pub use prefixes::{
    ASIDE_KEY, BIN_KEY, LINE_KEY, LineNumber, MEASURED_KEY, OPEN_KEY, STEPS_KEY, WORKSHOP_KEY,
    WOUND_KEY, WorkshopNumber, is_state,
};
pub use reminder::{
    Exported, MOST_DAYS, MOST_DAYS_OF_A_WEEK, MOST_SAVES, MOST_SAVES_OF_A_WEEK, Reminder,
};
pub use revisions::UnreadableText;
pub use settle::Settled;
pub use sought::{Order, sought};
pub use store::{Shelf, Store, StoreError, Unkept};
pub use wound::wound_key;
