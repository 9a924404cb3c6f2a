//! The first format of files and links: before machines with empty places, pairs of gears, heavier threads and pins. It
//! is only read. What it did not know takes the value a new design begins with; a line then uses all its carriers.

use crate::braid::takeoff::TEETH;
use serde::{Deserialize, Deserializer};

use super::second;
use super::wire::{choice_at, points_of};
use crate::braid::takeoff::Train;
use crate::braid::threads::Build;
use crate::braid::track::Pattern;
use crate::braid::yarn::{Condition, Fibre};
use crate::design::machine::Mounted;
use crate::design::refusal::{MOST_GEARS, MOST_POINTS};
use crate::design::settings::{Setting, Settings};
use crate::design::{self, DraftPoint, NAME_ROOM, NOTES_ROOM};

/// What stood in the place of the horn gears: carriers, all mounted.
const CARRIERS: &str = "carriers";

/// The settings of that format, in the order of its links; `None` where the carriers stood.
const SETTINGS: [Option<Setting>; 25] = [
    Some(Setting::LabelLow),
    Some(Setting::LabelHigh),
    Some(Setting::EndsPerThread),
    Some(Setting::DegummingLoss),
    Some(Setting::ThreadPacking),
    Some(Setting::ThreadFlattening),
    None,
    Some(Setting::FewestThreads),
    Some(Setting::PartnerTeeth),
    Some(Setting::MachineConstant),
    Some(Setting::TargetAngle),
    Some(Setting::AngleTolerance),
    Some(Setting::Crimp),
    Some(Setting::FibreFraction),
    Some(Setting::OilFill),
    Some(Setting::OilDensity),
    Some(Setting::OilGain),
    Some(Setting::DriedOilDensity),
    Some(Setting::VarnishFill),
    Some(Setting::VarnishDensity),
    Some(Setting::VarnishSolids),
    Some(Setting::Film),
    Some(Setting::FilmDensity),
    Some(Setting::Grease),
    Some(Setting::ThreadAllowance),
];

/// A design of that format's files.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Draft {
    name: String,
    notes: String,
    #[serde(with = "crate::base::choice")]
    fibre: Fibre,
    #[serde(with = "crate::base::choice")]
    condition: Condition,
    #[serde(with = "crate::base::choice")]
    pattern: Pattern,
    gears: Vec<f64>,
    #[serde(deserialize_with = "values")]
    settings: Vec<f64>,
    points: Vec<DraftPoint>,
}

fn values<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<f64>, D::Error> {
    let keys = SETTINGS.map(|setting| setting.map_or(CARRIERS, second::key));
    second::values_of(&keys, deserializer)
}

impl From<Draft> for design::Draft {
    fn from(old: Draft) -> Self {
        let (settings, recipe) = second::dressed(settings(&old.settings, old.pattern));
        Self {
            name: old.name,
            notes: old.notes,
            fibre: old.fibre,
            condition: old.condition,
            build: Build::MoreThreads,
            pattern: old.pattern,
            mounted: Mounted::default(),
            train: Train::Driver,
            gears: old.gears,
            settings,
            pins: Vec::new(),
            recipe,
            workshop: String::new(),
            learned: None,
            points: old.points,
        }
    }
}

/// Today's settings: N carriers with S slots stood on 2N/S horn gears.
fn settings(values: &[f64], pattern: Pattern) -> Settings {
    let mut settings = Settings::default();
    for (setting, &value) in SETTINGS.into_iter().zip(values) {
        if let Some(setting) = setting {
            settings.set(setting, value);
        } else {
            let horn_gears = 2.0 * value / f64::from(pattern.slots());
            settings.set(Setting::HornGears, horn_gears);
            settings.set(Setting::MostThreads, value);
        }
    }
    settings
}

/// The payload of that format's links.
#[derive(Deserialize)]
pub(super) struct Wire {
    name: String,
    notes: String,
    fibre: u8,
    condition: u8,
    pattern: u8,
    gears: Vec<u32>,
    settings: Vec<u32>,
    points: Vec<(u32, u32)>,
}

impl Wire {
    /// The draft, when every list has a length a design could have and every choice exists.
    pub(super) fn draft(self) -> Option<design::Draft> {
        let fits = self.name.len() <= 4 * NAME_ROOM
            && self.notes.len() <= 4 * NOTES_ROOM
            && self.gears.len() <= MOST_GEARS
            && self.points.len() <= MOST_POINTS
            && self.settings.len() == SETTINGS.len();
        fits.then_some(())?;
        // Carriers were whole numbers, counted in ones.
        let value = |(setting, &quanta): (Option<Setting>, &u32)| {
            setting.map_or(f64::from(quanta), |setting| setting.rule().value(quanta))
        };
        let settings = SETTINGS
            .into_iter()
            .zip(&self.settings)
            .map(value)
            .collect();
        let old = Draft {
            fibre: choice_at(self.fibre)?,
            condition: choice_at(self.condition)?,
            pattern: choice_at(self.pattern)?,
            gears: self.gears.iter().map(|&teeth| TEETH.value(teeth)).collect(),
            settings,
            points: points_of(&self.points)?,
            name: self.name,
            notes: self.notes,
        };
        Some(old.into())
    }
}
