//! What must hold for every design, tried on random ones.
//!
//! Sources: none needed. Each law follows from what the words mean (a whole is the sum of its parts, a line weighs the
//! same from both ends) and is analytic.
#![cfg(not(target_arch = "wasm32"))]

mod book;
mod calendar;
#[path = "../common/chance.rs"]
mod chance;
mod checks;
mod clock;
mod compare;
mod copied;
mod corrections;
#[path = "../common/designs.rs"]
mod designs;
mod dressing;
mod edits;
mod example;
mod found;
mod found_lines;
mod honest;
mod ladders;
mod learning;
mod likely;
mod lines;
mod mass;
mod measured_lines;
mod measured_round_trips;
mod moves;
mod orders;
mod pinned;
mod plans;
mod readings;
mod reshaped;
mod round_trips;
mod runs;
mod sample;
mod scales;
mod schedule;
mod setup;
mod simulated;
mod sketch;
#[path = "../common/small_pictures.rs"]
#[allow(dead_code, reason = "one picture is enough here")]
mod small_pictures;
mod starts;
mod steady;
mod stops;
mod tapers;
mod visible_ranges;
mod wheels;
mod winding;
mod wishes;
mod worth;
