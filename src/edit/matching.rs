//! Matching a class: one thing of the drawing or the threads is moved until the head weighs what the class asks for.
//!
//! Threads come whole, so the head's weight changes in steps and its target cannot always be met. The nearest weight within the
//! class's band is taken; where there is none, nothing is changed and the refusal says so.

use core::fmt;

use crate::base::choice::Choice;
use crate::base::units::Mass;
use crate::braid::ladder::LadderCache;
use crate::braid::weight::{Class, Verdict};
use crate::design::settings::{DIAMETER, Setting};
use crate::design::{Design, DraftPoint};
use crate::edit::{Edit, LineEnds, MoveOptions};
use crate::plan::Plan;

/// What may be moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mover {
    /// The largest diameter.
    BellySize,
    /// Ends plied to the standard thread.
    EndsPerThread,
    /// Where the front taper ends.
    TaperLength,
}

impl Choice for Mover {
    const ALL: &'static [Self] = &[Self::BellySize, Self::EndsPerThread, Self::TaperLength];

    fn key(self) -> &'static str {
        match self {
            Self::BellySize => "belly-size",
            Self::EndsPerThread => "ends-per-thread",
            Self::TaperLength => "taper-length",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::BellySize => "the size of the belly",
            Self::EndsPerThread => "the ends in a thread",
            Self::TaperLength => "the length of the front taper",
        }
    }
}

/// The edit that matches the class, and how far the head is then from its target.
#[derive(Clone, Debug, PartialEq)]
pub struct Match {
    /// What to change.
    pub edit: Edit,
    /// The value of what was moved: millimetres of diameter, ends, metres from the tip.
    pub value: f64,
    /// Head mass less the target.
    pub off: Mass,
}

/// Why a class cannot be matched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoMatch {
    /// The line is too short to have a class.
    TooShort,
    /// The line has no front taper to move.
    NoTaper,
    /// However it is moved, the head stays outside the band; this is the nearest.
    OutOfReach {
        /// The class asked for.
        class: Class,
        /// What was to be moved.
        mover: Mover,
        /// The nearest weight there is.
        nearest: Mass,
    },
}

impl fmt::Display for NoMatch {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort => write!(
                out,
                "A line shorter than 30 ft after its tip has no class. Draw it longer first."
            ),
            Self::NoTaper => write!(
                out,
                "This line has no front taper to lengthen. Choose something else to change."
            ),
            Self::OutOfReach {
                class,
                mover,
                nearest,
            } => write!(
                out,
                "Changing only {} does not reach class {}. It stays {:.1} grains away; the class is {} to {} grains. \
                 Nothing was changed. Choose something else to change.",
                mover.name(),
                class.number,
                nearest.grains(),
                class.low,
                class.high
            ),
        }
    }
}

/// Places tried over the whole range, and then around the best of them.
const COARSE: u32 = 48;
const FINE: u32 = 16;
/// Rounds of trying around the best.
const ROUNDS: u32 = 3;
/// The belly may become this many times thinner or thicker.
const SIZES: (f64, f64) = (0.5, 1.8);
/// Most ends of a thread that are tried, in times those there are.
const MOST_TIMES_ENDS: f64 = 3.0;

/// Finds the edit that brings the head nearest to the target of a class by moving one thing.
///
/// # Errors
/// [`NoMatch`] when the class is out of reach that way.
pub fn match_class(design: &Design, class: Class, mover: Mover) -> Result<Match, NoMatch> {
    let mut ladders = LadderCache::default();
    if Plan::with(design, &mut ladders).head_mass.is_none() {
        return Err(NoMatch::TooShort);
    }
    let mut trial = Trial {
        design,
        class,
        mover,
        ladders,
    };
    let range = trial.range().ok_or(NoMatch::NoTaper)?;
    let best = trial.best(range).ok_or(NoMatch::TooShort)?;
    match Verdict::of(best.head) {
        Verdict::Within(found) if found.number == class.number => Ok(Match {
            edit: trial.edit(best.value),
            value: best.value,
            off: best.head - Mass::from_grains(class.target),
        }),
        _ => Err(NoMatch::OutOfReach {
            class,
            mover,
            nearest: best.head,
        }),
    }
}

