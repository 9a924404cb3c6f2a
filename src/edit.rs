//! The only way a design changes.

use crate::design::machine::{self, ReadyMade};
use crate::design::pin::DraftPin;
use crate::design::refusal::{LEAST_SPACING, MOST_POINTS, Place, Refusal};
use crate::design::settings::{DIAMETER, POSITION, Setting};
use crate::design::{Design, Draft, DraftPoint};
use crate::layout::Ground;
use crate::takeoff::{TakeOff, Train};
use crate::threads::{Build, Supply};
use crate::track::{Direction, Pattern, Track};
use crate::yarn::{Condition, Fibre};

/// What becomes of a level stretch when one of its ends changes size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Level {
    /// It stays level: its other points change size alike.
    #[default]
    Stays,
    /// It becomes a taper: only the one point changes.
    Bends,
}

/// One decision of the maker's.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Move a control point towards a wish; neighbours and ranges hold it back.
    Move {
        /// Which point.
        index: usize,
        /// Where it is wished to be.
        wish: DraftPoint,
        /// What becomes of the level stretches it belongs to.
        level: Level,
    },
    /// Set a point exactly; what is not possible is refused.
    Place {
        /// Which point.
        index: usize,
        /// Where it shall be.
        point: DraftPoint,
        /// What becomes of the level stretches it belongs to.
        level: Level,
    },
    /// Add a control point in the middle of the stretch behind this one, on the curve.
    AddBehind(usize),
    /// Remove a control point.
    Remove(usize),
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
}

impl Edit {
    /// The design after this edit; the design given is left as it was.
    ///
    /// # Errors
    /// [`Refusal`] when the outcome would not be a valid design.
    pub fn apply(self, design: &Design) -> Result<Design, Refusal> {
        let mut draft = design.draft().clone();
        match self {
            Self::Move { index, wish, level } => {
                place(
                    &mut draft,
                    design,
                    index,
                    held_back(design, index, wish),
                    level,
                );
            }
            Self::Place {
                index,
                point,
                level,
            } => place(&mut draft, design, index, point, level),
            Self::AddBehind(index) => add_behind(&mut draft, index)?,
            Self::Remove(index) => remove(&mut draft, index)?,
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
        }
        Design::parse(draft)
    }
}

/// Puts a point in its place, and gives its size to the level run it belongs to where that is to stay level.
fn place(draft: &mut Draft, design: &Design, index: usize, point: DraftPoint, level: Level) {
    if index >= draft.points.len() {
        return;
    }
    let (first, last) = match level {
        Level::Stays => design.taper().level_run(index),
        Level::Bends => (index, index),
    };
    for alike in &mut draft.points[first..=last] {
        alike.diameter_mm = point.diameter_mm;
    }
    draft.points[index].at_m = point.at_m;
}

/// The nearest place to the wish that neighbours and ranges allow. The tip stays at 0.
fn held_back(design: &Design, index: usize, wish: DraftPoint) -> DraftPoint {
    let points = &design.draft().points;
    let least = index
        .checked_sub(1)
        .and_then(|before| points.get(before))
        .map_or(POSITION.low, |before| before.at_m + LEAST_SPACING);
    let most = index
        .checked_add(1)
        .and_then(|behind| points.get(behind))
        .map_or(POSITION.high, |after| after.at_m - LEAST_SPACING);
    let at_m = if index == 0 {
        0.0
    } else {
        clamped(wish.at_m, least, most)
    };
    DraftPoint {
        at_m,
        diameter_mm: clamped(wish.diameter_mm, DIAMETER.low, DIAMETER.high),
    }
}

/// Total where `f64::clamp` panics or stays undefined: a wish that is no number gives the lower bound.
fn clamped(wish: f64, low: f64, high: f64) -> f64 {
    wish.max(low).min(high)
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

/// The new point lies on the straight stretch, so the drawing keeps its shape (to a step of the grid).
fn add_behind(draft: &mut Draft, index: usize) -> Result<(), Refusal> {
    if draft.points.len() >= MOST_POINTS {
        return Err(Refusal::PointCount(draft.points.len() + 1));
    }
    let before = index.min(draft.points.len() - 2);
    let (a, b) = (draft.points[before], draft.points[before + 1]);
    if b.at_m - a.at_m < 2.0 * LEAST_SPACING {
        return Err(Refusal::NoRoomBehind(before));
    }
    let middle = DraftPoint {
        at_m: POSITION.admit(0.5 * (a.at_m + b.at_m), Place::Point(before + 1))?,
        diameter_mm: 0.5 * (a.diameter_mm + b.diameter_mm),
    };
    draft.points.insert(before + 1, middle);
    Ok(())
}

/// Takes a point out. The first stays, since the line begins at its tip; two points are the least a taper has.
fn remove(draft: &mut Draft, index: usize) -> Result<(), Refusal> {
    if draft.points.len() <= 2 {
        return Err(Refusal::PointCount(draft.points.len() - 1));
    }
    if index == 0 {
        return Err(Refusal::TipNotAtZero {
            at: draft.points[1].at_m,
        });
    }
    if index < draft.points.len() {
        draft.points.remove(index);
    }
    Ok(())
}
