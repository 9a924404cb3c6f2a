//! The only way a design changes: an [`Edit`] is applied to a copy of the draft, which is parsed again. Either a valid design
//! comes back, or a refusal that names the place, the value and the allowed range.

pub mod copied;
mod ends;
pub mod finder;
pub mod first_answers;
mod grid;
mod limit;
pub mod matching;
mod moving;
mod options;
mod reshape;
mod settings;
pub mod sketch;
pub mod snap;
pub mod starts;
mod suitable_threads;
pub mod turnover;

use crate::braid::recipe::{self, DraftStep, ReadyRecipe, StepKind};
use crate::braid::takeoff::Train;
use crate::braid::threads::{Build, Supply};
use crate::braid::track::{Direction, Pattern};
use crate::braid::yarn::{Condition, Fibre};
use crate::design::machine::{self, ReadyMade};
use crate::design::parameters::{DraftLearned, Parameters};
use crate::design::pin::DraftPin;
use crate::design::refusal::Refusal;
use crate::design::settings::Setting;
use crate::design::{Design, Draft, DraftPoint};

use moving::Moved;

pub use ends::ends_are_alike;
pub use limit::MoveLimit;
pub use options::{Along, LevelStretch, LineEnds, MoveOptions};

/// One decision of the maker's.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Move a control point towards a wish, as far as neighbours and ranges allow.
    Move {
        /// Which point.
        index: usize,
        /// Where it should go.
        wish: DraftPoint,
        /// What moves along.
        options: MoveOptions,
    },
    /// Set a point exactly; what is not possible is refused.
    Place {
        /// Which point.
        index: usize,
        /// Where it goes.
        point: DraftPoint,
        /// What moves along.
        options: MoveOptions,
    },
    /// Add a control point on the curve; the drawing keeps its shape.
    Add {
        /// How far from the tip, metres.
        at_m: f64,
        /// Whether the other end gets one too.
        ends: LineEnds,
    },
    /// Remove a control point.
    Remove {
        /// Which point.
        index: usize,
        /// Whether the other end loses one too.
        ends: LineEnds,
    },
    /// Give the part between two points another length. What lies within keeps its proportions, what comes after moves
    /// along.
    Lengthen {
        /// The point the part begins with.
        first: usize,
        /// The point it ends with.
        last: usize,
        /// Its new length, metres.
        length_m: f64,
        /// Whether the same part of the other end gets that length too.
        ends: LineEnds,
    },
    /// Multiply every diameter by this factor.
    ScaleSizes(f64),
    /// Set a numbered setting.
    Set(Setting, f64),
    /// Choose the fibre.
    Fibre(Fibre),
    /// Choose whether the label counts the yarn raw.
    Condition(Condition),
    /// Choose the track's pattern. Every place of the nearest ring there is gets a carrier.
    Pattern(Pattern),
    /// Put a ready-made machine in place of the maker's own.
    Machine(ReadyMade),
    /// Set which places of one direction have a carrier; an empty list means every place.
    Mount(Direction, Vec<u32>),
    /// Choose how the line is made thicker.
    Build(Build),
    /// Choose how the change gears sit in the train.
    Train(Train),
    /// Pin something, in place of another pin where one is named.
    Pin {
        /// The pin.
        pin: DraftPin,
        /// The index of the pin it replaces.
        replaces: Option<usize>,
    },
    /// Remove a pin.
    Unpin(usize),
    /// Take over what threads there are and how the line is made thicker with them.
    Supply(Supply),
    /// Set both ends of the yarn's label at once, in denier.
    Label {
        /// Finest end.
        low: f64,
        /// Heaviest end.
        high: f64,
    },
    /// List the gears owned.
    Gears(Vec<f64>),
    /// Take over all control points of another drawing of the same line, tip first.
    Points(Vec<DraftPoint>),
    /// Name the line.
    Name(String),
    /// Write notes.
    Notes(String),
    /// Dress by a ready recipe.
    Recipe(ReadyRecipe),
    /// Change a dressing step.
    Step(usize, DraftStep),
    /// Set the pressure in the jar of a dressing step by what a gauge shows.
    Gauge {
        /// Index of the step.
        index: usize,
        /// What the gauge shows, millibars, with or without the minus of a vacuum.
        mbar: f64,
    },
    /// Set the pressure of the air by the height above the sea, metres.
    Height(f64),
    /// Put a dressing step before the one of this index, or at the end.
    AddStep(usize, StepKind),
    /// Put a further coat of oil, and its drying, before the one of this index, or at the end.
    AddCoat(usize),
    /// Take a dressing step out.
    RemoveStep(usize),
    /// Swap a dressing step with the next one.
    SwapSteps(usize),
    /// Forget of which measured line it is a copy.
    ForgetOriginal,
    /// Name the workshop the line belongs to.
    Workshop(String),
    /// Take over what was learnt from measuring.
    Learn {
        /// The values.
        parameters: Parameters,
        /// How well they are known.
        learned: Option<Box<DraftLearned>>,
        /// The workshop they were learnt in.
        workshop: String,
    },
}

