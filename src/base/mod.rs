//! What knows nothing of lines: quantities and their units, rules of a number, short lists to choose from, least squares, straight
//! pieces, samples.

pub mod bounded;
pub(crate) mod checksum;
pub mod choice;
pub mod estimate;
pub mod rule;
pub mod sample;
pub mod segments;
pub mod units;
