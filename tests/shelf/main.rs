//! The shelf keeps lines and workshops whatever the browser's storage does, and never loses one.
#![cfg(not(target_arch = "wasm32"))]

#[path = "../common/chance.rs"]
mod chance;
mod flaky;
mod histories;
mod slip;
mod world;
