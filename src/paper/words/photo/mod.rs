//! What is said of a braid measured from a photo: [`PhotoAim`] is what for, `numbers` says what was measured, `refusals` why nothing
//! was, `evenness` how it is along the line, `check_outcome` what became of it as checks; `texts` says the rest.

mod aim;
mod check_outcome;
mod degrees;
mod evenness;
mod numbers;
mod refusals;
mod texts;

pub use aim::{PhotoAim, keep_picture, written};
pub use check_outcome::{NO_ERROR, check_outcome};
pub use evenness::{doubts, evenness};
pub use numbers::{
    angle, crossings, diameter, in_wall, known_by, on_surface, read_threads, skew, threads, verdict,
};
pub use refusals::refusal;
pub use texts::*;
