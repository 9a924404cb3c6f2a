//! The taper in the readings of a line: few control points with straight pieces between.
//!
//! 1. Readings of one place are put together (`places`). Their scatter follows from how each differs from its neighbours
//!    (`scatter`), and what contradicts both sides is set aside (`filter`).
//! 2. The best cut into straight pieces is found exactly and joined to a broken line, whose knots are then moved, taken out and put
//!    in (`base::segments`).
//! 3. Every reading is judged by the line found, until the judgement settles (`judge`).
//! 4. Pieces that may be level are made level, and a line that may be the same from both ends is made so (`shape`).

mod data;
mod filter;
mod find;
mod judge;
mod places;
mod scatter;
mod shape;
mod spread;
mod taper;

pub use find::find;
pub use taper::{Asked, CLOSENESS, FoundPoint, FoundTaper};
