//! What came of reading a file of everything, and the limits of such files.

use core::fmt;

use crate::keep::shelf::store::StoreError;

/// The word by which the file is known.
pub const FORMAT: &str = "taperwright backup";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 1;
/// Largest file read, in bytes. A browser gives a page some five million characters; none takes more than six bytes in a
/// file, and the rest is for what stands around the pieces. So whatever a browser kept can come back.
pub const LARGEST: usize = 32_000_000;
/// Most pieces in a file: lines, workshops and unreadable texts together.
pub const MOST_PIECES: usize = 20_000;

/// Why a file brings nothing in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BackupError {
    /// More bytes than any such file has.
    TooLarge,
    /// Something else altogether.
    NotABackup,
    /// Written by a newer version of this program.
    Newer(u32),
    /// Cut off, altered, or with more in it than there is room for.
    Damaged,
    /// The browser would not keep anything of it.
    Store(StoreError),
}

impl fmt::Display for BackupError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The file is too large: a file of everything has at most {LARGEST} bytes. Is it the right one?"
            ),
            Self::NotABackup => write!(
                out,
                "This is not a file of everything from Taperwright. Choose one that was saved here."
            ),
            Self::Newer(version) => write!(
                out,
                "The file is of format {version}; this page reads up to {VERSION}. Reload the page to get its newest version."
            ),
            Self::Damaged => write!(
                out,
                "The file is damaged: it was cut off or altered. Nothing of it was taken in."
            ),
            Self::Store(error) => write!(out, "{error} Nothing of the file was taken in."),
        }
    }
}

/// What an import did. What was there before is as it was.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Imported {
    /// Lines and workshops that were not here.
    pub added: usize,
    /// Those that are here already, just so.
    pub same: usize,
    /// Of these, those that lie in the bin.
    pub in_bin: usize,
    /// Those that are here otherwise: both are kept, the one from the file under another name.
    pub beside: usize,
    /// Texts that cannot be read here, kept as they are.
    pub unreadable: usize,
    /// Those the browser would not keep; the file has them still.
    pub unkept: usize,
    /// Why it would not, where it would not.
    pub why: Option<StoreError>,
}

impl fmt::Display for Imported {
    /// In words, for the maker.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts = [
            (self.added, " came in"),
            (self.same, " already here, just so"),
            (
                self.beside,
                " already here but not the same, so both are kept, that of the file under another name",
            ),
            (self.unreadable, " not readable, and kept as text"),
            (self.unkept, " not taken in"),
        ];
        let told: Vec<String> = parts
            .iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, words)| format!("{count}{words}"))
            .collect();
        if told.is_empty() {
            return write!(out, "The file is empty; nothing came in.");
        }
        write!(
            out,
            "Of the lines and workshops in the file: {}.",
            told.join("; ")
        )?;
        if self.in_bin > 0 {
            write!(
                out,
                " Of those here already, {} in the bin.",
                lie(self.in_bin)
            )?;
        }
        match self.why {
            Some(why) => write!(out, " {why} Keep the file: it has them still."),
            None => Ok(()),
        }
    }
}

fn lie(count: usize) -> String {
    let verb = if count == 1 { "lies" } else { "lie" };
    format!("{count} {verb}")
}
