//! A drawing that turns over as wanted and keeps its class: sought on the drawing, offered as it will be braided.
//!
//! On the drawing, as if threads could be divided, [`super::balance`] gives the moves within a reach that keep the head as heavy as it
//! is. Level stretches are brought to whole threads in several ways ([`super::whole_threads`]), and the other moves make up for what
//! that changes. Of all that, what promises most is planned first, until no other promises more than what was found. The plan decides:
//! it must stand as well as before ([`super::standing`]), and its own cast says what is gained.

use super::balance::Balance;
use super::drawn::DrawnCasts;
use super::hand::drawn_by_hand;
use super::handles::handles;
use super::influence::MOST_POINTS;
use super::standing::Standing;
use super::whole_threads::ways;
use super::wish::{NoReshape, Wish};
use crate::base::units::Mass;
use crate::braid::ladder::LadderCache;
use crate::braid::threads::Staircase;
use crate::braid::weight::{Class, Verdict};
use crate::design::{Design, Draft, DraftPoint};
use crate::plan::Plan;
use crate::turnover::{Cast, Surroundings, turn_over};

/// Reaches tried, each a quarter of the one before.
const REACHES: [f64; 4] = [1.0, 0.25, 0.062_5, 0.015_625];
/// How many of what promises most are planned at most.
const PLANNED: usize = 16;
/// How often one of them is planned, each time with what whole threads made of the head the time before.
const ROUNDS: u32 = 2;
/// The head may become lighter or heavier by this share, where the class stays as likely: whole threads change it by more. Our own
/// choice.
const HEAD_SLACK: f64 = 0.02;
/// Least change of the energy left that is offered, as a share of what there was. Our own choice: less is not felt.
pub const LEAST_GAIN: f64 = 0.01;

/// A line reshaped.
#[derive(Clone, Debug, PartialEq)]
pub struct Reshaped {
    /// The line.
    pub design: Design,
    /// Share of the energy that reaches the leader, before and after, both of the line as it will be braided.
    pub energy_left: (f64, f64),
    /// Its class: the one it had.
    pub verdict: Verdict,
    /// The chance that the finished line is of that class, before and after, 0 to 1.
    pub chance: (f64, f64),
}

/// Offers a line of the same class and length that turns over as wanted.
///
/// # Errors
/// [`NoReshape`] where there is none.
pub fn reshape(
    design: &Design,
    wish: Wish,
    cast: &Cast,
    air: &Surroundings,
) -> Result<Reshaped, NoReshape> {
    let mut ladders = LadderCache::default();
    let plan = Plan::with(design, &mut ladders);
    let Verdict::Within(class) = plan.verdict else {
        return Err(NoReshape::NoClass(plan.verdict));
    };
    let count = design.draft().points.len();
    if count > MOST_POINTS {
        return Err(NoReshape::TooManyPoints(count));
    }
    let casts = DrawnCasts::of(design, cast, air);
    let balance = Balance {
        points: design.taper().points().to_vec(),
        handles: handles(design, &casts, cast.outside().max(plan.head.to)),
        sign: wish.sign(),
        casts: &casts,
    };
    if balance.handles.len() < 2 {
        return Err(NoReshape::Level);
    }
    let nothing = nothing_gained(wish, &balance, &plan);
    let mut search = Search {
        design,
        class,
        energy_left: energy_left(&plan, cast, air).ok_or(nothing)?,
        before: Standing::of(design, &plan, &class),
        staircase: plan.layout.staircase,
        cast: (cast, air),
        balance,
        ladders,
        seen: Vec::new(),
    };
    search.best().ok_or(nothing)
}

fn nothing_gained(wish: Wish, balance: &Balance<'_>, plan: &Plan) -> NoReshape {
    let tip = balance.points.first().map(|tip| tip.diameter);
    let level = tip.map(|size| plan.layout.staircase.nearest(size));
    if wish == Wish::Gentler && level == Some(0) {
        NoReshape::FewestThreads
    } else {
        NoReshape::NothingGained(wish)
    }
}

fn energy_left(plan: &Plan, cast: &Cast, air: &Surroundings) -> Option<f64> {
    Some(turn_over(&plan.fly_line()?, cast, air).energy_left())
}

struct Search<'a> {
    design: &'a Design,
    class: Class,
    cast: (&'a Cast, &'a Surroundings),
    /// The line as it is.
    before: Standing,
    energy_left: f64,
    balance: Balance<'a>,
    staircase: Staircase,
    ladders: LadderCache,
    /// Drawings tried.
    seen: Vec<Vec<DraftPoint>>,
}

