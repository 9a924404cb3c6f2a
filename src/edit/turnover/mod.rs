//! What would make a line land more gently, or carry farther, in a stated cast.
//!
//! [`influences`] says what each control point of a drawing does to the energy that reaches the leader, and to the head. [`reshape()`]
//! offers another drawing of the same class. Both look at the line exactly as drawn for the direction, since threads come in steps;
//! what is offered is judged by the line as it will be braided.

mod balance;
mod drawn;
mod hand;
mod handles;
mod influence;
mod reshape;
mod standing;
mod whole_threads;
mod wish;

pub use handles::{MOST_OF_THE_WAY, MOST_RESIZED, MOST_SHIFTED};
pub use influence::{Change, Influence, MOST_POINTS, influences};
pub use reshape::{LEAST_GAIN, Reshaped, reshape};
pub use standing::MOST_CHANCE_LOST;
pub use wish::{NoReshape, Wish};
