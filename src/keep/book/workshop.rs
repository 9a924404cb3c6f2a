//! A workshop and its bench book.

use serde::{Deserialize, Serialize};

use super::check::line::LinePlace;
use super::check::{Complaint, WorkshopLimits};
use super::limits::{MOST_RECORDS, MOST_SWATCHES};
use super::machine_notes::MachineNotes;
use super::model::Source;
use super::record::{LineRecord, LineStage};
use super::swatch::{Swatch, SwatchField};
use crate::base::bounded::bounded_list;
use crate::braid::dressing::Dressing;
use crate::design::Design;
use crate::design::settings::Setting;
use crate::edit::Edit;
use crate::plan::run::{MOST_TIMED, Timed};

/// What a workshop is called until it has a name.
pub const UNNAMED: &str = "Unnamed workshop";

/// The settings of a machine that say what can be braided and fitted on it.
const OF_THE_MACHINE: [Setting; 5] = [
    Setting::HornGears,
    Setting::FewestThreads,
    Setting::MostThreads,
    Setting::PartnerTeeth,
    Setting::PairSum,
];

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
    /// What is noted of the machine besides settings.
    #[serde(default, skip_serializing_if = "MachineNotes::is_empty")]
    pub machine_notes: MachineNotes,
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
            // Of which line the open one is a copy says nothing of the workshop.
            base: Edit::ForgetOriginal
                .apply(base)
                .unwrap_or_else(|_| base.clone()),
            machine_notes: MachineNotes::default(),
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

    /// The latest stretches for which its machine was timed, of all lines but one.
    pub fn timed(&self, but: Option<usize>) -> Vec<Timed> {
        let others = self.records.iter().enumerate().rev();
        let others = others.filter(|(index, _)| Some(*index) != but);
        let runs = others.filter_map(|(_, record)| record.run.as_ref());
        let timed = runs.flat_map(|run| run.clock.timed.iter().rev());
        timed.take(MOST_TIMED).copied().collect()
    }

    /// What its yarn and its machine allow.
    pub fn limits(&self) -> WorkshopLimits {
        WorkshopLimits::of(&self.base)
    }

    /// Takes over the machine of a design: its track with the carriers mounted, the threads to braid with, and its gears.
    /// All else stays as it is; where the two do not go together, so does the machine.
    pub fn take_machine(&mut self, of: &Design) {
        let (mut draft, from) = (self.base.draft().clone(), of.draft());
        draft.pattern = from.pattern;
        draft.mounted = from.mounted.clone();
        draft.train = from.train;
        draft.gears.clone_from(&from.gears);
        for setting in OF_THE_MACHINE {
            draft.settings.set(setting, of.setting(setting));
        }
        // The drawing of the base means nothing, and what was insisted on with it may not go with other wheels.
        draft.pins.clear();
        if let Ok(base) = Design::parse(draft) {
            self.base = base;
        }
    }

    /// Where a number stands, in words: `Swatch 1, diameter`.
    pub fn place_words(&self, at: Source) -> String {
        let (entry, number) = match at {
            Source::Swatch(index, field) => {
                let swatch = self.swatches.get(index);
                (swatch.map(|swatch| &swatch.name), field.name().to_owned())
            }
            Source::Line(index, stage, field) => {
                let record = self.records.get(index);
                let number = format!("{} {}", stage.name(), field.name());
                let names = self.records.iter().map(|record| &record.name);
                let is_shared = names
                    .filter(|name| Some(*name) == record.map(|it| &it.name))
                    .count()
                    > 1;
                let number = if is_shared {
                    format!("{}, {number}", self.when(index))
                } else {
                    number
                };
                (record.map(|record| &record.name), number)
            }
        };
        format!("{}, {number}", entry.map_or("", String::as_str))
    }

    /// A number written down.
    pub fn get(&self, at: Source) -> Option<f64> {
        match at {
            Source::Swatch(index, field) => self.swatches.get(index)?.get(field),
            Source::Line(index, stage, field) => {
                self.records.get(index)?.measures(stage)?.get(field)
            }
        }
    }

    /// Writes a number down, where there is a place for it.
    pub fn set(&mut self, at: Source, value: Option<f64>) {
        match at {
            Source::Swatch(index, field) => {
                if let Some(swatch) = self.swatches.get_mut(index) {
                    swatch.set(field, value);
                }
            }
            Source::Line(index, stage, field) => {
                let record = self.records.get_mut(index);
                if let Some(measures) = record.and_then(|record| record.measures_mut(stage)) {
                    measures.set(field, value);
                }
            }
        }
    }

    /// Says of a number that it is right, however far it is from what was expected.
    pub fn confirm(&mut self, at: Source) {
        match at {
            Source::Swatch(index, field) => {
                if let Some(swatch) = self.swatches.get_mut(index) {
                    swatch.confirm(field);
                }
            }
            Source::Line(index, stage, field) => {
                let record = self.records.get_mut(index);
                if let Some(measures) = record.and_then(|record| record.measures_mut(stage)) {
                    measures.confirm(field);
                }
            }
        }
    }

    /// Whether the maker said of a number that it is right.
    pub fn is_confirmed(&self, at: Source) -> bool {
        match at {
            Source::Swatch(index, field) => {
                let swatch = self.swatches.get(index);
                swatch.is_some_and(|swatch| swatch.confirmed.contains(&field))
            }
            Source::Line(index, stage, field) => {
                let record = self.records.get(index);
                let measures = record.and_then(|record| record.measures(stage));
                measures.is_some_and(|measures| measures.is_confirmed(field))
            }
        }
    }

    /// The name of a swatch in the book that has every number of this one.
    pub fn name_of_like(&self, swatch: &Swatch) -> Option<String> {
        let index = self
            .swatches
            .iter()
            .rposition(|other| other.has_all_of(swatch))?;
        let name = &self.swatches[index].name;
        Some(if name.is_empty() {
            format!("Swatch {}", index + 1)
        } else {
            name.clone()
        })
    }

    /// What cannot be of a swatch of this workshop, in the book or not yet.
    pub fn complaints_of_swatch(&self, swatch: &Swatch) -> Vec<Complaint<SwatchField>> {
        super::check::swatch::complaints(swatch, &self.limits())
    }

    /// What cannot be of a line of this workshop, in the book or not yet.
    pub fn complaints_of_line(&self, record: &LineRecord) -> Vec<Complaint<LinePlace>> {
        super::check::line::complaints(record, &self.base)
    }
}
