//! The payload of a link: every number a whole count of its step. See DEVELOPERS.md.

use crate::braid::takeoff::TEETH;
use serde::{Deserialize, Serialize};

use crate::base::choice::Choice;
use crate::braid::recipe::{DraftStep, MOST_STEPS, ReadyRecipe, StepKind, StepValue};
use crate::design::machine::Mounted;
use crate::design::parameters::{COUNT, DraftLearned, PAIRS, SCATTER, SPREAD};
use crate::design::pin::DraftPin;
use crate::design::refusal::{MOST_GEARS, MOST_PINS, MOST_POINTS};
use crate::design::settings::{DIAMETER, POSITION, Setting, Settings};
use crate::design::{Draft, DraftPoint, NAME_ROOM, NOTES_ROOM};

/// The payload: what version 2 had but for its settings, then those that are not the defaults, and what has come since.
#[derive(Serialize, Deserialize)]
pub(super) struct Wire {
    line: Line,
    /// Place of a setting in the table, and the count of its steps.
    settings: Vec<(u8, u32)>,
    workshop: String,
    recipe: WireRecipe,
    learned: Option<WireLearned>,
}

/// The dressing steps.
#[derive(Serialize, Deserialize)]
enum WireRecipe {
    /// Those of the ready recipe at this place in the list.
    Ready(u8),
    /// The maker's own.
    Own(Vec<WireStep>),
}

/// A dressing step: place of its kind in the list, counts of the values it takes in the order of [`StepKind::takes`], place
/// of what it is warmed in.
#[derive(Serialize, Deserialize)]
struct WireStep(u8, Vec<u32>, u8);

/// Spreads, correlations and scatter as counts, and what was measured.
#[derive(Serialize, Deserialize)]
struct WireLearned {
    spreads: [u32; COUNT],
    correlations: [i8; PAIRS],
    scatter: u32,
    swatches: u32,
    lines: u32,
}

/// The payload of version 2. Choices are their place in their list; settings stand in the order of [`Setting::ALL`].
#[derive(Serialize, Deserialize)]
pub(super) struct Line {
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
    settings: Vec<u32>,
    pins: Vec<WirePin>,
    /// Distance behind the point before, and diameter.
    points: Vec<(u32, u32)>,
}

/// A pin: its numbers are counts, positions in steps.
#[derive(Serialize, Deserialize)]
enum WirePin {
    Place(u32, u32, bool, u32),
    Carrier(u32, u8, u32),
    Wheels(u32, u32, u32, u32, u32),
    Swap(u32, u8, u32),
}

impl Wire {
    pub(super) fn of(draft: &Draft) -> Self {
        Self {
            line: Line::of(draft),
            settings: changed(&draft.settings),
            workshop: draft.workshop.clone(),
            recipe: WireRecipe::of(&draft.recipe),
            learned: draft.learned.as_ref().map(WireLearned::of),
        }
    }

    /// The draft, when every list has a length a design can have and every choice exists.
    pub(super) fn draft(self) -> Option<Draft> {
        let fits = self.workshop.len() <= 4 * NAME_ROOM && self.line.settings.is_empty();
        fits.then_some(())?;
        let settings = settings_of(&self.settings)?;
        Some(Draft {
            recipe: self.recipe.draft()?,
            workshop: self.workshop,
            learned: self.learned.as_ref().map(WireLearned::draft),
            ..self.line.draft(&settings)?
        })
    }
}

impl WireRecipe {
    fn of(steps: &[DraftStep]) -> Self {
        let is_it = |ready: &&ReadyRecipe| ready.steps() == steps;
        match ReadyRecipe::ALL.iter().find(is_it) {
            Some(&ready) => Self::Ready(place_of(ready)),
            None => Self::Own(steps.iter().map(WireStep::of).collect()),
        }
    }

    fn draft(&self) -> Option<Vec<DraftStep>> {
        match self {
            Self::Ready(place) => choice_at(*place).map(ReadyRecipe::steps),
            Self::Own(steps) => {
                (steps.len() <= MOST_STEPS).then_some(())?;
                steps.iter().map(WireStep::draft).collect()
            }
        }
    }
}

impl WireStep {
    fn of(step: &DraftStep) -> Self {
        let count = |&value: &StepValue| value.rule().quanta(step.get(value));
        let counts = step.kind.takes().iter().map(count);
        Self(place_of(step.kind), counts.collect(), place_of(step.heat))
    }

    fn draft(&self) -> Option<DraftStep> {
        let kind: StepKind = choice_at(self.0)?;
        let takes = kind.takes();
        (self.1.len() == takes.len()).then_some(())?;
        let mut step = DraftStep {
            heat: choice_at(self.2)?,
            ..DraftStep::usual(kind)
        };
        for (&value, &count) in takes.iter().zip(&self.1) {
            step.set(value, value.rule().value(count));
        }
        Some(step)
    }
}

