//! A line really made: what was planned, and what rule, scale and micrometer said at each stage.

use serde::{Deserialize, Serialize};

use super::frozen::Frozen;
use super::limits::{MOST_COATS, MOST_DIAMETERS};
use super::measured;
use crate::base::bounded::bounded_list;
use crate::plan::days::{Day, Diary};
use crate::plan::run::Run;

/// A line made, as it was written down: anything goes, nothing must but the design it was made by.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineRecord {
    /// What the maker calls it.
    pub name: String,
    /// Anything the maker wants to remember.
    #[serde(default)]
    pub notes: String,
    /// The design it was made by, as it was then.
    pub design: Frozen,
    /// The number of the drawing on this browser's shelf it was made from, where it was kept.
    #[serde(default)]
    pub line: Option<u32>,
    /// How it was braided, once that has begun.
    #[serde(default)]
    pub run: Option<Run>,
    /// When it was dressed, once that has begun.
    #[serde(default)]
    pub diary: Option<Diary>,
    /// Measured before dressing.
    #[serde(default)]
    pub bare: Measures,
    /// Measured after each coat of oil had dried.
    #[serde(default, deserialize_with = "bounded_list::<_, _, MOST_COATS>")]
    pub coats: Vec<Measures>,
    /// Measured when all was done.
    #[serde(default)]
    pub finished: Measures,
}

/// What was measured of a line at one stage.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measures {
    /// Length of the whole line, metres.
    #[serde(with = "measured", default)]
    pub length_m: Option<f64>,
    /// Mass of the whole line, grams.
    #[serde(with = "measured", default)]
    pub mass_g: Option<f64>,
    /// Mass of the first 30 ft from the other end, grams: for the line's tag; nothing is learnt from it.
    #[serde(with = "measured", default)]
    pub rear_head_mass_g: Option<f64>,
    /// Mass of the first 30 ft, after the level tip left out, grams.
    #[serde(with = "measured", default)]
    pub head_mass_g: Option<f64>,
    /// Diameters at some places.
    #[serde(default, deserialize_with = "bounded_list::<_, _, MOST_DIAMETERS>")]
    pub diameters: Vec<DiameterAt>,
    /// Whether the mass of the whole line is right though it is far from what was expected: the maker said so.
    #[serde(default, skip_serializing_if = "is_not")]
    pub mass_confirmed: bool,
    /// The same of the mass of the first 30 ft.
    #[serde(default, skip_serializing_if = "is_not")]
    pub head_mass_confirmed: bool,
}

/// What need not be written.
// Serde hands the field over by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
const fn is_not(confirmed: &bool) -> bool {
    !*confirmed
}

/// A diameter measured at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DiameterAt {
    /// Distance from the tip, metres.
    #[serde(with = "measured", default)]
    pub at_m: Option<f64>,
    /// Diameter there, millimetres.
    #[serde(with = "measured", default)]
    pub diameter_mm: Option<f64>,
    /// Whether it is right though it is far from what was expected: the maker said so.
    #[serde(default, skip_serializing_if = "is_not")]
    pub confirmed: bool,
}

/// A stage at which a line is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineStage {
    /// Braided, not dressed.
    Bare,
    /// After the coat of oil of this number, counted from 0, has dried.
    Coat(usize),
    /// When all is done.
    Finished,
}

impl LineStage {
    /// The words shown, to stand within a sentence.
    pub fn name(self) -> String {
        match self {
            Self::Bare => "bare".to_owned(),
            Self::Coat(coat) => format!("after oil {}", coat + 1),
            Self::Finished => "finished".to_owned(),
        }
    }
}

/// A number of a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineField {
    /// Length of the whole line, metres.
    Length,
    /// Mass of the whole line, grams.
    Mass,
    /// Mass of the first 30 ft, grams.
    HeadMass,
    /// Mass of the first 30 ft from the other end, grams.
    RearHeadMass,
    /// Where the diameter of this index was measured, metres.
    At(usize),
    /// The diameter of this index, millimetres.
    Diameter(usize),
}

impl LineField {
    /// The words shown.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length of the line",
            Self::Mass => "weight of the line",
            Self::HeadMass => "weight of the first 30 ft",
            Self::RearHeadMass => "weight of 30 ft from the other end",
            Self::At(_) => "place of the diameter",
            Self::Diameter(_) => "diameter",
        }
    }

    /// The unit the number is kept in, as written after it.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Length | Self::At(_) => "m",
            Self::Mass | Self::HeadMass | Self::RearHeadMass => "g",
            Self::Diameter(_) => "mm",
        }
    }
}

impl Measures {
    /// Every number there is room for, in the order of the form.
    pub fn fields(&self) -> impl Iterator<Item = LineField> + use<> {
        let places = (0..self.diameters.len())
            .flat_map(|index| [LineField::At(index), LineField::Diameter(index)]);
        [
            LineField::Length,
            LineField::Mass,
            LineField::HeadMass,
            LineField::RearHeadMass,
        ]
        .into_iter()
        .chain(places)
    }

    /// A number, in the unit of its field; nothing where there is no such diameter.
    pub fn get(&self, field: LineField) -> Option<f64> {
        match field {
            LineField::Length => self.length_m,
            LineField::Mass => self.mass_g,
            LineField::HeadMass => self.head_mass_g,
            LineField::RearHeadMass => self.rear_head_mass_g,
            LineField::At(index) => self.diameters.get(index)?.at_m,
            LineField::Diameter(index) => self.diameters.get(index)?.diameter_mm,
        }
    }

