//! The numbers that belong to a step.

use crate::base::rule::{Rule, rule};
use crate::base::units::text::Unit;

/// A number that belongs to some kinds of step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepValue {
    /// How long it takes.
    Hours,
    /// How warm it is.
    Celsius,
    /// Absolute pressure left in the jar.
    Millibar,
    /// Share of varnish in the oil, by mass.
    VarnishShare,
    /// Share of solvent in the varnish as it goes on, by mass.
    SolventShare,
}

impl StepValue {
    /// Every value, in the order of the link format: append only.
    pub const ALL: [Self; 5] = [
        Self::Hours,
        Self::Celsius,
        Self::Millibar,
        Self::VarnishShare,
        Self::SolventShare,
    ];

    /// Name, unit, range and step.
    pub const fn rule(self) -> Rule {
        match self {
            Self::Hours => rule("duration", Unit::Hour, 0.0, 4_800.0, 10),
            Self::Celsius => rule("temperature", Unit::Celsius, 0.0, 200.0, 1),
            Self::Millibar => rule("pressure left in the jar", Unit::Millibar, 1.0, 1_100.0, 10),
            Self::VarnishShare => rule("varnish in the oil", Unit::Percent, 0.0, 100.0, 1),
            Self::SolventShare => rule("solvent in the varnish", Unit::Percent, 0.0, 90.0, 1),
        }
    }

    /// What it means.
    pub const fn ground(self) -> &'static str {
        match self {
            Self::Hours => {
                "Hours unless you write min, days or weeks. The step is finished when the test of the step says so, whatever the clock says."
            }
            Self::Celsius => {
                "Degrees Celsius; write °F after the number for Fahrenheit. Fine single-hand lines: some seven days at 40 to 50 °C. Stout two-handed lines: some ten hours at 80 °C. Rule of thumb, no source."
            }
            Self::Millibar => {
                "Absolute pressure: what is left in the jar, not what the gauge shows. Oil can fill at most 1 − p/p₀ of the voids (Boyle). p₀ is the pressure of the air around you."
            }
            Self::VarnishShare => {
                "By mass. Only the solids of the varnish stay in the line. Varnish in later coats of oil is a rule of thumb, no source."
            }
            Self::SolventShare => {
                "By mass; 50 % is one to one. That is a rule of thumb for the sealing varnish, no source. All of it leaves the line again."
            }
        }
    }
}
