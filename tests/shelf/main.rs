//! The shelf keeps lines and workshops whatever the browser's storage does, and never loses one.
#![cfg(not(target_arch = "wasm32"))]

mod backup;
mod bin;
mod books;
#[path = "../common/chance.rs"]
mod chance;
#[path = "../common/everything.rs"]
mod everything;
mod everywhere;
mod flaky;
mod fussy;
mod golden;
mod histories;
mod lines;
mod listing;
mod measured;
mod mending;
mod salvage;
mod slip;
#[path = "../common/small_pictures.rs"]
#[allow(dead_code, reason = "only the largest is needed here")]
mod small_pictures;
mod tabs;
mod world;
