//! What the maker measures on the braid while the line is made, and how it is judged.

use serde::{Deserialize, Serialize};

use super::check_kind::CheckKind;
use super::measured::Measured;

/// Most checks kept of a run.
pub const MOST_CHECKS: usize = 200;
/// A value so many times as large as planned, or as small, is a slip of the pen. Our own choice: no gear is so wrong.
pub(super) const MOST_OFF: f64 = 5.0;
/// Up to so many times the range in which a value is fine it drifts; beyond it the maker should stop. Our own choice.
const DRIFTING: f64 = 2.0;
/// Steps in one unit in which values of checks are kept: text and number are then the same.
const STEPS: f64 = 1e6;

/// Something measured on the braid, where, and what was to be expected there then.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// What was measured.
    pub kind: CheckKind,
    /// The value, in the unit of its kind.
    pub value: f64,
    /// What the plan expected there, in the same unit.
    pub planned: f64,
    /// How far from it a value is fine, in the same unit.
    pub fine: f64,
    /// How many events were done by then.
    pub done: usize,
    /// Where on the line, metres from the tip; 0 on the lead-in.
    pub at_m: f64,
    /// Its own error, one standard deviation in the unit of its kind: that of a photo. Nothing where it was read off an instrument.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub error: Option<f64>,
}

impl Check {
    /// What was measured.
    pub const fn measured(&self) -> Measured {
        Measured {
            kind: self.kind,
            value: self.value,
            error: self.error,
        }
    }

    /// The same without an own error that cannot be.
    #[must_use]
    pub fn with_possible_error(self) -> Self {
        let kept = Self {
            error: self.error.map(on_grid),
            ..self
        };
        Self {
            error: kept.measured().own_error(),
            ..kept
        }
    }

    /// What was expected, with its range.
    pub const fn range(&self) -> CheckRange {
        CheckRange {
            planned: self.planned,
            fine: self.fine,
        }
    }

    /// What the value meant when it was measured.
    pub fn level(&self) -> CheckLevel {
        self.range().level(self.value)
    }
}

/// What is expected of a value, and how far from it it is fine. In the unit of its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckRange {
    /// What is expected.
    pub planned: f64,
    /// How far from it a value is fine.
    pub fine: f64,
}

impl CheckRange {
    /// The least value that is fine.
    pub fn low(&self) -> f64 {
        self.planned - self.fine
    }

    /// The greatest value that is fine.
    pub fn high(&self) -> f64 {
        self.planned + self.fine
    }

    /// What a value means.
    pub fn level(&self, value: f64) -> CheckLevel {
        let off = (value - self.planned).abs();
        if off <= self.fine {
            CheckLevel::Fine
        } else if off <= DRIFTING * self.fine {
            CheckLevel::Drifting
        } else {
            CheckLevel::Stop
        }
    }
}

/// What a measured value means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckLevel {
    /// As it should be, within the tolerance and what can be read.
    Fine,
    /// Outside that, but no farther than twice.
    Drifting,
    /// Farther: something is wrong.
    Stop,
}

impl CheckLevel {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Drifting => "drifting",
            Self::Stop => "stop",
        }
    }
}

/// What follows from a measured value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judgement {
    /// What it means.
    pub level: CheckLevel,
    /// Length drawn in one circuit that the value implies, over what the gears should draw. Nothing from a diameter, which shows
    /// mass and packing more than lay.
    pub drawn: Option<f64>,
}

/// Why a value cannot be what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoCheck {
    /// Zero, less, or no number.
    NotPositive,
    /// No thread can cross its line at this angle.
    NoAngle,
    /// Far more or less than planned: it would be a slip.
    TooFar {
        /// What was expected, in the unit of its kind.
        planned: f64,
    },
    /// Nothing of what is on the machine is braided here yet.
    NothingBraided,
    /// There are already as many checks as a run can hold.
    TooMany,
}

impl NoCheck {
    /// The message to the maker; `shown` writes a value of this kind.
    pub fn words(&self, shown: impl Fn(f64) -> String) -> String {
        match *self {
            Self::NotPositive => "Type what you measured: a number above 0.".to_owned(),
            Self::NoAngle => {
                "Type the angle between a thread and the line: less than 90°.".to_owned()
            }
            Self::TooFar { planned } => format!(
                "The plan has {} here. Look again: that cannot be right.",
                shown(planned)
            ),
            Self::NothingBraided => {
                "Do the step that is due here first. Then braid some centimetres and measure."
                    .to_owned()
            }
            Self::TooMany => {
                format!("There is no room for more than {MOST_CHECKS} checks of one line.")
            }
        }
    }
}

/// A value as it is kept.
pub(super) fn on_grid(value: f64) -> f64 {
    (value * STEPS).round() / STEPS
}
