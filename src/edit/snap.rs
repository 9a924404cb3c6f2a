//! Snapping: while a control point is dragged it goes to the nearest size that whole threads make, to the nearest size letter of
//! the trade, to the nearest round length. Each can be on or off. It serves hands, not fields: a typed number is taken as it is.

use crate::base::units::show::Units;
use crate::base::units::{Length, METRES_PER_FOOT};
use crate::braid::letters::LETTERS;
use crate::braid::threads::{Level, Staircase};
use crate::design::{Design, DraftPoint};
use crate::plan::layout::Ground;

/// What points snap to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a tick box of its own"
)]
pub struct Snap {
    /// Sizes that whole threads make at the target angle.
    pub threads: bool,
    /// The same while a finger drags, which is too broad for anything finer.
    pub threads_by_finger: bool,
    /// Sizes of the silk size letters.
    pub letters: bool,
    /// Round distances from the tip.
    pub lengths: bool,
}

impl Default for Snap {
    fn default() -> Self {
        Self {
            threads: false,
            threads_by_finger: true,
            letters: false,
            lengths: false,
        }
    }
}

/// What makes a guide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GuideKind {
    /// A level of the machine makes this size.
    Threads(Level),
    /// A size letter stands for it.
    Letter(&'static str),
}

/// A size that points snap to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guide {
    /// The finished diameter.
    pub diameter: Length,
    /// What makes it.
    pub kind: GuideKind,
}

impl Snap {
    /// What points snap to while a finger drags them.
    #[must_use]
    pub const fn of_finger(self) -> Self {
        Self {
            threads: self.threads || self.threads_by_finger,
            ..self
        }
    }

    /// The sizes points snap to, thinnest first.
    pub fn guides(self, design: &Design) -> Vec<Guide> {
        let mut guides = Vec::new();
        if self.threads {
            guides.extend(thread_guides(&Ground::of(design)));
        }
        if self.letters {
            guides.extend(LETTERS.into_iter().map(|letter| Guide {
                diameter: letter.diameter,
                kind: GuideKind::Letter(letter.name),
            }));
        }
        guides.sort_by(|a, b| a.diameter.metres().total_cmp(&b.diameter.metres()));
        guides
    }

    /// A wish moved to the nearest guide and the nearest round length, where these are on. A number that stays as it was `from`
    /// the beginning is left alone.
    pub fn pull(
        self,
        wish: DraftPoint,
        from: DraftPoint,
        guides: &[Guide],
        units: Units,
    ) -> DraftPoint {
        let is_kept = |wish: f64, from: f64| wish.total_cmp(&from).is_eq();
        let off = |guide: &&Guide| (guide.diameter.millimetres() - wish.diameter_mm).abs();
        let nearest = guides.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        let nearest = nearest.filter(|_| !is_kept(wish.diameter_mm, from.diameter_mm));
        let quantum = round_length(units).metres();
        DraftPoint {
            diameter_mm: nearest.map_or(wish.diameter_mm, |guide| guide.diameter.millimetres()),
            at_m: if self.lengths && !is_kept(wish.at_m, from.at_m) {
                (wish.at_m / quantum).round() * quantum
            } else {
                wish.at_m
            },
        }
    }
}

fn thread_guides(ground: &Ground) -> Vec<Guide> {
    let sizes = sizes(&ground.staircase);
    let guide = |(&level, diameter)| Guide {
        diameter,
        kind: GuideKind::Threads(level),
    };
    ground.levels.iter().zip(sizes).map(guide).collect()
}

/// The finished diameter of every level at the target angle, thinnest first.
fn sizes(staircase: &Staircase) -> Vec<Length> {
    let yarn = staircase.yarn.iter();
    yarn.map(|&yarn| staircase.diameter(yarn)).collect()
}

/// A round length, and the step by which one press moves a point along the line. 5 cm, or a quarter of a foot.
pub fn round_length(units: Units) -> Length {
    match units {
        Units::Metric => Length::from_metres(0.05),
        Units::Imperial => Length::from_metres(0.25 * METRES_PER_FOOT),
    }
}

/// The size of the level next to the one nearest to `diameter`: with one thread more, or one less. Beyond the most and the
/// fewest threads it continues by as much yarn as between the last two levels.
pub fn thread_beside(design: &Design, diameter: Length, is_thicker: bool) -> Length {
    let staircase = Ground::of(design).staircase;
    let nearest = staircase.nearest(diameter);
    let beside = if is_thicker {
        Some(nearest + 1)
    } else {
        nearest.checked_sub(1)
    };
    let sizes = sizes(&staircase);
    let size = beside.and_then(|beside| sizes.get(beside)).copied();
    size.unwrap_or_else(|| {
        let one = step_of_yarn(&staircase.yarn, is_thicker);
        let yarn = staircase.wanted(diameter);
        staircase.diameter(if is_thicker { yarn + one } else { yarn - one })
    })
}

/// Yarn between the last two levels on a side, in standard threads; one thread where there is a single level.
fn step_of_yarn(yarn: &[f64], at_the_top: bool) -> f64 {
    let pair = if at_the_top {
        yarn.last_chunk::<2>()
    } else {
        yarn.first_chunk::<2>()
    };
    pair.map_or(1.0, |[below, above]| above - below)
}
