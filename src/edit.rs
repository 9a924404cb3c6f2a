//! The only way a design changes.

use crate::design::refusal::{LEAST_SPACING, MOST_POINTS, Place, Refusal};
use crate::design::settings::{DIAMETER, POSITION, Setting};
use crate::design::{Design, Draft, DraftPoint};
use crate::track::{Pattern, Track};
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
    /// Choose the track's pattern. Carriers go to the nearest count there is a track for.
    Pattern(Pattern),
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
            Self::Set(setting, value) => draft.settings.set(setting, value),
            Self::Fibre(fibre) => draft.fibre = fibre,
            Self::Condition(condition) => draft.condition = condition,
            Self::Pattern(pattern) => set_pattern(&mut draft, pattern),
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
    let most = points
        .get(index + 1)
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

/// Chooses a pattern, and with it the nearest count of carriers; the fewest threads stay within them.
fn set_pattern(draft: &mut Draft, pattern: Pattern) {
    let carriers = Setting::Carriers
        .rule()
        .quanta(draft.settings.get(Setting::Carriers));
    let carriers = f64::from(Track::nearest_carriers(carriers, pattern));
    draft.pattern = pattern;
    draft.settings.set(Setting::Carriers, carriers);
    let fewest = draft.settings.get(Setting::FewestThreads);
    draft
        .settings
        .set(Setting::FewestThreads, fewest.min(carriers));
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
