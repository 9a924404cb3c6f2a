//! How much fits into a bench book.

/// Most swatches in a book.
pub const MOST_SWATCHES: usize = 500;
/// Most lines in a book.
pub const MOST_RECORDS: usize = 500;
/// Most coats of oil measured on a line.
pub const MOST_COATS: usize = 12;
/// Most diameters measured at one stage of a line.
pub const MOST_DIAMETERS: usize = 50;
/// Most numbers of a swatch that can be confirmed: all of them.
pub const MOST_CONFIRMED: usize = 13;
