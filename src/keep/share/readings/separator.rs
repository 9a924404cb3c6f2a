//! What separates the cells of a row.

/// What separates the cells of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Separator {
    /// One character, between cells that may stand in quotes.
    Mark(u8),
    /// Two blanks or more, so that a cell may have single ones.
    Blanks,
    /// One blank or more.
    Blank,
}
