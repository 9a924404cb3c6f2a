//! A design as plain data, as it comes in from a field, a file or a link: not yet checked.

use serde::{Deserialize, Serialize};

use super::mounted::Mounted;
use super::parameters::DraftLearned;
use super::pin::DraftPin;
use super::settings::Settings;
use crate::base::units::Mass;
use crate::braid::recipe::DraftStep;
use crate::braid::takeoff::Train;
use crate::braid::threads::Build;
use crate::braid::track::Pattern;
use crate::braid::yarn::{Condition, Fibre};

/// A design not yet checked. Numbers are in the units of [`super::settings`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Draft {
    /// The line's name.
    pub name: String,
    /// Anything the maker wants to remember.
    pub notes: String,
    /// Fibre of the yarn.
    #[serde(with = "crate::base::choice")]
    pub fibre: Fibre,
    /// Whether the label counts the yarn raw or as braided.
    #[serde(with = "crate::base::choice")]
    pub condition: Condition,
    /// How the line is made thicker.
    #[serde(with = "crate::base::choice")]
    pub build: Build,
    /// Pattern of the track with a carrier on every place; tells the slots of a horn gear.
    #[serde(with = "crate::base::choice")]
    pub pattern: Pattern,
    /// The places that bear a carrier.
    pub mounted: Mounted,
    /// How the change gears sit in the train.
    #[serde(with = "crate::base::choice")]
    pub train: Train,
    /// Teeth of the change gears owned; one owned twice stands twice.
    pub gears: Vec<f64>,
    /// The numbered settings.
    pub settings: Settings,
    /// What the maker insists on.
    pub pins: Vec<DraftPin>,
    /// How it is dressed, first step first.
    pub recipe: Vec<DraftStep>,
    /// Name of the workshop in whose bench book it is at home; may be empty.
    pub workshop: String,
    /// How well the numbers learnt from measuring are known; `None` where nothing was measured.
    pub learned: Option<DraftLearned>,
    /// The measured line it is a copy of; files before format 4 have none.
    #[serde(default)]
    pub original: Option<DraftOriginal>,
    /// Control points, tip first.
    pub points: Vec<DraftPoint>,
}

/// A control point not yet checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftPoint {
    /// Distance from the tip, metres.
    pub at_m: f64,
    /// Finished diameter, millimetres.
    pub diameter_mm: f64,
}

/// The measured line of which a design is a copy, not yet checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DraftOriginal {
    /// What it is called; may be empty.
    pub name: String,
    /// What its first 30 ft weigh, grams; `None` where they were never weighed.
    pub head_g: Option<f64>,
    /// The taper found in its readings, tip first.
    pub points: Vec<DraftPoint>,
}

impl DraftOriginal {
    /// Its name, or a stand-in where it has none.
    pub fn title(&self) -> &str {
        if self.name.is_empty() {
            "a measured line"
        } else {
            &self.name
        }
    }

    /// What its first 30 ft weigh, where they were weighed.
    pub fn head(&self) -> Option<Mass> {
        self.head_g.map(Mass::from_grams)
    }
}
