//! An entry of the book.

use super::model::Source;
use super::workshop::Workshop;

/// An entry of the book, by its place in its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BookEntry {
    /// A swatch.
    Swatch(usize),
    /// A line made.
    Line(usize),
}

impl BookEntry {
    /// Whether a number was measured for this entry.
    pub fn has(self, source: Source) -> bool {
        match source {
            Source::Swatch(index, _) => self == Self::Swatch(index),
            Source::Line(index, ..) => self == Self::Line(index),
        }
    }
}

impl Workshop {
    /// The workshop with an entry of its book left out.
    #[must_use]
    pub fn without(&self, entry: BookEntry) -> Self {
        let mut left = self.clone();
        match entry {
            BookEntry::Swatch(index) if index < left.swatches.len() => {
                left.swatches.remove(index);
            }
            BookEntry::Line(index) if index < left.records.len() => {
                left.records.remove(index);
            }
            BookEntry::Swatch(_) | BookEntry::Line(_) => {}
        }
        left
    }
}
