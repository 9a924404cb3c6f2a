//! The bench book: swatches and finished lines as they were measured, and what is learnt from them.
//!
//! A [`Workshop`] is one machine, one lot of yarn and one hand. Its base settings are what the maker believed before anything
//! was measured; [`swatch::Swatch`]es and [`record::LineRecord`]s say what rule, scale and micrometer found. What cannot be
//! is complained of ([`check`]), kept all the same, and left out of learning. What can be and is far from all that is
//! expected is asked about ([`doubt`]) and left out until the maker has confirmed it.

pub mod accuracy;
mod by_photo;
pub mod change_of_lot;
pub mod check;
pub mod doubt;
mod entry;
pub mod errors;
pub mod estimate;
pub mod example;
pub mod file;
mod fitted;
mod frozen;
mod later_version;
mod left_thread;
mod limits;
pub mod machine_notes;
mod measured;
mod model;
mod new_swatch;
pub mod next;
mod numbers;
pub mod record;
mod slip;
mod small_picture;
pub mod swatch;
mod swatch_field;
mod taught;
pub mod weighed;
mod workshop;

pub use entry::BookEntry;
pub use frozen::Frozen;
pub use limits::{MOST_COATS, MOST_CONFIRMED, MOST_DIAMETERS, MOST_RECORDS, MOST_SWATCHES};
pub use model::{MeasureKind, Source};
pub use small_picture::{PICTURE_ROOM, PICTURE_SIDE, PictureRefusal, SmallPicture};
pub use workshop::{UNNAMED, Workshop, dressing_at};
