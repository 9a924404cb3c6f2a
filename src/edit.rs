//! The only way a design changes.

use crate::design::refusal::{LEAST_SPACING, MOST_POINTS, Place, Refusal};
use crate::design::settings::{DIAMETER, POSITION, Setting};
use crate::design::{Design, Draft, DraftPoint};
use crate::track::Pattern;
use crate::yarn::{Condition, Fibre};

/// One decision of the maker's.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Move a control point towards a wish; neighbours and ranges hold it back, and its level run moves with it in size.
    Move {
        /// Which point.
        index: usize,
        /// Where it is wished to be.
        wish: DraftPoint,
    },
    /// Set a point exactly; what is not possible is refused. Its level run moves with it in size.
    Place {
        /// Which point.
        index: usize,
        /// Where it shall be.
        point: DraftPoint,
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
    /// Choose the track's pattern.
    Pattern(Pattern),
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
            Self::Move { index, wish } => {
                place(&mut draft, design, index, held_back(design, index, wish));
            }
            Self::Place { index, point } => place(&mut draft, design, index, point),
            Self::AddBehind(index) => add_behind(&mut draft, index)?,
            Self::Remove(index) => remove(&mut draft, index)?,
            Self::Set(setting, value) => draft.settings.set(setting, value),
            Self::Fibre(fibre) => draft.fibre = fibre,
            Self::Condition(condition) => draft.condition = condition,
            Self::Pattern(pattern) => draft.pattern = pattern,
            Self::Gears(gears) => draft.gears = gears,
            Self::Name(name) => draft.name = name,
            Self::Notes(notes) => draft.notes = notes,
        }
        Design::parse(draft)
    }
}

/// Puts a point in its place, and gives its size to the level run it belongs to: a level tip or belly stays level.
fn place(draft: &mut Draft, design: &Design, index: usize, point: DraftPoint) {
    if index >= draft.points.len() {
        return;
    }
    let (first, last) = design.taper().level_run(index);
    for level in &mut draft.points[first..=last] {
        level.diameter_mm = point.diameter_mm;
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

/// The new point lies on the straight stretch, so the drawing keeps its shape (to a step of the grid).
fn add_behind(draft: &mut Draft, index: usize) -> Result<(), Refusal> {
    if draft.points.len() >= MOST_POINTS {
        return Err(Refusal::PointCount(draft.points.len() + 1));
    }
    let before = index.min(draft.points.len() - 2);
    let (a, b) = (draft.points[before], draft.points[before + 1]);
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
