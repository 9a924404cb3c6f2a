//! Photographs of braids with a known truth. The camera itself is tried first: a measurement can be no better than what it is tried on.
//!
//! Pictures of a run are kept in `photo-pictures` of the target folder, to look at.
#![cfg(not(target_arch = "wasm32"))]

mod accuracy;
mod camera;
mod library;
mod limits;
mod outline;
mod pictures;
mod render;
