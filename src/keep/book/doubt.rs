//! Numbers that are possible and yet far from what is expected: a question to the maker, not a verdict.

use super::model::Source;

/// A number is doubted from this many spreads of what is expected of it on.
///
/// Our own choice. What is expected comes from beliefs whose spreads are our guess: even were the truth to wander twice as
/// far as believed, two and a half of its own spreads hold 99 of 100 honest numbers. The slips that are looked for start at a
/// factor of two, which is beyond ten spreads of any number a swatch or a line has.
pub const DOUBTED: f64 = 5.0;

/// A number that waits for the maker's word.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubt {
    /// Where it was measured.
    pub source: Source,
    /// The number, in the unit of its kind.
    pub measured: f64,
    /// What is expected of it.
    pub expected: f64,
    /// The spread of that, its measuring error included: one standard deviation.
    pub spread: f64,
    /// Whether it is learnt from meanwhile: it is within what was believed, and stands out from the other numbers.
    pub is_used: bool,
    /// A slip that would explain it.
    pub slip: Option<Slip>,
}

/// A slip that would explain a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// What the number looks like: a sentence.
    pub words: &'static str,
    /// The number to correct: the one in doubt, or another it was calculated with.
    pub at: Source,
    /// What was probably meant, in the unit of its field.
    pub value: f64,
}

impl Doubt {
    /// How far it is off, in spreads.
    pub fn off(&self) -> f64 {
        (self.measured - self.expected) / self.spread
    }
}
