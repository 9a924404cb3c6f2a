//! What came of reading a file of everything, and the limits of such files.

use core::fmt;

use crate::keep::share::envelope::CUT_OFF;
use crate::keep::shelf::store::StoreError;

/// The word by which the file is known.
pub const FORMAT: &str = "taperwright backup";
/// The format written; files of a higher number come from a newer Taperwright.
pub const VERSION: u32 = 2;
/// Largest file read, in bytes. A browser gives a page some five million characters; none takes more than six bytes in a
/// file, and the rest is for what stands around the pieces. So whatever a browser kept can come back.
pub const LARGEST: usize = 32_000_000;
/// Most pieces in a file: lines, workshops, measured lines and unreadable texts together.
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
    /// The end is missing, and there is no whole piece before it.
    CutOff,
    /// Altered so that there is no whole piece, or with more in it than there is room for.
    Damaged,
    /// The browser would not keep anything of it.
    Store(StoreError),
}

impl fmt::Display for BackupError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                out,
                "The file is too large: a backup has at most {LARGEST} bytes. Check that you chose the right file."
            ),
            Self::NotABackup => write!(
                out,
                "This is not a backup from Taperwright. Choose a backup that was saved here."
            ),
            Self::Newer(version) => write!(
                out,
                "The backup has format {version}; this page reads up to {VERSION}. Reload the page to get the newest version."
            ),
            Self::CutOff => write!(out, "{CUT_OFF} Nothing was restored."),
            Self::Damaged => write!(
                out,
                "The backup is damaged: nothing in it can be read. Look for another copy of it. Nothing was restored."
            ),
            Self::Store(error) => write!(out, "{error} Nothing was restored."),
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
    /// Pieces of the file that are damaged; what is left of them is kept as a text.
    pub damaged: usize,
    /// Whether the end of the file is missing: nobody knows how many pieces are.
    pub is_cut_off: bool,
    /// Those the browser would not keep; the file has them still.
    pub unkept: usize,
    /// Why it would not, where it would not.
    pub why: Option<StoreError>,
}

impl fmt::Display for Imported {
    /// In words, for the maker.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts = [
            (self.added, " restored"),
            (self.same, " already here, unchanged"),
            (
                self.beside,
                " here already but different, so saved as copies under another name",
            ),
            (self.unreadable, " not readable, so saved as text"),
            (
                self.damaged,
                " damaged, so what is left of them is saved as text",
            ),
            (self.unkept, " not restored"),
        ];
        let parts: Vec<String> = parts
            .iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, words)| format!("{count}{words}"))
            .collect();
        if self.is_cut_off {
            write!(out, "{CUT_OFF} ")?;
        } else if self.damaged > 0 {
            write!(out, "The backup is damaged. Look for another copy of it. ")?;
        }
        if parts.is_empty() {
            return write!(out, "The backup is empty. Nothing was restored.");
        }
        write!(
            out,
            "Lines and workshops in the backup: {}.",
            parts.join("; ")
        )?;
        if self.in_bin > 0 {
            write!(
                out,
                " Of those already here, {} in the bin.",
                are(self.in_bin)
            )?;
        }
        match self.why {
            Some(why) => write!(out, " {why} Do not delete the backup: it still has them."),
            None => Ok(()),
        }
    }
}

fn are(count: usize) -> String {
    let verb = if count == 1 { "is" } else { "are" };
    format!("{count} {verb}")
}
