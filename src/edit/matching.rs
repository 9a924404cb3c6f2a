//! Reaching a class: what the maker lets move is moved to where the finished line is most likely to be of that class.
//!
//! The chance is that of the plan's own prediction ([`crate::plan::prediction`]): what the head will weigh, by as much as is
//! known of machine, yarn and dressing, and what lies of that within the class's band. Threads come whole, so the head's weight
//! changes in steps and the middle of the band cannot always be met; of weights equally near to it, the one that is better known
//! wins. Where chances are alike, the weight nearest to the target does. A change that breaks a condition of a good thread plan
//! which the line meets now ([`crate::edit::finder::Unmet`]) is proposed only where no other reaches the class. Where no planned
//! weight lies within the band, nothing is changed and the refusal says so.

use core::cmp::Ordering;
use core::fmt;

use crate::base::choice::Choice;
use crate::base::units::Mass;
use crate::braid::ladder::LadderCache;
use crate::braid::weight::{Class, Verdict};
use crate::design::settings::{DIAMETER, Setting};
use crate::design::{Design, DraftPoint};
use crate::edit::finder::conditions;
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
    /// The diameter of the tip.
    TipSize,
    /// The braid angle that gears are chosen for, within the tolerance the maker allows.
    Gears,
}

impl Choice for Mover {
    const ALL: &'static [Self] = &[
        Self::BellySize,
        Self::EndsPerThread,
        Self::TaperLength,
        Self::TipSize,
        Self::Gears,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::BellySize => "belly-size",
            Self::EndsPerThread => "ends-per-thread",
            Self::TaperLength => "taper-length",
            Self::TipSize => "tip-size",
            Self::Gears => "gears",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::BellySize => "the size of the belly",
            Self::EndsPerThread => "the ends in a thread",
            Self::TaperLength => "the length of the front taper",
            Self::TipSize => "the size of the tip",
            Self::Gears => "the gears, within the angle tolerance",
        }
    }
}

/// The edit that reaches the class, and what the line is like then.
#[derive(Clone, Debug, PartialEq)]
pub struct Match {
    /// What to change.
    pub edit: Edit,
    /// What was moved.
    pub mover: Mover,
    /// The value of what was moved: millimetres of diameter, ends, metres from the tip, degrees of angle.
    pub value: f64,
    /// Head mass less the target.
    pub off: Mass,
    /// The chance that the finished line is of the class, 0 to 1.
    pub chance: f64,
    /// The same of the line as it was.
    pub chance_before: f64,
}

/// Why a class cannot be matched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoMatch {
    /// The line is too short to have a class.
    TooShort,
    /// The line has no front taper to move.
    NoTaper,
    /// However they are moved, the head stays outside the band; this is the nearest.
    OutOfReach {
        /// The class asked for.
        class: Class,
        /// What was to be moved; `None` where it might be one of several.
        mover: Option<Mover>,
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
                "{} does not reach class {}. The nearest weight is {:.1} grains; the class is {} to {} grains. \
                 Nothing was changed. Choose something else to change.",
                mover.map_or_else(
                    || "No single change".to_owned(),
                    |mover| format!("Changing only {}", mover.name())
                ),
                class.number,
                nearest.grains(),
                class.low,
                class.high
            ),
        }
    }
}

/// Places tried over the whole range, and then around the best of them.
const COARSE: u32 = 24;
const FINE: u32 = 6;
/// Rounds of trying around the best.
const ROUNDS: u32 = 3;
/// Of several things that may be moved, so many of the most promising are looked at closely.
const REFINED: usize = 2;
/// The belly and the tip may become this many times thinner or thicker.
const SIZES: (f64, f64) = (0.5, 1.8);
/// Most ends of a thread that are tried, in times those there are.
const MOST_TIMES_ENDS: f64 = 3.0;
/// Chances closer than this are alike: nobody braids enough lines to tell them apart. Our own choice.
const ALIKE: f64 = 1e-3;
/// Of several things that may be moved a later one must make the class likelier than an earlier one by this. Our own choice: a percent
/// is the least that is shown.
const WORTH_ANOTHER: f64 = 0.01;