    /// Writes a number down, or strikes it out; room for diameters is made as needed, up to [`MOST_DIAMETERS`]. It is
    /// kept with twelve digits. What was confirmed of it, or of a number that means something else with it, has to be
    /// confirmed again where it changes.
    pub fn set(&mut self, field: LineField, value: Option<f64>) {
        if !measured::is_same(self.get(field), value) {
            self.unconfirm(field);
        }
        let value = value.map(measured::kept);
        match field {
            LineField::Length => self.length_m = value,
            LineField::Mass => self.mass_g = value,
            LineField::HeadMass => self.head_mass_g = value,
            LineField::RearHeadMass => self.rear_head_mass_g = value,
            LineField::At(index) => self.at(index, |place| place.at_m = value),
            LineField::Diameter(index) => self.at(index, |place| place.diameter_mm = value),
        }
    }

    /// Whether the maker said of a number that it is right.
    pub fn is_confirmed(&self, field: LineField) -> bool {
        match field {
            LineField::Mass => self.mass_confirmed,
            LineField::HeadMass => self.head_mass_confirmed,
            LineField::Diameter(index) => {
                let place = self.diameters.get(index);
                place.is_some_and(|place| place.confirmed)
            }
            LineField::Length | LineField::RearHeadMass | LineField::At(_) => false,
        }
    }

    /// Says of a number from which something is learnt that it is right.
    pub fn confirm(&mut self, field: LineField) {
        let is_there = self.get(field).is_some();
        self.mark(field, is_there);
    }

    fn unconfirm(&mut self, changed: LineField) {
        self.mark(changed, false);
        match changed {
            LineField::Length => self.mass_confirmed = false,
            LineField::At(index) => self.mark(LineField::Diameter(index), false),
            _ => {}
        }
    }

    fn mark(&mut self, field: LineField, is_right: bool) {
        match field {
            LineField::Mass => self.mass_confirmed = is_right,
            LineField::HeadMass => self.head_mass_confirmed = is_right,
            LineField::Diameter(index) => {
                if let Some(place) = self.diameters.get_mut(index) {
                    place.confirmed = is_right;
                }
            }
            LineField::Length | LineField::RearHeadMass | LineField::At(_) => {}
        }
    }

    /// Whether nothing is written down.
    pub fn is_empty(&self) -> bool {
        self.fields().all(|field| self.get(field).is_none())
    }

    fn at(&mut self, index: usize, change: impl FnOnce(&mut DiameterAt)) {
        if index >= MOST_DIAMETERS {
            return;
        }
        if index >= self.diameters.len() {
            self.diameters.resize(index + 1, DiameterAt::default());
        }
        change(&mut self.diameters[index]);
    }
}

impl LineRecord {
    /// A record of a line of this design, nothing measured yet.
    pub fn new(name: String, design: Frozen) -> Self {
        Self {
            name,
            notes: String::new(),
            design,
            line: None,
            run: None,
            diary: None,
            bare: Measures::default(),
            coats: Vec::new(),
            finished: Measures::default(),
        }
    }

    /// Adds diameters, in millimetres, measured at places, in metres, of a stage: those that are not there yet, as many as have room.
    /// How many were added.
    pub fn add_diameters(&mut self, stage: LineStage, measured: &[(f64, f64)]) -> usize {
        let Some(measures) = self.measures_mut(stage) else {
            return 0;
        };
        let before = measures.diameters.len();
        for &(at_m, diameter_mm) in measured {
            let is_there = |one: &DiameterAt| {
                measured::is_same(one.at_m, Some(at_m))
                    && measured::is_same(one.diameter_mm, Some(diameter_mm))
            };
            if !measures.diameters.iter().any(is_there) {
                let place = measures.diameters.len();
                measures.set(LineField::At(place), Some(at_m));
                measures.set(LineField::Diameter(place), Some(diameter_mm));
            }
        }
        measures.diameters.len() - before
    }

    /// The day its last step was done, where all of them are.
    pub fn finished_on(&self) -> Option<Day> {
        let steps = self.design.design().ok()?.draft().recipe.len();
        let diary = self.diary.as_ref()?;
        let ticks = (0..steps).map(|index| diary.tick_of(index));
        ticks.collect::<Option<Vec<Day>>>()?.into_iter().max()
    }

    /// The stages there are room for, in the order of the work.
    pub fn stages(&self) -> impl Iterator<Item = (LineStage, &Measures)> {
        let coats = self.coats.iter().enumerate();
        let coats = coats.map(|(coat, measures)| (LineStage::Coat(coat), measures));
        core::iter::once((LineStage::Bare, &self.bare))
            .chain(coats)
            .chain([(LineStage::Finished, &self.finished)])
    }

    /// What was measured at a stage; nothing where there is no such coat.
    pub fn measures(&self, stage: LineStage) -> Option<&Measures> {
        match stage {
            LineStage::Bare => Some(&self.bare),
            LineStage::Coat(coat) => self.coats.get(coat),
            LineStage::Finished => Some(&self.finished),
        }
    }

    /// The same, to be written in; room for coats is made as needed, up to [`MOST_COATS`].
    pub fn measures_mut(&mut self, stage: LineStage) -> Option<&mut Measures> {
        match stage {
            LineStage::Bare => Some(&mut self.bare),
            LineStage::Coat(coat) if coat < MOST_COATS => {
                if coat >= self.coats.len() {
                    self.coats.resize(coat + 1, Measures::default());
                }
                self.coats.get_mut(coat)
            }
            LineStage::Coat(_) => None,
            LineStage::Finished => Some(&mut self.finished),
        }
    }
}
