//! Numbers from outside the project, each beside its source.
//!
//! "Analytic" rows were worked out by hand or by a second route from the geometry; "from memory" and "common practice,
//! no source" mean just that. A row is compared to the last digit printed.
#![cfg(not(target_arch = "wasm32"))]

mod bobbins;
mod braid;
mod braider;
mod calendar;
mod compare;
#[path = "../common/designs.rs"]
mod designs;
mod doubts;
mod dressing;
mod estimate;
mod first_answers;
mod lag;
mod late;
mod learning;
mod letters;
mod made_of;
mod pace;
mod practice;
mod prediction;
mod proof;
mod recipe;
#[path = "../common/row.rs"]
mod row;
mod sample;
mod second_calculation;
mod segments;
mod simulation;
mod starts;
mod strength;
mod takeoff;
mod track;
mod weight;
mod worth;
mod yarn;

/// Metres in a foot, written out here so that the tests do not borrow the number they check.
const FOOT: f64 = 0.3048;
