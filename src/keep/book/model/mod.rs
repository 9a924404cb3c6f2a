//! What the parameters make one expect of each number measured.

pub(super) mod line;
mod measure;
mod swatch;

pub(super) use line::LineModel;
pub(super) use measure::Model;
pub use measure::{MeasureKind, Source};
pub(super) use swatch::SwatchModel;
