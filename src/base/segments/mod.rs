//! Straight pieces in numbers measured along a way: where one piece ends and the next begins. This room knows nothing of lines.
//!
//! [`partition()`] cuts the numbers into pieces, each with a straight line of its own, and finds the best cut of all. A [`Broken`]
//! line is continuous: its pieces meet in knots. [`refine()`] and [`polish`] move the knots to the least sum of squares, and [`settle()`] chooses
//! how many knots there are by a [`Criterion`].

mod broken;
mod criterion;
mod join;
mod partition;
mod refine;
mod settle;
mod sums;
mod ties;

pub use broken::{Bounds, Broken};
pub use criterion::{Criterion, FAR};
pub use join::join;
pub use partition::{Partition, partition};
pub use refine::{Refined, covariance, polish, refine};
pub use settle::settle;
pub use sums::{Straight, Sums};
pub use ties::Ties;
