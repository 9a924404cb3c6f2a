//! What is to be estimated.

/// What is believed of an unknown before anything is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unknown {
    /// Its likeliest value. It may lie beyond the range, where what is measured can only tell so far.
    pub mean: f64,
    /// Spread of the belief, one standard deviation; more than 0.
    pub spread: f64,
    /// Least value it can have.
    pub low: f64,
    /// Greatest value it can have, above the least.
    pub high: f64,
}