/// Finds the one edit that makes a class most likely, by moving one of these.
///
/// # Errors
/// [`NoMatch`] when the class is out of reach that way.
pub fn reach_class(design: &Design, class: Class, movers: &[Mover]) -> Result<Match, NoMatch> {
    let mut ladders = LadderCache::default();
    let plan = Plan::with(design, &mut ladders);
    let now = Outcome::of(&plan, class, false).ok_or(NoMatch::TooShort)?;
    let unmet = conditions::unmet(design, &plan).len();
    let mut trial = Trial {
        design,
        class,
        mover: Mover::BellySize,
        unmet,
        ladders,
    };
    let mut promising: Vec<(Mover, Tried)> = Vec::new();
    for &mover in movers {
        trial.mover = mover;
        promising.extend(trial.roughly().map(|tried| (mover, tried)));
    }
    // Stable: of things alike the earlier stays first.
    promising.sort_by(|(_, a), (_, b)| b.outcome.cmp_worth(&a.outcome));
    let mut best: Option<(Mover, Tried)> = None;
    for (mover, tried) in promising.into_iter().take(REFINED) {
        trial.mover = mover;
        let tried = trial.refined(tried);
        let is_worth = |(_, best): &(Mover, Tried)| tried.outcome.is_worth_more(&best.outcome);
        if best.as_ref().is_none_or(is_worth) {
            best = Some((mover, tried));
        }
    }
    let (mover, Tried { value, outcome }) = best.ok_or(NoMatch::NoTaper)?;
    if !outcome.is_within {
        return Err(NoMatch::OutOfReach {
            class,
            mover: (movers.len() == 1).then_some(mover),
            nearest: outcome.head,
        });
    }
    Ok(Match {
        edit: mover.edit(design, value),
        mover,
        value,
        off: outcome.head - Mass::from_grains(class.target),
        chance: outcome.chance,
        chance_before: now.chance,
    })
}

/// What a line would be like.
#[derive(Clone, Copy, Debug)]
struct Outcome {
    head: Mass,
    /// Whether the planned head is within the band of the class.
    is_within: bool,
    /// Whether it breaks a condition of a good thread plan that the line meets as it is.
    breaks: bool,
    chance: f64,
    /// How far the head is from the target, in grains.
    off: f64,
}

impl Outcome {
    /// `None` for a line too short for a class.
    fn of(plan: &Plan, class: Class, breaks: bool) -> Option<Self> {
        let head = plan.head_mass?;
        Some(Self {
            head,
            is_within: Verdict::of(head).number() == Some(class.number),
            breaks,
            chance: plan.prediction.as_ref()?.chance_of(&class),
            off: (head.grains() - class.target).abs(),
        })
    }

    /// Whether it is better than another of the same thing moved: within the band, without a broken condition, the class likelier, or as
    /// likely and the head nearer to its target, in this order.
    fn is_better_than(&self, other: &Self) -> bool {
        self.cmp_worth(other) == Ordering::Greater
    }

    /// The greater is the better.
    fn cmp_worth(&self, other: &Self) -> Ordering {
        let step = |chance: f64| (chance / ALIKE).round();
        let by_chance = || step(self.chance).total_cmp(&step(other.chance));
        let by_target = || other.off.total_cmp(&self.off);
        let order = self.kind().cmp(&other.kind());
        order.then_with(by_chance).then_with(by_target)
    }

    /// Whether it is so much better than one of another thing moved that this is taken instead.
    fn is_worth_more(&self, other: &Self) -> bool {
        match self.kind().cmp(&other.kind()) {
            Ordering::Equal if self.is_within => self.chance > other.chance + WORTH_ANOTHER,
            Ordering::Equal => self.off < other.off,
            order => order == Ordering::Greater,
        }
    }

    /// The higher, the better, whatever the chance.
    fn kind(&self) -> u8 {
        u8::from(self.is_within) + u8::from(self.is_within && !self.breaks)
    }
}

