//! What to measure next: what can be measured now, the minutes it takes, and how much surer it makes the class of a line.
//!
//! First what cannot be made up for: a bare line is weighed before it is oiled, or never; an oiled one before the next coat. Then
//! what is finished and waits, then a question that holds back what is learnt. All else is sorted by what it adds to the chance of
//! the class in a minute ([`Worths`]).
//!
//! No number is needed for that: with all errors normal and the model linear near what is known, how far a measurement narrows does
//! not depend on what it says ([`crate::base::estimate::narrowed()`]). What it really brought is asked of the book without it
//! ([`Brought`]).

mod around;
mod brought;
mod choice;
mod known;
mod lengths;
mod line_rows;
mod measure;
mod minutes;
mod possible;
mod scene;
mod sureness;
mod swatch_rows;
mod waiting;
mod worths;

pub use brought::Brought;
pub use choice::{chance_words, next_measure};
pub use lengths::THREAD_LENGTH;
pub use measure::{NextMeasure, SwatchPart};
pub use possible::{begun_swatch, first_of_rest, swatch_for_thread};
pub use sureness::Sureness;
pub use worths::{ENOUGH, Worth, Worths};
