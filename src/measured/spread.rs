//! A number with its error.

/// A number with one standard deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread<T> {
    /// The number.
    pub value: T,
    /// One standard deviation.
    pub spread: T,
}
