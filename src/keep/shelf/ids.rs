//! Who is who: the lasting name of a piece of work, the tab that wrote a state of it, and that state's place in time.

use core::fmt;

use crate::base::checksum::checksum;

/// The lasting name of a line or workshop: the same in every browser it travels to. 64 bits drawn by chance when it is
/// first kept; the core draws nothing, the page hands it in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(pub u64);

/// One opening of the page. 64 bits drawn by chance, so that no two tabs ever write under the same key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Writer(pub u64);

/// A state of a piece of work: how many states came before it, who wrote it, and what it holds. The last so that a state
/// that was lost, and written again otherwise, is not taken for the one somebody saw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RevisionId {
    /// Counted from 1.
    pub revision: u64,
    /// Who wrote it.
    pub writer: Writer,
    /// CRC-32 of its file.
    pub sum: u32,
}

/// What a tab last saw of a piece of work. Only reading or keeping gives one, and without one nothing there is can be
/// followed by a newer state: what was never read cannot be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SeenRevision {
    pub(super) number: u32,
    pub(super) id: Id,
    pub(super) mark: RevisionId,
}

impl RevisionId {
    /// The mark of a state of a file.
    pub(super) fn of(revision: u64, writer: Writer, file: &str) -> Self {
        let sum = checksum(&[file.as_bytes()]);
        Self {
            revision,
            writer,
            sum,
        }
    }

    /// As it stands in keys: the revision, the writer in sixteen hexadecimal digits, the sum in eight, dashes between.
    pub(super) fn word(self) -> String {
        format!("{}-{:016x}-{:08x}", self.revision, self.writer.0, self.sum)
    }

    /// The mark of a word, if that is written as [`RevisionId::word`] would.
    pub(super) fn of_word(word: &str) -> Option<Self> {
        let (revision, rest) = word.split_once('-')?;
        let (writer, sum) = rest.split_once('-')?;
        let mark = Self {
            revision: revision.parse().ok()?,
            writer: Writer(u64::from_str_radix(writer, 16).ok()?),
            sum: u32::from_str_radix(sum, 16).ok()?,
        };
        (mark.revision > 0 && mark.word() == word).then_some(mark)
    }
}

impl Id {
    /// The name of what travelled without one: made of its place and text, so that it is the same whenever it is asked for.
    pub(super) fn of_text(key: &str, text: &str) -> Self {
        Self(mixed(&[key.as_bytes(), text.as_bytes()]))
    }

    /// The name of a copy that parts from this one at a state. Whoever parts them comes to the same name.
    pub(super) fn parted(self, mark: RevisionId) -> Self {
        Self(mixed(&[
            &self.0.to_le_bytes(),
            &mark.revision.to_le_bytes(),
            &mark.writer.0.to_le_bytes(),
            &mark.sum.to_le_bytes(),
        ]))
    }

    /// The name of a copy known by what stands in it.
    pub(super) fn parted_by_text(self, text: &str) -> Self {
        Self(mixed(&[&self.0.to_le_bytes(), text.as_bytes()]))
    }

    /// The name of sixteen hexadecimal digits, if they are written as [`Id`]s are.
    pub(super) fn of_word(word: &str) -> Option<Self> {
        let id = Self(u64::from_str_radix(word, 16).ok()?);
        (id.to_string() == word).then_some(id)
    }
}

impl fmt::Display for Id {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:016x}", self.0)
    }
}

impl SeenRevision {
    /// The number it has in this browser.
    pub fn number(&self) -> u32 {
        self.number
    }

    /// Its lasting name.
    pub fn id(&self) -> Id {
        self.id
    }

    /// Which state was seen.
    pub fn mark(&self) -> RevisionId {
        self.mark
    }
}

/// FNV-1a of 64 bits over parts and their lengths, stirred once more. Its constants are those of its authors (from
/// memory); all that counts here is that the same parts give the same number.
fn mixed(parts: &[&[u8]]) -> u64 {
    let step = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    let part = |hash: u64, part: &&[u8]| {
        let length = (part.len() as u64).to_le_bytes();
        part.iter().chain(&length).fold(hash, step)
    };
    let hash = parts.iter().fold(0xcbf2_9ce4_8422_2325, part);
    let stirred = (hash ^ (hash >> 32)).wrapping_mul(0xd6e8_feb8_6659_fd93);
    stirred ^ (stirred >> 32)
}
