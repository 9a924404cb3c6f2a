//! The only way a design changes.

mod drawing;
pub mod finder;
mod held;
mod manner;
pub mod matching;
pub mod sketch;
pub mod snap;
pub mod starts;

use crate::braid::recipe::{self, DraftStep, ReadyRecipe, StepKind};
use crate::braid::takeoff::{TakeOff, Train};
use crate::braid::threads::{Build, Supply};
use crate::braid::track::{Direction, Pattern, Track};
use crate::braid::yarn::{Condition, Fibre};
use crate::design::machine::{self, ReadyMade};
use crate::design::parameters::{DraftLearned, Parameter, Parameters};
use crate::design::pin::DraftPin;
use crate::design::refusal::Refusal;
use crate::design::settings::Setting;
use crate::design::{Design, Draft, DraftPoint};
use crate::plan::layout::Ground;

pub use drawing::ends_are_alike;
pub use held::HeldBy;
pub use manner::{Along, Ends, Level, Manner};

/// One decision of the maker's.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Move a control point towards a wish; neighbours and ranges hold it back.
    Move {
        /// Which point.
        index: usize,
        /// Where it is wished to be.
        wish: DraftPoint,
        /// What moves along.
        manner: Manner,
    },
    /// Set a point exactly; what is not possible is refused.
    Place {
        /// Which point.
        index: usize,
        /// Where it shall be.
        point: DraftPoint,
        /// What moves along.
        manner: Manner,
    },
    /// Add a control point on the curve; the drawing keeps its shape.
    Add {
        /// How far from the tip, metres.
        at_m: f64,
        /// Whether the other end gets its like.
        ends: Ends,
    },
    /// Remove a control point.
    Remove {
        /// Which point.
        index: usize,
        /// Whether the other end loses its like.
        ends: Ends,
    },
    /// Give the part between two points another length. What lies within keeps its proportions, what lies behind moves
    /// along.
    Lengthen {
        /// The point the part begins with.
        first: usize,
        /// The point it ends with.
        last: usize,
        /// Its new length, metres.
        length_m: f64,
        /// Whether the same part of the other end gets that length too.
        ends: Ends,
    },
    /// Make the whole line so many times thicker.
    ScaleSizes(f64),
    /// Set a numbered setting.
    Set(Setting, f64),
    /// Choose the fibre.
    Fibre(Fibre),
    /// Choose whether the label counts the yarn raw.
    Condition(Condition),
    /// Choose the track's pattern. Every place of the nearest ring there is gets a carrier.
    Pattern(Pattern),
    /// Put a ready-made machine in the place of one's own.
    Machine(ReadyMade),
    /// Say which places of one direction bear a carrier; an empty list means every place.
    Mount(Direction, Vec<u32>),
    /// Choose how the line is made thicker.
    Build(Build),
    /// Choose how the change gears sit in the train.
    Train(Train),
    /// Insist on something, in the place of another pin where one is named.
    Pin {
        /// What to insist on.
        pin: DraftPin,
        /// The pin it takes the place of, by its place in the list.
        replaces: Option<usize>,
    },
    /// Let a pin go.
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
    /// Name the line.
    Name(String),
    /// Write notes.
    Notes(String),
    /// Dress by a ready recipe.
    Recipe(ReadyRecipe),
    /// Change a dressing step.
    Step(usize, DraftStep),
    /// Put a dressing step before the one of this index, or at the end.
    AddStep(usize, StepKind),
    /// Put a further coat of oil, and its drying, before the one of this index, or at the end.
    AddCoat(usize),
    /// Take a dressing step out.
    RemoveStep(usize),
    /// Exchange a dressing step with the one behind it.
    SwapSteps(usize),
    /// Name the workshop the line is at home in.
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
                manner,
            } => draft.points = drawing::towards(design, index, wish, manner).points,
            Self::Place {
                index,
                point,
                manner,
            } => drawing::exactly(&mut draft, design, index, point, manner)?,
            Self::Add { at_m, ends } => drawing::add(&mut draft, design, at_m, ends)?,
            Self::Remove { index, ends } => drawing::remove(&mut draft, design, index, ends)?,
            Self::Lengthen {
                first,
                last,
                length_m,
                ends,
            } => drawing::lengthen(&mut draft, design, (first, last), length_m, ends)?,
            Self::ScaleSizes(factor) => drawing::scale_sizes(&mut draft, factor),
            Self::Set(setting, value) => set(&mut draft, setting, value),
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
            Self::Build(build) => set_build(&mut draft, design, build),
            Self::Train(train) => set_train(&mut draft, design, train),
            Self::Pin { pin, replaces } => put_pin(&mut draft, pin, replaces),
            Self::Unpin(index) => {
                if index < draft.pins.len() {
                    draft.pins.remove(index);
                }
            }
            Self::Supply(supply) => set_supply(&mut draft, supply),
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
        forget_what_no_longer_holds(&mut draft, design);
        Design::parse(draft)
    }
}