/// Something to try: a reach, and how level stretches get whole threads.
struct Attempt {
    reach: f64,
    held: Vec<Option<f64>>,
    /// What the head is to weigh.
    head: Mass,
    /// How much more energy reaches the leader in the direction wanted, as the drawing promises.
    promise: f64,
}

impl Search<'_> {
    fn best(&mut self) -> Option<Reshaped> {
        let drawn = self.balance.head(&[])?;
        let mut attempts = self.attempts(drawn);
        attempts.sort_by(|a, b| b.promise.total_cmp(&a.promise));
        let mut best: Option<(f64, Reshaped)> = None;
        for attempt in attempts.iter().take(PLANNED) {
            let gained = best.as_ref().map_or(0.0, |(gain, _)| *gain);
            if attempt.promise <= gained {
                break;
            }
            if let Some(found) = self.braided(attempt, drawn) {
                let gain = self.balance.sign * (found.energy_left.1 - found.energy_left.0);
                if gain > gained {
                    best = Some((gain, found));
                }
            }
        }
        best.map(|(_, found)| found)
    }

    /// All that may be tried; from what the head of the drawing weighs.
    fn attempts(&self, drawn: Mass) -> Vec<Attempt> {
        let Some(farthest) = self.balance.farthest() else {
            return Vec::new();
        };
        let reaches = REACHES.map(|share| farthest * share);
        let free = vec![None; self.balance.handles.len()];
        let moves = reaches.map(|reach| self.balance.moves(reach, drawn, &free));
        let ways = ways(&self.balance, &moves, &self.staircase);
        let pairs = ways
            .iter()
            .flat_map(|held| reaches.map(|reach| (reach, held)));
        pairs
            .flat_map(|(reach, held)| self.attempts_in(reach, held, drawn))
            .collect()
    }

    /// With the head as heavy as it is, and with it as much lighter or heavier as it may be.
    fn attempts_in(&self, reach: f64, held: &[Option<f64>], drawn: Mass) -> Vec<Attempt> {
        let lighter = self.balance.gains_by_lighter(reach, drawn, held);
        let heads = [0.0, lighter].map(|lighter| self.before.head * (1.0 - lighter * HEAD_SLACK));
        let attempts = heads.into_iter().filter_map(|head| {
            let wanted = drawn + (head - self.before.head);
            let moves = self.balance.moves(reach, wanted, held);
            let off = self.balance.head(&moves)? / wanted - 1.0;
            (off.abs() < HEAD_SLACK).then(|| Attempt {
                reach,
                held: held.to_vec(),
                head,
                promise: self.balance.promise(&moves),
            })
        });
        attempts.collect()
    }

    /// The last that may be offered of what comes out of an attempt; from what the head of the drawing weighs as it is.
    fn braided(&mut self, attempt: &Attempt, drawn: Mass) -> Option<Reshaped> {
        let mut found = None;
        let mut head = drawn + (attempt.head - self.before.head);
        for _ in 0..ROUNDS {
            let moves = self.balance.moves(attempt.reach, head, &attempt.held);
            let Some((design, plan)) = self.planned(&moves) else {
                break;
            };
            let after = Standing::of(&design, &plan, &self.class);
            head += attempt.head - after.head;
            found = self.judged(design, &plan, &after).or(found);
        }
        found
    }

    /// The design with these moves made. `None` where it is none, or was tried.
    fn planned(&mut self, moves: &[f64]) -> Option<(Design, Plan)> {
        let points = drawn_by_hand(&self.balance, moves)?;
        if self.seen.contains(&points) {
            return None;
        }
        self.seen.push(points.clone());
        let draft = Draft {
            points,
            ..self.design.draft().clone()
        };
        let design = Design::parse(draft).ok()?;
        let plan = Plan::with(&design, &mut self.ladders);
        Some((design, plan))
    }

    /// What is offered, where it may be.
    fn judged(&self, design: Design, plan: &Plan, after: &Standing) -> Option<Reshaped> {
        if !self.before.allows(after) {
            return None;
        }
        let (cast, air) = self.cast;
        let energy_left = energy_left(plan, cast, air)?;
        let gain = self.balance.sign * (energy_left / self.energy_left - 1.0);
        (gain >= LEAST_GAIN).then_some(Reshaped {
            design,
            energy_left: (self.energy_left, energy_left),
            verdict: plan.verdict,
            chance: (self.before.chance, after.chance),
        })
    }
}
