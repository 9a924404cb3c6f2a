//! The payload of a link: the fields of a design in a fixed order, each number as a count of its step.
//!
//! The bytes are [postcard](https://postcard.jamesmunns.com/wire-format) of [`Payload`], in the order of its fields; the original
//! of a copy follows. A choice
//! is its place in its list, so lists of choices only grow at their end. A setting with its default value is left out: a
//! default, or a ready recipe, that is to change needs a new version of the link.

mod choices;
pub(super) mod measured;
mod original;
mod pin;
mod points;
mod recipe;

use serde::{Deserialize, Serialize};

use crate::braid::takeoff::TEETH;
use crate::design::machine::Mounted;
use crate::design::refusal::{MOST_GEARS, MOST_PINS, MOST_POINTS};
use crate::design::settings::{Setting, Settings};
use crate::design::{Draft, NAME_ROOM, NOTES_ROOM};
use choices::{choice_at, place_of};
use pin::PayloadPin;
use points::{points_of, steps_of};
use recipe::{PayloadLearned, PayloadRecipe};

pub(super) use original::PayloadOriginal;

/// The fields of a design.
#[derive(Serialize, Deserialize)]
pub(super) struct Payload {
    name: String,
    notes: String,
    fibre: u8,
    condition: u8,
    build: u8,
    pattern: u8,
    train: u8,
    /// Bit sets of places, clockwise and counter-clockwise; 0 for every place.
    mounted: (u64, u64),
    gears: Vec<u32>,
    /// Always 0: the length of a list that is no longer used.
    reserved: u8,
    pins: Vec<PayloadPin>,
    /// Distance from the point before, and diameter.
    points: Vec<(u32, u32)>,
    /// Place of a setting in the table, and the count of its steps, of every setting that is not its default.
    settings: Vec<(u8, u32)>,
    workshop: String,
    recipe: PayloadRecipe,
    learned: Option<PayloadLearned>,
}

impl Payload {
    pub(super) fn of(draft: &Draft) -> Self {
        let gears = draft.gears.iter().map(|&teeth| TEETH.quanta(teeth));
        Self {
            name: draft.name.clone(),
            notes: draft.notes.clone(),
            fibre: place_of(draft.fibre),
            condition: place_of(draft.condition),
            build: place_of(draft.build),
            pattern: place_of(draft.pattern),
            train: place_of(draft.train),
            mounted: (
                bits(&draft.mounted.clockwise),
                bits(&draft.mounted.counter_clockwise),
            ),
            gears: gears.collect(),
            reserved: 0,
            pins: draft.pins.iter().map(PayloadPin::of).collect(),
            points: steps_of(&draft.points),
            settings: changed(&draft.settings),
            workshop: draft.workshop.clone(),
            recipe: PayloadRecipe::of(&draft.recipe),
            learned: draft.learned.as_ref().map(PayloadLearned::of),
        }
    }

    /// The draft, when every list has a length a design can have and every choice exists.
    pub(super) fn draft(self) -> Option<Draft> {
        let fits = self.name.len() <= 4 * NAME_ROOM
            && self.notes.len() <= 4 * NOTES_ROOM
            && self.workshop.len() <= 4 * NAME_ROOM
            && self.gears.len() <= MOST_GEARS
            && self.points.len() <= MOST_POINTS
            && self.pins.len() <= MOST_PINS
            && self.reserved == 0;
        fits.then_some(())?;
        let pins = self.pins.iter().map(PayloadPin::draft);
        Some(Draft {
            fibre: choice_at(self.fibre)?,
            condition: choice_at(self.condition)?,
            build: choice_at(self.build)?,
            pattern: choice_at(self.pattern)?,
            train: choice_at(self.train)?,
            mounted: Mounted {
                clockwise: places(self.mounted.0),
                counter_clockwise: places(self.mounted.1),
            },
            pins: pins.collect::<Option<_>>()?,
            gears: self.gears.iter().map(|&teeth| TEETH.value(teeth)).collect(),
            settings: settings_of(&self.settings)?,
            recipe: self.recipe.draft()?,
            learned: self.learned.as_ref().map(PayloadLearned::draft),
            points: points_of(&self.points)?,
            original: None,
            workshop: self.workshop,
            name: self.name,
            notes: self.notes,
        })
    }
}

/// Places as a bit set; a design's are below 64.
fn bits(places: &[u32]) -> u64 {
    let bit = |&place: &u32| 1_u64.checked_shl(place).unwrap_or(0);
    places.iter().map(bit).fold(0, |set, bit| set | bit)
}

fn places(bits: u64) -> Vec<u32> {
    (0..u64::BITS)
        .filter(|place| bits >> place & 1 == 1)
        .collect()
}

/// The settings that are not the defaults.
fn changed(settings: &Settings) -> Vec<(u8, u32)> {
    let quanta = |setting: Setting, value: f64| setting.rule().quanta(value);
    let changed = |(place, setting): (u8, Setting)| {
        let (own, usual) = (
            quanta(setting, settings.get(setting)),
            quanta(setting, setting.default_value()),
        );
        (own != usual).then_some((place, own))
    };
    (0..).zip(Setting::ALL).filter_map(changed).collect()
}

/// The defaults with these changes; each setting once at most, in the order of the table.
fn settings_of(changed: &[(u8, u32)]) -> Option<Settings> {
    let is_sorted = changed.windows(2).all(|pair| pair[0].0 < pair[1].0);
    is_sorted.then_some(())?;
    let mut settings = Settings::default();
    for &(place, quanta) in changed {
        let setting = *Setting::ALL.get(usize::from(place))?;
        settings.set(setting, setting.rule().value(quanta));
    }
    Some(settings)
}