impl WireLearned {
    // Percents between −100 and 100, whole.
    #[allow(clippy::cast_possible_truncation)]
    fn of(learned: &DraftLearned) -> Self {
        Self {
            spreads: learned.spreads.map(|spread| SPREAD.quanta(spread)),
            correlations: learned.correlations_percent.map(|percent| percent as i8),
            scatter: SCATTER.quanta(learned.scatter_percent),
            swatches: learned.swatches,
            lines: learned.lines,
        }
    }

    fn draft(&self) -> DraftLearned {
        DraftLearned {
            spreads: self.spreads.map(|count| SPREAD.value(count)),
            correlations_percent: self.correlations.map(f64::from),
            scatter_percent: SCATTER.value(self.scatter),
            swatches: self.swatches,
            lines: self.lines,
        }
    }
}

impl Line {
    fn of(draft: &Draft) -> Self {
        let mut before = 0;
        let point = |point: &DraftPoint| {
            let at = POSITION.quanta(point.at_m);
            let step = at - before;
            before = at;
            (step, DIAMETER.quanta(point.diameter_mm))
        };
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
            pins: draft.pins.iter().map(WirePin::of).collect(),
            gears: draft
                .gears
                .iter()
                .map(|&teeth| TEETH.quanta(teeth))
                .collect(),
            settings: Vec::new(),
            points: draft.points.iter().map(point).collect(),
        }
    }

    /// Its settings, as counts of their steps.
    pub(super) fn settings(&self) -> &[u32] {
        &self.settings
    }

    /// The draft with these settings and no dressing, when every list has a length a design can have and every choice
    /// exists.
    pub(super) fn draft(self, settings: &Settings) -> Option<Draft> {
        let fits = self.name.len() <= 4 * NAME_ROOM
            && self.notes.len() <= 4 * NOTES_ROOM
            && self.gears.len() <= MOST_GEARS
            && self.points.len() <= MOST_POINTS
            && self.pins.len() <= MOST_PINS;
        fits.then_some(())?;
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
            pins: self
                .pins
                .iter()
                .map(WirePin::draft)
                .collect::<Option<_>>()?,
            gears: self.gears.iter().map(|&teeth| TEETH.value(teeth)).collect(),
            settings: *settings,
            recipe: Vec::new(),
            workshop: String::new(),
            learned: None,
            points: points_of(&self.points)?,
            name: self.name,
            notes: self.notes,
        })
    }
}

impl WirePin {
    fn of(pin: &DraftPin) -> Self {
        let at = |at_m| POSITION.quanta(at_m);
        match *pin {
            DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m,
            } => Self::Place(threads, heavy, rising, at(at_m)),
            DraftPin::Carrier {
                threads,
                direction,
                number,
            } => Self::Carrier(threads, place_of(direction), number),
            DraftPin::Swap {
                heavy,
                direction,
                number,
            } => Self::Swap(heavy, place_of(direction), number),
            DraftPin::Wheels {
                threads,
                heavy,
                at_m,
                driver,
                driven,
            } => Self::Wheels(threads, heavy, at(at_m), driver, driven),
        }
    }

    fn draft(&self) -> Option<DraftPin> {
        Some(match *self {
            Self::Place(threads, heavy, rising, at) => DraftPin::Place {
                threads,
                heavy,
                rising,
                at_m: POSITION.value(at),
            },
            Self::Carrier(threads, direction, number) => DraftPin::Carrier {
                threads,
                direction: choice_at(direction)?,
                number,
            },
            Self::Swap(heavy, direction, number) => DraftPin::Swap {
                heavy,
                direction: choice_at(direction)?,
                number,
            },
            Self::Wheels(threads, heavy, at, driver, driven) => DraftPin::Wheels {
                threads,
                heavy,
                at_m: POSITION.value(at),
                driver,
                driven,
            },
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

/// The settings that are not the defaults of this version of the link: these must never change under it.
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

pub(super) fn points_of(steps: &[(u32, u32)]) -> Option<Vec<DraftPoint>> {
    let mut at = 0_u32;
    let point = |&(step, diameter): &(u32, u32)| {
        at = at.checked_add(step)?;
        Some(DraftPoint {
            at_m: POSITION.value(at),
            diameter_mm: DIAMETER.value(diameter),
        })
    };
    steps.iter().map(point).collect()
}

/// The lists are far shorter than 256.
#[allow(clippy::cast_possible_truncation)]
fn place_of<C: Choice>(choice: C) -> u8 {
    C::ALL
        .iter()
        .position(|other| *other == choice)
        .unwrap_or(0) as u8
}

pub(super) fn choice_at<C: Choice>(place: u8) -> Option<C> {
    C::ALL.get(usize::from(place)).copied()
}
