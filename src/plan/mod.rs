//! All that follows from a design.
//!
//! [`Plan::of`] is total, deterministic and free of I/O, clock and browser. Views read the plan and calculate nothing.
//!
//! What a plan holds stands in `contents`, its parts in a file each, and `calculate` puts them together. A *level* is a state of
//! the machine: a number of threads, some of them heavier. A *change* passes from one level to the next. A *stop* is a place where
//! one or more changes are made; a *gear interval* lies between two stops.
//!
//! A part named `rear` is everything after the belly, so that tip, front, belly and rear add up to the whole.

mod adjusted;
pub mod bobbins;
mod calculate;
mod contents;
pub mod days;
mod drawn_mass;
mod dressing;
pub mod event;
mod fly_line;
mod gear_intervals;
mod head_range;
pub mod layout;
pub mod left_over;
mod notice;
mod notices;
mod outcome;
pub mod prediction;
pub mod run;
mod schedule;
mod sections;
mod step_report;
pub mod weighed_bobbin;
pub mod winder;
pub mod wound;

pub use adjusted::{AdjustedPlan, Drawn};
pub use contents::Plan;
pub use drawn_mass::{diameters_of, drawn_head};
pub use event::{Action, Event, Set};
pub use fly_line::{AsDrawn, original_fly_line};
pub use gear_intervals::GearInterval;
pub use head_range::{HeadRange, RearHead};
pub use notice::{AngleCause, BetterWheels, GearFault, Notice, OutsideParts};
pub use outcome::{Interlacings, Strength, Workload, WorstAngle, YarnTotal};
pub use sections::{SectionWeight, WhyOff};
pub use step_report::{CoatReport, Ledger, Mixture, Portion, StepReport, StepWarning};
