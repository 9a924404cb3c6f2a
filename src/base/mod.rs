//! What knows nothing of lines: quantities and their units, rules of a number, short lists to choose from, least squares.

pub(crate) mod checksum;
pub mod choice;
pub mod estimate;
pub mod units;
