//! Recipes to begin from.

use super::{DraftStep, StepKind, StepValue};
use crate::base::choice::Choice;
use crate::braid::track::Pattern;

/// A recipe ready to choose. What they have in common, and where they differ, is common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadyRecipe {
    /// One oil, some seven days of gentle warmth.
    Fine,
    /// One oil, some ten hours at 80 °C.
    Stout,
    /// Two oils, for a braid too rough to be full after one.
    Rough,
    /// Three oils.
    VeryRough,
    /// Nothing goes on.
    Undressed,
}

impl Choice for ReadyRecipe {
    const ALL: &'static [Self] = &[
        Self::Fine,
        Self::Stout,
        Self::Rough,
        Self::VeryRough,
        Self::Undressed,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Stout => "stout",
            Self::Rough => "rough",
            Self::VeryRough => "very-rough",
            Self::Undressed => "undressed",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Fine => "fine line, one oil",
            Self::Stout => "stout line, one oil, warmer and shorter",
            Self::Rough => "rougher braid, two oils",
            Self::VeryRough => "very rough braid, three oils",
            Self::Undressed => "left bare",
        }
    }
}

/// Varnish in a later coat of oil, percent.
const VARNISH_IN_LATER_COATS: f64 = 20.0;

impl ReadyRecipe {
    /// The coats of oil a pattern usually takes: a smooth diamond braid is mostly full after one, rougher ones want more.
    /// Common practice, no source.
    pub const fn usual_coats(pattern: Pattern) -> usize {
        match pattern {
            Pattern::Diamond => 1,
            Pattern::Regular => 2,
            Pattern::Hercules => 3,
        }
    }

    /// Its steps.
    pub fn steps(self) -> Vec<DraftStep> {
        use StepKind::{
            Daylight, Drip, Grease, Inspect, OilVacuum, Polish, Rub, Test, VarnishVacuum, Warm,
            Weigh,
        };
        if self == Self::Undressed {
            return [Inspect, Weigh].map(DraftStep::usual).to_vec();
        }
        let mut steps = [Inspect, OilVacuum, Drip, Warm, Daylight, Test]
            .map(DraftStep::usual)
            .to_vec();
        if self == Self::Stout {
            let warm = &mut steps[3];
            warm.set(StepValue::Hours, 10.0);
            warm.set(StepValue::Celsius, 80.0);
        }
        for _ in 1..self.coats() {
            steps.extend(further_coat());
        }
        let end = [Rub, VarnishVacuum, StepKind::Air, Polish, Grease, Weigh];
        steps.extend(end.map(DraftStep::usual));
        steps
    }

    /// Which of them some steps are, if any.
    pub fn of(steps: &[DraftStep]) -> Option<Self> {
        Self::ALL
            .iter()
            .copied()
            .find(|ready| ready.steps() == steps)
    }

    const fn coats(self) -> usize {
        match self {
            Self::Undressed => 0,
            Self::Fine | Self::Stout => 1,
            Self::Rough => 2,
            Self::VeryRough => 3,
        }
    }
}

/// The steps of a line, as a choice: those of a ready recipe, or the maker's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecipeChoice {
    /// A ready recipe.
    Ready(ReadyRecipe),
    /// Any other steps.
    Own,
}

impl RecipeChoice {
    /// What some steps are.
    pub fn of(steps: &[DraftStep]) -> Self {
        ReadyRecipe::of(steps).map_or(Self::Own, Self::Ready)
    }
}

impl Choice for RecipeChoice {
    const ALL: &'static [Self] = &[
        Self::Ready(ReadyRecipe::Fine),
        Self::Ready(ReadyRecipe::Stout),
        Self::Ready(ReadyRecipe::Rough),
        Self::Ready(ReadyRecipe::VeryRough),
        Self::Ready(ReadyRecipe::Undressed),
        Self::Own,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Ready(ready) => ready.key(),
            Self::Own => "own",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Ready(ready) => ready.name(),
            Self::Own => "my own recipe",
        }
    }
}

/// A coat wiped on, dried in air.
pub(crate) fn further_coat() -> [DraftStep; 3] {
    let mut coat = DraftStep::usual(StepKind::Oil);
    coat.set(StepValue::VarnishShare, VARNISH_IN_LATER_COATS);
    [
        coat,
        DraftStep::usual(StepKind::Air),
        DraftStep::usual(StepKind::Test),
    ]
}