/// A value of the thing moved, and what the line is like with it.
#[derive(Clone, Copy)]
struct Tried {
    value: f64,
    outcome: Outcome,
}

struct Trial<'a> {
    design: &'a Design,
    class: Class,
    mover: Mover,
    /// How many conditions of a good thread plan the line does not meet as it is.
    unmet: usize,
    /// Trials mostly need the same few.
    ladders: LadderCache,
}

impl Trial<'_> {
    /// Where the thing may be moved. `None` where there is no such thing.
    fn range(&mut self) -> Option<(f64, f64)> {
        let (points, (first, last)) = (&self.design.draft().points, self.design.taper().belly());
        Some(match self.mover {
            Mover::BellySize => sizes(points[first].diameter_mm),
            Mover::TipSize => sizes(points[0].diameter_mm),
            Mover::Gears => {
                let rule = Setting::TargetAngle.rule();
                let [angle, tolerance] = [Setting::TargetAngle, Setting::AngleTolerance]
                    .map(|setting| self.design.setting(setting));
                let least = (angle - tolerance).max(rule.low);
                (least, (angle + tolerance).min(rule.high))
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

    /// The best of a few places over the whole range. `None` where there is nothing to move.
    fn roughly(&mut self) -> Option<Tried> {
        let (low, high) = self.range()?;
        self.best_of(low, high, COARSE)
    }

    /// The best around a place.
    fn refined(&mut self, mut best: Tried) -> Tried {
        let Some((low, high)) = self.range() else {
            return best;
        };
        let mut reach = (high - low) / f64::from(COARSE);
        for _ in 0..ROUNDS {
            let (from, to) = (
                (best.value - reach).max(low),
                (best.value + reach).min(high),
            );
            let closer = self.best_of(from, to, FINE);
            best = closer
                .filter(|tried| tried.outcome.is_better_than(&best.outcome))
                .unwrap_or(best);
            reach /= f64::from(FINE) / 2.0;
        }
        best
    }

    fn best_of(&mut self, low: f64, high: f64, count: u32) -> Option<Tried> {
        let values = (0..=count).map(|k| low + (high - low) * f64::from(k) / f64::from(count));
        let tried = values.filter_map(|value| self.try_out(value));
        tried.reduce(|best, next| {
            if next.outcome.is_better_than(&best.outcome) {
                next
            } else {
                best
            }
        })
    }

    fn try_out(&mut self, value: f64) -> Option<Tried> {
        let changed = self
            .mover
            .edit(self.design, value)
            .apply(self.design)
            .ok()?;
        let plan = Plan::with(&changed, &mut self.ladders);
        let breaks = conditions::unmet(&changed, &plan).len() > self.unmet;
        let outcome = Outcome::of(&plan, self.class, breaks)?;
        Some(Tried { value, outcome })
    }
}

/// How thin and how thick a point may become, in millimetres.
fn sizes(size: f64) -> (f64, f64) {
    let least = (size * SIZES.0).max(DIAMETER.low);
    (least, (size * SIZES.1).min(DIAMETER.high))
}

impl Mover {
    /// The edit that moves it to a value.
    fn edit(self, design: &Design, value: f64) -> Edit {
        let first = design.taper().belly().0;
        let place = |index: usize, change: fn(&mut DraftPoint, f64)| {
            let mut point = design.draft().points[index];
            change(&mut point, value);
            Edit::Place {
                index,
                point,
                options: MoveOptions {
                    ends: LineEnds::Apart,
                    ..MoveOptions::default()
                },
            }
        };
        match self {
            Self::BellySize => place(first, |point, size| point.diameter_mm = size),
            Self::TipSize => place(0, |point, size| point.diameter_mm = size),
            Self::TaperLength => place(first, |point, at| point.at_m = at),
            Self::EndsPerThread => Edit::Set(Setting::EndsPerThread, value.round()),
            Self::Gears => Edit::Set(Setting::TargetAngle, value),
        }
    }
}
