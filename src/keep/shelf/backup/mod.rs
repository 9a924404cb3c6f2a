//! Everything there is as one file, and back again without writing over anything. See DEVELOPERS.md.

mod contents;
mod escapes;
mod import;
mod outcome;

pub use contents::is_one;
pub use outcome::{BackupError, FORMAT, Imported, LARGEST, MOST_PIECES, VERSION};
