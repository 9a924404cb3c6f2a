//! The trade itself: yarn, machine, taper, braid, take-off, dressing and weight, each by its own formulas.

pub mod bobbin;
pub mod convergence;
pub mod dressing;
pub mod gearing;
pub mod geometry;
pub mod ladder;
pub mod letters;
pub mod recipe;
pub mod stretch;
pub mod takeoff;
pub mod taper;
pub mod threads;
pub mod track;
pub mod vacuum;
pub mod weight;
pub mod yarn;
