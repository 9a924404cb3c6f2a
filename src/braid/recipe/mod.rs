//! The maker's own sequence of dressing steps, from the bare braid to the scales.
//!
//! A recipe is part of a design: plain steps, each of a kind that says which numbers belong to it. What a recipe does to
//! a braid is calculated in [`crate::braid::dressing`]; here stands what a step is, which values it takes, and ready recipes.

mod kind;
mod ready;
mod value;

use serde::{Deserialize, Serialize};

use crate::base::choice::Choice;
use crate::base::units::Pressure;

pub use kind::{Caution, StepKind};
pub(crate) use ready::further_coat;
pub use ready::{ReadyRecipe, RecipeChoice};
pub use value::StepValue;

/// Most steps in a recipe.
pub const MOST_STEPS: usize = 40;

/// What a line is warmed in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Heat {
    /// A warm room, airing cupboard or cabinet made for drying.
    #[default]
    Cupboard,
    /// An oven with somebody beside it all the time.
    OvenWatched,
    /// An oven nobody stays with.
    OvenAlone,
}

impl Choice for Heat {
    const ALL: &'static [Self] = &[Self::Cupboard, Self::OvenWatched, Self::OvenAlone];

    fn key(self) -> &'static str {
        match self {
            Self::Cupboard => "cupboard",
            Self::OvenWatched => "oven-watched",
            Self::OvenAlone => "oven-alone",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Cupboard => "warm cupboard",
            Self::OvenWatched => "oven, attended",
            Self::OvenAlone => "oven, unattended",
        }
    }
}

/// A step not yet checked. A value its kind does not take counts for nothing and is set to zero.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftStep {
    /// What is done.
    #[serde(with = "crate::base::choice")]
    pub kind: StepKind,
    /// Duration, hours.
    #[serde(default)]
    pub hours: f64,
    /// Temperature, degrees Celsius.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub celsius: f64,
    /// Absolute pressure, millibars.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub mbar: f64,
    /// Varnish in the oil, percent by mass.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub varnish_percent: f64,
    /// Solvent in the varnish, percent by mass.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub solvent_percent: f64,
    /// What the line is warmed in.
    #[serde(
        default,
        skip_serializing_if = "is_usual",
        with = "crate::base::choice"
    )]
    pub heat: Heat,
}

// Serde asks by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_usual(heat: &Heat) -> bool {
    *heat == Heat::default()
}

impl DraftStep {
    /// A step of a kind, with the values it usually has.
    pub fn usual(kind: StepKind) -> Self {
        let mut step = Self {
            kind,
            hours: 0.0,
            celsius: 0.0,
            mbar: 0.0,
            varnish_percent: 0.0,
            solvent_percent: 0.0,
            heat: Heat::default(),
        };
        for &value in kind.takes() {
            step.set(value, kind.usual(value));
        }
        step
    }

    /// One of its numbers, in the unit of its rule.
    pub fn get(&self, value: StepValue) -> f64 {
        match value {
            StepValue::Hours => self.hours,
            StepValue::Celsius => self.celsius,
            StepValue::Millibar => self.mbar,
            StepValue::VarnishShare => self.varnish_percent,
            StepValue::SolventShare => self.solvent_percent,
        }
    }

    /// Sets one of its numbers; it is checked when the draft becomes a design.
    pub fn set(&mut self, value: StepValue, number: f64) {
        *match value {
            StepValue::Hours => &mut self.hours,
            StepValue::Celsius => &mut self.celsius,
            StepValue::Millibar => &mut self.mbar,
            StepValue::VarnishShare => &mut self.varnish_percent,
            StepValue::SolventShare => &mut self.solvent_percent,
        } = number;
    }

    /// The pressure left in the jar, where the step draws any.
    pub fn pressure(&self) -> Option<Pressure> {
        let draws = self.kind.takes().contains(&StepValue::Millibar);
        draws.then(|| Pressure::from_millibars(self.mbar))
    }
}