/// A value of the thing moved, and what the head weighs with it.
#[derive(Clone, Copy)]
struct Tried {
    value: f64,
    head: Mass,
}

struct Trial<'a> {
    design: &'a Design,
    class: Class,
    mover: Mover,
    /// Trials mostly need the same few.
    ladders: LadderCache,
}

impl Trial<'_> {
    /// Where the thing may be moved. `None` where there is no such thing.
    fn range(&mut self) -> Option<(f64, f64)> {
        let (points, (first, last)) = (&self.design.draft().points, self.design.taper().belly());
        Some(match self.mover {
            Mover::BellySize => {
                let size = points[first].diameter_mm;
                let least = (size * SIZES.0).max(DIAMETER.low);
                (least, (size * SIZES.1).min(DIAMETER.high))
            }
            Mover::EndsPerThread => {
                let rule = Setting::EndsPerThread.rule();
                let ends = self.design.setting(Setting::EndsPerThread);
                (rule.low, (ends * MOST_TIMES_ENDS).min(rule.high))
            }
            Mover::TaperLength => {
                let before = first.checked_sub(1)?;
                let behind = if last > first { first + 1 } else { last + 1 };
                let end = points.get(behind)?;
                let room = crate::design::refusal::LEAST_SPACING;
                (points[before].at_m + self.least_taper(), end.at_m - room)
            }
        })
    }

    /// The shortest front taper in which its changes still have their least distance, in metres.
    fn least_taper(&mut self) -> f64 {
        let plan = Plan::with(self.design, &mut self.ladders);
        let (first, _) = self.design.taper().belly();
        let belly = self.design.taper().points()[first].at;
        let changes = plan.layout.stops.iter().filter(|stop| stop.at <= belly);
        let steps: usize = changes.map(|stop| stop.steps.len()).sum();
        self.design.least_spacing().metres() * (steps + 1) as f64
    }

    fn best(&mut self, (low, high): (f64, f64)) -> Option<Tried> {
        let mut best = self.nearest_of(low, high, COARSE)?;
        let mut reach = (high - low) / f64::from(COARSE);
        for _ in 0..ROUNDS {
            let (from, to) = (
                (best.value - reach).max(low),
                (best.value + reach).min(high),
            );
            let closer = self.nearest_of(from, to, FINE);
            best = closer
                .filter(|tried| self.off(tried) < self.off(&best))
                .unwrap_or(best);
            reach /= f64::from(FINE) / 2.0;
        }
        Some(best)
    }

    fn nearest_of(&mut self, low: f64, high: f64, count: u32) -> Option<Tried> {
        let values = (0..=count).map(|k| low + (high - low) * f64::from(k) / f64::from(count));
        let tried: Vec<Tried> = values.filter_map(|value| self.try_out(value)).collect();
        tried
            .into_iter()
            .min_by(|a, b| self.off(a).total_cmp(&self.off(b)))
    }

    fn off(&self, tried: &Tried) -> f64 {
        (tried.head.grains() - self.class.target).abs()
    }

    fn try_out(&mut self, value: f64) -> Option<Tried> {
        let changed = self.edit(value).apply(self.design).ok()?;
        let head = Plan::with(&changed, &mut self.ladders).head_mass?;
        Some(Tried { value, head })
    }

    fn edit(&self, value: f64) -> Edit {
        let first = self.design.taper().belly().0;
        let point = self.design.draft().points[first];
        let place = |point| Edit::Place {
            index: first,
            point,
            options: MoveOptions {
                ends: LineEnds::Apart,
                ..MoveOptions::default()
            },
        };
        match self.mover {
            Mover::BellySize => place(DraftPoint {
                diameter_mm: value,
                ..point
            }),
            Mover::EndsPerThread => Edit::Set(Setting::EndsPerThread, value.round()),
            Mover::TaperLength => place(DraftPoint {
                at_m: value,
                ..point
            }),
        }
    }
}
