//! The file of everything, version 2, and how it comes in. `style/boot.js` alone writes it, since it must also be written when the
//! program does not open. JSON, at most 32,000,000 bytes and 20,000 items, nested no deeper than 8:
//!
//! ```json
//! {
//!   "format": "taperwright backup",
//!   "version": 2,
//!   "lines": [{ "id": "0123456789abcdef", "revision": 2, "changed": "2026-11-26", "binned": false, "file": "{…}" }],
//!   "workshops": [],
//!   "measured": [],
//!   "unreadable": [{ "key": "taperwright/line/x", "text": "half a li" }]
//! }
//! ```
//!
//! `measured` holds measured lines; version 1 has no such list, and is read. `file` is the text of a design file, bench book or file
//! of a measured line, unchanged; `changed` may be null. `unreadable` holds every other text under a
//! key of lines and workshops: damaged, of a newer or unreleased version, or written by a second tab at the same moment. Steps to
//! undo are left out.
//!
//! Nothing is written over. The same `id` with the same content is passed over; with other content it comes in beside, under an `id`
//! made of both, so taking the file in twice adds nothing. An unreadable text is read once more, else kept under
//! `taperwright/unreadable/`, never under the key the file names.
//!
//! Of a file that is damaged or was cut off, every whole piece comes in. What is left of the others is kept as a text under
//! `taperwright/unreadable/` too, so that the next such file has it again, and their number is told. A piece is whole when the text of
//! its file is; its lasting name, count, day and bin are only taken over where they are sound.

mod contents;
mod escapes;
mod import;
mod outcome;
mod piece;
mod salvage;

pub use contents::is_one;
pub use outcome::{BackupError, FORMAT, Imported, LARGEST, MOST_PIECES, VERSION};
