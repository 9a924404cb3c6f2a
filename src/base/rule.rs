//! The rule of a number that somebody sets: name, unit, range and step.
//!
//! Every such number is kept as a whole count of its step ("quanta"), so that a field, a file and a link can only ever
//! give the same value.

use super::units::text::Unit;

/// What a number is, and which values it may take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// The name shown.
    pub name: &'static str,
    /// The unit of all numbers in this rule, and of the design file.
    pub unit: Unit,
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
    /// Steps in one unit; 1 means whole numbers only.
    pub steps: u32,
}

impl Rule {
    /// The value as a whole count of steps.
    // Every rule's range times its steps stays far below 2³².
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub fn quanta(&self, value: f64) -> u32 {
        (value * f64::from(self.steps)).round().max(0.0) as u32
    }

    /// The value of a count of steps.
    pub fn value(&self, quanta: u32) -> f64 {
        f64::from(quanta) / f64::from(self.steps)
    }

    /// The value brought to the nearest step.
    ///
    /// # Errors
    /// [`Misfit`] when it is no number, out of range, or not whole where only whole numbers make sense.
    pub fn admit(&self, value: f64) -> Result<f64, Misfit> {
        let rule = *self;
        if !value.is_finite() {
            return Err(Misfit::NotANumber { rule });
        }
        let half_step = 0.5 / f64::from(self.steps);
        if value < self.low - half_step || value >= self.high + half_step {
            return Err(Misfit::OutOfRange { rule, value });
        }
        if self.steps == 1 && value.fract() != 0.0 {
            return Err(Misfit::NotWhole { rule, value });
        }
        // Half a step outside, rounding may fall either way; what is admitted must be admitted again.
        let quanta = self
            .quanta(value)
            .clamp(self.quanta(self.low), self.quanta(self.high));
        Ok(self.value(quanta))
    }
}

/// A rule in the order it is read: name, unit, from, to, steps in one unit.
pub const fn rule(name: &'static str, unit: Unit, low: f64, high: f64, steps: u32) -> Rule {
    Rule {
        name,
        unit,
        low,
        high,
        steps,
    }
}

/// Why a value does not fit its rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Misfit {
    /// Infinite or undefined.
    NotANumber {
        /// The rule.
        rule: Rule,
    },
    /// Outside its range.
    OutOfRange {
        /// The rule with the allowed range.
        rule: Rule,
        /// The value given.
        value: f64,
    },
    /// Not whole where only whole numbers make sense.
    NotWhole {
        /// The rule.
        rule: Rule,
        /// The value given.
        value: f64,
    },
}
