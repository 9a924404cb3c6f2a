//! The bench book: swatches and finished lines as they were measured, and what is learnt from them.
//!
//! A [`Workshop`] is one machine, one lot of yarn and one hand. Its base settings are what the maker believed before anything
//! was measured; [`swatch::Swatch`]es and [`record::LineRecord`]s say what rule, scale and micrometer found. What cannot be
//! is complained of ([`check`]), kept all the same, and left out of learning.

pub mod check;
pub mod errors;
pub mod estimate;
pub mod file;
mod frozen;
mod measured;
mod model;
pub mod record;
pub mod swatch;

use serde::{Deserialize, Serialize};

use crate::base::bounded::bounded_list;
use crate::braid::dressing::Dressing;
use crate::design::Design;
use check::line::LinePlace;
use check::{Complaint, YarnLimits};
use record::{LineRecord, LineStage};
use swatch::{Swatch, SwatchField};

pub use frozen::Frozen;
pub use model::{MeasureKind, Source};

/// Most swatches in a book.
pub const MOST_SWATCHES: usize = 500;
/// Most lines in a book.
pub const MOST_RECORDS: usize = 500;
/// Most coats of oil measured on a line.
pub const MOST_COATS: usize = 12;
/// Most diameters measured at one stage of a line.
pub const MOST_DIAMETERS: usize = 50;
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
    #[serde(with = "frozen::whole")]
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
    model::line::dressing_at(design, stage, &design.parameters())
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
        check::swatch::complaints(swatch, &self.yarn())
    }

    /// What cannot be of a line of this workshop, in the book or not yet.
    pub fn complaints_of_line(&self, record: &LineRecord) -> Vec<Complaint<LinePlace>> {
        check::line::complaints(record, &self.base)
    }
}
