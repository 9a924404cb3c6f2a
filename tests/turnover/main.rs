//! How a line turns over: against closed forms, against a general library, and against a chain of point masses; and laws that hold for
//! every line.
//!
//! No figure measured on a real cast is among them: none was at hand that names line, loop and speed.
#![cfg(not(target_arch = "wasm32"))]

mod analytic;
mod as_a_chain;
mod chain;
#[path = "../common/chance.rs"]
mod chance;
mod formulas;
mod laws;
mod library;
mod lines;
mod orderings;
#[path = "../common/row.rs"]
mod row;
mod scales;
