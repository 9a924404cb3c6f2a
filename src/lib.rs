//! stub
pub mod bobbins;
pub mod braid;
#[cfg(target_arch = "wasm32")]
mod browser;
pub mod chart;
pub mod choice;
pub mod design;
pub mod dressing;
pub mod edit;
pub mod figures;
pub mod ladder;
pub mod plan;
pub mod share;
pub mod shelf;
pub mod takeoff;
pub mod taper;
pub mod threads;
pub mod track;
pub mod units;
#[cfg(target_arch = "wasm32")]
pub mod view;
pub mod weight;
pub mod yarn;
