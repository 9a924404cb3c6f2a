//! Where things are on the chart: bands over one axis of length.
//!
//! Every place on the line goes to its pixel and back through [`Scale::x_of`] and [`Scale::at_of`], every size through
//! [`Scale::half_thickness`] and [`Scale::diameter_of`]. So long level stretches can be drawn short ([`folds`]), and thickness can
//! begin at a core that is not drawn, for all that is drawn, written and grabbed alike.
//!
//! The scale stays after a change as long as the line still fits, so that nothing moves under the finger. Zooming enlarges lengths
//! only and leaves thickness, so that a slope is never judged by two scales.

pub mod bands;
pub mod folds;
mod heights;
mod map;
mod thickness;
mod ticks;
mod whole;

pub use bands::{Band, NARROW};
pub use map::{DIMENSION_LINE, LEFT, RIGHT, Scale};
pub use ticks::Tick;
pub use whole::Manner;
