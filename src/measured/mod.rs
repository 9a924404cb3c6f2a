//! A line measured along its length with a micrometer: the readings, the taper in them, and what it is made of.

mod edit;
mod found;
mod line;
mod material;
mod reading;
mod spread;
mod stretches;
mod weighed;

pub use edit::{MeasuredEdit, next_place};
pub use found::{Asked, CLOSENESS, FoundPoint, FoundTaper, find};
pub use line::{
    DraftCut, DraftReading, DraftUnread, MICROMETER, MOST_CUTS, MOST_UNREAD, MeasuredDraft,
    MeasuredLine, UNNAMED, UNREAD_ROOM, USUAL_MICROMETER, WEIGHT,
};
pub use material::Material;
pub use reading::{MOST_READINGS, Reading, Trust};
pub use spread::Spread;
pub use stretches::{Weighed, Zone, volume};
pub use weighed::{MadeOf, made_of};
