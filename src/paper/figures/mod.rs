//! The figures shown: for each its key, its name, its number in SI, its words, and how it is calculated.
//!
//! One table serves the page, the card and the tests. To add a figure, add a row.

mod summary;
mod table;
mod values;
mod verdict;

use crate::base::units::show::{self, Units};
use crate::base::units::{Angle, Length, Mass};
use crate::braid::taper::Part;
use crate::plan::Plan;

pub use summary::summary;
pub use table::{FIGURES, ON_CARD};
pub use verdict::{
    class_chance, is_class_likely, prediction_detail, range_detail, two_handed_words,
    verdict_brief, verdict_detail, verdict_short, verdict_title, verdict_words,
};

/// A heading under which figures stand together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// What the line weighs.
    Weight,
    /// How thick and long it is.
    Size,
    /// How it is braided.
    Braid,
    /// What yarn it takes.
    Yarn,
}

impl Group {
    /// Every group, in the order shown.
    pub const ALL: [Self; 4] = [Self::Weight, Self::Size, Self::Braid, Self::Yarn];

    /// The heading.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Weight => "Weight, dressed",
            Self::Size => "Size, finished",
            Self::Braid => "Braid",
            Self::Yarn => "Yarn",
        }
    }
}

/// What a figure says of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// The number in the SI base unit; `None` when there is none to give.
    pub si: Option<f64>,
    /// The words shown.
    pub text: String,
}

/// A figure.
#[derive(Clone, Copy)]
pub struct Figure {
    /// The key by which tests find it: `data-figure`.
    pub key: &'static str,
    /// Its name.
    pub name: &'static str,
    /// Where it stands.
    pub group: Group,
    /// How it is calculated, and from which source.
    pub how: &'static str,
    /// Its value.
    pub value: fn(&Plan, Units) -> Value,
}

impl Value {
    fn mass(mass: Mass) -> Self {
        Self {
            si: Some(mass.kilograms()),
            text: show::mass(mass),
        }
    }

    fn part(plan: &Plan, parts: &[Part]) -> Self {
        let is_there = plan
            .sections
            .iter()
            .any(|weight| parts.contains(&weight.section.part));
        let mass = plan.mass_of(parts);
        Self {
            si: Some(mass.kilograms()),
            text: if is_there {
                show::mass(mass)
            } else {
                "none drawn".to_owned()
            },
        }
    }

    fn position(length: Length, units: Units) -> Self {
        Self {
            si: Some(length.metres()),
            text: units.show_position(length),
        }
    }

    fn diameter(diameter: Length, units: Units) -> Self {
        Self {
            si: Some(diameter.metres()),
            text: units.show_diameter(diameter),
        }
    }

    fn angle(angle: Angle, text: String) -> Self {
        Self {
            si: Some(angle.radians()),
            text,
        }
    }

    fn count(count: f64) -> Self {
        Self {
            si: Some(count),
            text: format!("{count}"),
        }
    }
}
