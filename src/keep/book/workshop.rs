//! A workshop and its bench book.

use serde::{Deserialize, Serialize};

use super::check::line::LinePlace;
use super::check::{Complaint, YarnLimits};
use super::limits::{MOST_RECORDS, MOST_SWATCHES};
use super::record::{LineRecord, LineStage};
use super::swatch::{Swatch, SwatchField};
use crate::base::bounded::bounded_list;
use crate::braid::dressing::Dressing;
use crate::design::Design;

/// What a workshop is called until it has a name.
pub const UNNAMED: &str = "Unnamed workshop";

/// One machine, one lot of yarn, one hand, and all that was measured there.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Workshop {
    /// What the maker calls it.
    pub name: String,
    /// Anything the maker wants to remember.
    pub notes: String,
    /// A design with the settings as the maker set them before measuring: yarn, machine, dressing. Its drawing means nothing.
    #[serde(with = "super::frozen::whole")]
    pub base: Design,
    /// Swatches, in the order they were written down.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_SWATCHES>")]
    pub swatches: Vec<Swatch>,
    /// Lines made, in the order they were written down.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_RECORDS>")]
    pub records: Vec<LineRecord>,
}

/// What is on a line of a design at a stage, for good; `None` where its recipe has no such stage, or never dries it.
pub fn dressing_at(design: &Design, stage: LineStage) -> Option<Dressing> {
    super::model::line::dressing_at(design, stage, &design.parameters())
}

impl Workshop {
    /// A workshop with the settings of this design, and an empty book.
    pub fn new(name: String, base: &Design) -> Self {
        Self {
            name,
            notes: String::new(),
            base: base.clone(),
            swatches: Vec::new(),
            records: Vec::new(),
        }
    }

    /// Its name, or a stand-in where it has none.
    pub fn title(&self) -> &str {
        if self.name.is_empty() {
            UNNAMED
        } else {
            &self.name
        }
    }

    /// What its yarn allows.
    pub fn yarn(&self) -> YarnLimits {
        YarnLimits::of(self.base.thread(), self.base.label_spread())
    }

    /// What cannot be of a swatch of this workshop, in the book or not yet.
    pub fn complaints_of_swatch(&self, swatch: &Swatch) -> Vec<Complaint<SwatchField>> {
        super::check::swatch::complaints(swatch, &self.yarn())
    }

    /// What cannot be of a line of this workshop, in the book or not yet.
    pub fn complaints_of_line(&self, record: &LineRecord) -> Vec<Complaint<LinePlace>> {
        super::check::line::complaints(record, &self.base)
    }
}