impl Edit {
    /// The design after this edit; the design given is left as it was.
    ///
    /// # Errors
    /// [`Refusal`] when the outcome would not be a valid design.
    pub fn apply(self, design: &Design) -> Result<Design, Refusal> {
        let mut draft = design.draft().clone();
        match self {
            Self::Move {
                index,
                wish,
                options,
            } => draft.points = moving::towards(design, index, wish, options).points,
            Self::Place {
                index,
                point,
                options,
            } => moving::exactly(&mut draft, design, index, point, options)?,
            Self::Add { at_m, ends } => reshape::add(&mut draft, design, at_m, ends)?,
            Self::Remove { index, ends } => reshape::remove(&mut draft, design, index, ends)?,
            Self::Lengthen {
                first,
                last,
                length_m,
                ends,
            } => reshape::lengthen(&mut draft, design, (first, last), length_m, ends)?,
            Self::ScaleSizes(factor) => reshape::scale_sizes(&mut draft, factor)?,
            Self::Set(setting, value) => settings::set(&mut draft, setting, value),
            Self::Fibre(fibre) => draft.fibre = fibre,
            Self::Condition(condition) => draft.condition = condition,
            Self::Pattern(pattern) => {
                draft.pattern = pattern;
                machine::mount_every_place(&mut draft);
            }
            Self::Machine(ready_made) => ready_made.put_into(&mut draft),
            Self::Mount(direction, places) => {
                draft.mounted = draft.mounted.with(direction, places);
                machine::keep_threads_within(&mut draft);
            }
            Self::Build(build) => settings::set_build(&mut draft, design, build),
            Self::Train(train) => settings::set_train(&mut draft, design, train),
            Self::Pin { pin, replaces } => settings::put_pin(&mut draft, pin, replaces),
            Self::Unpin(index) => {
                if index < draft.pins.len() {
                    draft.pins.remove(index);
                }
            }
            Self::Supply(supply) => settings::set_supply(&mut draft, supply),
            Self::Label { low, high } => {
                draft.settings.set(Setting::LabelLow, low);
                draft.settings.set(Setting::LabelHigh, high);
            }
            Self::Gears(gears) => draft.gears = gears,
            Self::Name(name) => draft.name = name,
            Self::Notes(notes) => draft.notes = notes,
            Self::Recipe(ready) => draft.recipe = ready.steps(),
            Self::Step(index, step) => {
                if let Some(old) = draft.recipe.get_mut(index) {
                    *old = step;
                }
            }
            Self::Gauge { index, mbar } => settings::set_gauge(&mut draft, design, index, mbar)?,
            Self::Height(metres) => settings::set_height(&mut draft, metres)?,
            Self::AddStep(index, kind) => {
                let index = index.min(draft.recipe.len());
                draft.recipe.insert(index, DraftStep::usual(kind));
            }
            Self::AddCoat(index) => {
                let index = index.min(draft.recipe.len());
                draft.recipe.splice(index..index, recipe::further_coat());
            }
            Self::RemoveStep(index) => {
                if index < draft.recipe.len() {
                    draft.recipe.remove(index);
                }
            }
            Self::SwapSteps(index) => {
                if index + 1 < draft.recipe.len() {
                    draft.recipe.swap(index, index + 1);
                }
            }
            Self::Points(points) => draft.points = points,
            Self::ForgetOriginal => draft.original = None,
            Self::Workshop(name) => draft.workshop = name,
            Self::Learn {
                parameters,
                learned,
                workshop,
            } => {
                parameters.put_into(&mut draft.settings);
                draft.learned = learned.map(|learned| *learned);
                draft.workshop = workshop;
            }
        }
        settings::forget_learned(&mut draft, design);
        Design::parse(draft)
    }
}

/// The design after an [`Edit::Move`], and what limited it, if anything did: both follow from the same calculation.
///
/// # Errors
/// [`Refusal`] when the outcome would not be a valid design.
pub fn moved(
    design: &Design,
    index: usize,
    wish: DraftPoint,
    options: MoveOptions,
) -> Result<(Design, Option<MoveLimit>), Refusal> {
    let Moved { points, limit } = moving::towards(design, index, wish, options);
    let draft = Draft {
        points,
        ..design.draft().clone()
    };
    Ok((Design::parse(draft)?, limit))
}
