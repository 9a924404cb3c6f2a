//! The state of the page, and the only ways it changes.

mod chart_choices;
mod ghost;
mod keeping;
mod opening;
mod paced;
mod sketching;
mod state;
mod switching;
mod wound;

pub(crate) use ghost::Ghost;
pub(crate) use keeping::keep;
pub(crate) use opening::{StorageState, look, settle_all, shelf};
pub(crate) use paced::follow as pace_figures;
pub(crate) use state::{Bench, Cursor, HeldPoint, bench};