/// What was learnt holds for the yarn it was learnt of, and as long as the values are those learnt: another value set by hand
/// is the maker's own belief again.
fn forget_what_no_longer_holds(draft: &mut Draft, design: &Design) {
    let before = design.draft();
    if draft.learned != before.learned {
        return;
    }
    let is_other = |setting: Setting| draft.settings.get(setting) != before.settings.get(setting);
    let of_yarn = [
        Setting::LabelLow,
        Setting::LabelHigh,
        Setting::DegummingLoss,
    ];
    let values = Parameter::ALL.map(Parameter::setting);
    let has_changed = of_yarn.into_iter().chain(values).any(is_other);
    if has_changed || (draft.fibre, draft.condition) != (before.fibre, before.condition) {
        draft.learned = None;
    }
}

/// What holds a point back from a wish, if anything does: the wish of an [`Edit::Move`].
pub fn held_back(
    design: &Design,
    index: usize,
    wish: DraftPoint,
    manner: Manner,
) -> Option<HeldBy> {
    drawing::towards(design, index, wish, manner).held
}

/// Sets a number. Another ring bears a carrier on every place, or a list of places could not be kept.
fn set(draft: &mut Draft, setting: Setting, value: f64) {
    let is_another = draft.settings.get(setting) != value;
    draft.settings.set(setting, value);
    // A broken number is no ring, and is left to be refused.
    if setting == Setting::HornGears
        && is_another
        && value.fract() == 0.0
        && Track::new(setting.rule().quanta(value), draft.pattern.slots()).is_some()
    {
        machine::mount_every_place(draft);
    }
}

/// Chooses how the line is made thicker. A heavier thread that is none yet, or too light for the drawing, gets the fewest
/// ends with which all carriers together reach its thickest place.
fn set_build(draft: &mut Draft, design: &Design, build: Build) {
    draft.build = build;
    let ground = Ground::of(design);
    let supply = Supply {
        build,
        ..ground.supply
    };
    let light = f64::from(supply.light);
    let wanted = ground.staircase.wanted(ground.taper.thickest()) * light;
    let threads = supply.levels().last().map_or(1, |level| level.threads);
    let needed = (wanted / f64::from(threads)).ceil().max(light + 1.0);
    let is_enough = f64::from(supply.heavy) >= needed;
    if build != Build::MoreThreads && !is_enough {
        let most = Setting::HeavierEnds.rule().high;
        draft.settings.set(Setting::HeavierEnds, needed.min(most));
    }
}

fn set_supply(draft: &mut Draft, supply: Supply) {
    draft.build = supply.build;
    let counts = [
        (Setting::FewestThreads, supply.fewest),
        (Setting::MostThreads, supply.most),
        (Setting::EndsPerThread, supply.light),
        (Setting::HeavierEnds, supply.heavy),
    ];
    for (setting, count) in counts {
        draft.settings.set(setting, f64::from(count));
    }
}

/// Chooses a train. Where the gears owned make no pair of the sum set, it becomes the one that most of them make.
fn set_train(draft: &mut Draft, design: &Design, train: Train) {
    draft.train = train;
    let take_off = TakeOff {
        train,
        ..design.take_off()
    };
    if train == Train::FixedCentres && take_off.choices().is_empty() {
        let sum = take_off.likeliest_pair_sum();
        draft.settings.set(
            Setting::PairSum,
            sum.map_or(draft.settings.get(Setting::PairSum), f64::from),
        );
    }
}

/// Puts a pin in the place of another, or behind all others.
fn put_pin(draft: &mut Draft, pin: DraftPin, replaces: Option<usize>) {
    match replaces.and_then(|index| draft.pins.get_mut(index)) {
        Some(old) => *old = pin,
        None => draft.pins.push(pin),
    }
}
