//! A swatch: a short braid, made with threads and gears that are known, and measured; and a length of its thread, weighed before
//! it is braided.

use serde::{Deserialize, Serialize};

use super::limits::MOST_CONFIRMED;
use super::measured;
use super::small_picture::SmallPicture;
use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::braid::geometry::Load;
use crate::braid::track::MOST_CARRIERS;

pub use super::swatch_field::SwatchField;

/// A swatch as it was written down: anything goes, nothing must. It is a bare braid, not oiled.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Swatch {
    /// What the maker calls it.
    pub name: String,
    /// Anything the maker wants to remember.
    #[serde(default)]
    pub notes: String,
    /// How the carriers pulled, in the maker's own words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tension: String,
    /// Threads engaged.
    #[serde(with = "measured", default)]
    pub threads: Option<f64>,
    /// Ends in each thread.
    #[serde(with = "measured", default)]
    pub ends: Option<f64>,
    /// Teeth of the wheel that drives.
    #[serde(with = "measured", default)]
    pub driver: Option<f64>,
    /// Teeth of the wheel that is driven.
    #[serde(with = "measured", default)]
    pub driven: Option<f64>,
    /// Length braided, metres: what was weighed, and what the circuits were counted over.
    #[serde(with = "measured", default)]
    pub length_m: Option<f64>,
    /// Carrier circuits counted over the whole length.
    #[serde(with = "measured", default)]
    pub circuits: Option<f64>,
    /// Crossings counted along one rib.
    #[serde(with = "measured", default)]
    pub crossings: Option<f64>,
    /// Length over which the crossings were counted, metres.
    #[serde(with = "measured", default)]
    pub crossings_over_m: Option<f64>,
    /// Mass of the whole length, grams.
    #[serde(with = "measured", default)]
    pub mass_g: Option<f64>,
    /// Outer diameter, millimetres.
    #[serde(with = "measured", default)]
    pub diameter_mm: Option<f64>,
    /// Braid angle between thread and axis, degrees.
    #[serde(with = "measured", default)]
    pub angle_deg: Option<f64>,
    /// The angle's own error, one standard deviation, degrees: that of a photo. Nothing where the usual one holds.
    #[serde(with = "measured", default, skip_serializing_if = "Option::is_none")]
    pub angle_error_deg: Option<f64>,
    /// The crossings' own error, one standard deviation, in crossings over the length counted; what is uncertain of that length is in
    /// it. Nothing where the usual ones of rule and count hold.
    #[serde(with = "measured", default, skip_serializing_if = "Option::is_none")]
    pub crossings_error: Option<f64>,
    /// A small picture that the maker chose to keep.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub picture: Option<SmallPicture>,
    /// Length of thread weighed before braiding, metres.
    #[serde(with = "measured", default, skip_serializing_if = "Option::is_none")]
    pub thread_length_m: Option<f64>,
    /// Mass of that length, grams.
    #[serde(with = "measured", default, skip_serializing_if = "Option::is_none")]
    pub thread_mass_g: Option<f64>,
    /// Numbers that are right though they are far from what was expected: the maker said so.
    #[serde(
        default,
        skip_serializing_if = "Vec::is_empty",
        deserialize_with = "bounded_list::<_, _, MOST_CONFIRMED>"
    )]
    pub confirmed: Vec<SwatchField>,
}

impl Swatch {
    /// Whether anything was measured on the braid.
    pub fn is_measured(&self) -> bool {
        let mut measured = SwatchField::ALL
            .into_iter()
            .filter(|field| !SwatchField::SETUP.contains(field));
        measured.any(|field| self.get(field).is_some())
    }

    /// Whether every number of another swatch is in this one too.
    pub fn has_all_of(&self, other: &Self) -> bool {
        SwatchField::ALL.into_iter().all(|field| {
            other.get(field).is_none() || measured::is_same(other.get(field), self.get(field))
        })
    }

    /// A number of the swatch, in the unit of its field.
    pub const fn get(&self, field: SwatchField) -> Option<f64> {
        match field {
            SwatchField::Threads => self.threads,
            SwatchField::Ends => self.ends,
            SwatchField::Driver => self.driver,
            SwatchField::Driven => self.driven,
            SwatchField::Length => self.length_m,
            SwatchField::Circuits => self.circuits,
            SwatchField::Crossings => self.crossings,
            SwatchField::CrossingsOver => self.crossings_over_m,
            SwatchField::Mass => self.mass_g,
            SwatchField::Diameter => self.diameter_mm,
            SwatchField::Angle => self.angle_deg,
            SwatchField::ThreadLength => self.thread_length_m,
            SwatchField::ThreadMass => self.thread_mass_g,
        }
    }

    /// Writes a number of the swatch down, or strikes it out. It is kept with twelve digits. What was confirmed of it, or of
    /// a number that means something else with it, has to be confirmed again where it changes; and where it came from a photo, that
    /// photo's error is no longer its own.
    pub fn set(&mut self, field: SwatchField, value: Option<f64>) {
        if !measured::is_same(self.get(field), value) {
            self.confirmed.retain(|&other| !other.depends_on(field));
            self.forget_error(field);
        }
        let place = match field {
            SwatchField::Threads => &mut self.threads,
            SwatchField::Ends => &mut self.ends,
            SwatchField::Driver => &mut self.driver,
            SwatchField::Driven => &mut self.driven,
            SwatchField::Length => &mut self.length_m,
            SwatchField::Circuits => &mut self.circuits,
            SwatchField::Crossings => &mut self.crossings,
            SwatchField::CrossingsOver => &mut self.crossings_over_m,
            SwatchField::Mass => &mut self.mass_g,
            SwatchField::Diameter => &mut self.diameter_mm,
            SwatchField::Angle => &mut self.angle_deg,
            SwatchField::ThreadLength => &mut self.thread_length_m,
            SwatchField::ThreadMass => &mut self.thread_mass_g,
        };
        *place = value.map(measured::kept);
    }

    /// Says of a number that it is right.
    pub fn confirm(&mut self, field: SwatchField) {
        if self.get(field).is_some() && !self.confirmed.contains(&field) {
            self.confirmed.push(field);
            self.confirmed.sort_unstable();
        }
    }

    /// What was on the machine, in threads of so many ends; nothing where its threads are not known, or none that a machine has.
    pub fn load(&self, ends: u32) -> Option<Load> {
        let threads = self
            .threads
            .filter(|count| (1.0..=f64::from(MOST_CARRIERS)).contains(count))?;
        let share = self
            .ends
            .filter(|own| *own > 0.0)
            .unwrap_or(f64::from(ends))
            / f64::from(ends.max(1));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held between one thread and those of the largest machine"
        )]
        let count = threads.round() as u32;
        Some(Load {
            yarn: threads * share,
            breadth: threads * share.sqrt(),
            ..Load::from(count)
        })
    }

    /// Driver over driven, where both are known.
    pub fn ratio(&self) -> Option<f64> {
        Some(self.driver? / self.driven?)
    }

    /// The lay that circuits tell: length over circuits.
    pub fn lay_by_circuits(&self) -> Option<Length> {
        Some(Length::from_metres(self.length_m? / self.circuits?))
    }

    /// The lay that crossings tell: a rib has N/(2L) of them a metre, so `L = N · length / (2 · crossings)`. Analytic.
    pub fn lay_by_crossings(&self) -> Option<Length> {
        let lay = self.threads? * self.crossings_over_m? / (2.0 * self.crossings?);
        Some(Length::from_metres(lay))
    }
}
