//! A swatch: a short braid, made with threads and gears that are known, and measured; and a length of its thread, weighed before
//! it is braided.

use serde::{Deserialize, Serialize};

use super::limits::MOST_CONFIRMED;
use super::measured;
use crate::base::bounded::bounded_list;
use crate::base::units::Length;
use crate::braid::stretch::Piece;
use crate::design::Design;
use crate::plan::Plan;
use crate::plan::run::{CheckKind, Run};

/// Length along a rib that crossings counted at the machine are given for, metres: a centimetre.
const COUNTED_OVER_M: f64 = 0.01;

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

/// A number of a swatch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SwatchField {
    /// Threads engaged.
    Threads,
    /// Ends in each thread.
    Ends,
    /// Teeth of the wheel that drives.
    Driver,
    /// Teeth of the wheel that is driven.
    Driven,
    /// Length braided, metres.
    Length,
    /// Carrier circuits over that length.
    Circuits,
    /// Crossings along one rib.
    Crossings,
    /// Length they were counted over, metres.
    CrossingsOver,
    /// Mass, grams.
    Mass,
    /// Outer diameter, millimetres.
    Diameter,
    /// Braid angle, degrees.
    Angle,
    /// Length of thread weighed before braiding, metres.
    ThreadLength,
    /// Mass of that length, grams.
    ThreadMass,
}

impl SwatchField {
    /// Every number, in the order of the form.
    pub const ALL: [Self; 13] = [
        Self::Threads,
        Self::Ends,
        Self::Driver,
        Self::Driven,
        Self::Length,
        Self::Circuits,
        Self::Crossings,
        Self::CrossingsOver,
        Self::Mass,
        Self::Diameter,
        Self::Angle,
        Self::ThreadLength,
        Self::ThreadMass,
    ];

    /// What must be known before anything measured on the braid can be used; of its thread the ends are enough.
    pub const SETUP: [Self; 4] = [Self::Threads, Self::Ends, Self::Driver, Self::Driven];

    /// The words shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Threads => "threads",
            Self::Ends => "ends in each thread",
            Self::Driver => "teeth of the driving gear",
            Self::Driven => "teeth of the driven gear",
            Self::Length => "length braided",
            Self::Circuits => "carrier circuits",
            Self::Crossings => "crossings along one rib",
            Self::CrossingsOver => "length the crossings were counted over",
            Self::Mass => "weight",
            Self::Diameter => "diameter",
            Self::Angle => "braid angle",
            Self::ThreadLength => "length of thread weighed, not braided",
            Self::ThreadMass => "weight of that thread",
        }
    }

    /// Whether a number is another one, or means something else, once this one has changed.
    fn depends_on(self, changed: Self) -> bool {
        match changed {
            Self::Length => matches!(self, Self::Length | Self::Circuits | Self::Mass),
            Self::CrossingsOver => matches!(self, Self::CrossingsOver | Self::Crossings),
            Self::ThreadLength => matches!(self, Self::ThreadLength | Self::ThreadMass),
            setup if Self::SETUP.contains(&setup) => true,
            other => self == other,
        }
    }

    /// The unit the number is kept in, as written after it; empty for a count.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length | Self::CrossingsOver | Self::ThreadLength => "m",
            Self::Mass | Self::ThreadMass => "g",
            Self::Diameter => "mm",
            Self::Angle => "°",
            _ => "",
        }
    }
}

impl Swatch {
    /// A swatch of the threads and gears of the belly of a line, nothing measured.
    pub fn of_belly(design: &Design, plan: &Plan) -> Self {
        Self::of_piece(design, &plan.belly.piece)
    }

    /// A swatch of the threads and gears that a line begins with, with what was measured on its lead-in: the last number of each
    /// kind. `tension` says how the carriers pulled.
    pub fn of_start(design: &Design, plan: &Plan, run: &Run, tension: &str) -> Self {
        let piece = plan.station(Length::ZERO).piece;
        let mut swatch = Self {
            tension: tension.to_owned(),
            ..Self::of_piece(design, &piece)
        };
        for check in run.checks.iter().filter(|check| check.at_m == 0.0) {
            let value = Some(check.value);
            match check.kind {
                CheckKind::Angle => swatch.set(SwatchField::Angle, value),
                CheckKind::Diameter => swatch.set(SwatchField::Diameter, value),
                CheckKind::Crossings => {
                    swatch.set(SwatchField::CrossingsOver, Some(COUNTED_OVER_M));
                    swatch.set(SwatchField::Crossings, value);
                }
            }
        }
        swatch
    }

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

    /// A swatch of the threads and gears of a piece, nothing measured.
    fn of_piece(design: &Design, piece: &Piece) -> Self {
        let threads = f64::from(piece.load.threads);
        let ends = piece.load.yarn / threads * f64::from(design.thread().ends);
        let mut swatch = Self::default();
        swatch.set(SwatchField::Threads, Some(threads));
        swatch.set(SwatchField::Ends, Some(ends.round()));
        swatch.set(SwatchField::Driver, Some(f64::from(piece.wheels.driver)));
        swatch.set(SwatchField::Driven, Some(f64::from(piece.wheels.driven)));
        swatch
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
    /// a number that means something else with it, has to be confirmed again where it changes.
    pub fn set(&mut self, field: SwatchField, value: Option<f64>) {
        if !measured::is_same(self.get(field), value) {
            self.confirmed.retain(|&other| !other.depends_on(field));
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::run::Check;

    fn check(kind: CheckKind, value: f64, at_m: f64) -> Check {
        Check {
            kind,
            value,
            planned: value,
            fine: 1.0,
            done: usize::from(at_m > 0.0),
            at_m,
        }
    }

    /// 34.5 crossings a centimetre are as many a metre a hundred times over: the lay is N/(2 · 3450) m. Analytic.
    #[test]
    fn what_is_measured_on_the_lead_in_makes_a_swatch() {
        let (design, plan) = (demo(), Plan::of(&demo()));
        let mut run = Run::default();
        assert!(!Swatch::of_start(&design, &plan, &run, "").is_measured());
        run.checks = vec![
            check(CheckKind::Angle, 40.0, 0.0),
            check(CheckKind::Crossings, 34.5, 0.0),
            check(CheckKind::Angle, 43.5, 0.0),
            check(CheckKind::Angle, 47.0, 1.2),
            check(CheckKind::Diameter, 0.71, 0.0),
        ];
        let swatch = Swatch::of_start(&design, &plan, &run, "blue spring");
        assert!(swatch.is_measured());
        let start = &plan.events[0];
        assert_eq!(swatch.threads, Some(f64::from(start.threads())));
        assert_eq!(swatch.ends, Some(f64::from(design.thread().ends)));
        let wheels = [start.wheels.driver, start.wheels.driven].map(|teeth| Some(f64::from(teeth)));
        assert_eq!([swatch.driver, swatch.driven], wheels);
        assert_eq!(swatch.angle_deg, Some(43.5));
        assert_eq!(swatch.diameter_mm, Some(0.71));
        assert_eq!(swatch.tension, "blue spring");
        let lay = swatch.lay_by_crossings().map(Length::metres);
        let wanted = f64::from(start.threads()) / (2.0 * 3450.0);
        assert!(
            lay.is_some_and(|lay| (lay - wanted).abs() < 1e-12),
            "{lay:?}"
        );
        let mut more = swatch.clone();
        more.set(SwatchField::Mass, Some(0.2));
        assert!(more.has_all_of(&swatch) && !swatch.has_all_of(&more));
    }
}
