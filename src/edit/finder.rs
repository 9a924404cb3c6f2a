//! Finding a thread plan: which threads to ply, and how many to begin and to end with, for a line as drawn.
//!
//! Every plan that could fit is weighed roughly, as if gears came in any size; the most promising are then planned in full
//! and judged by what the plan says. The search goes in small steps, so that a page can draw between them.

use crate::base::units::{Length, Mass};
use crate::braid::threads::{Build, Change, Supply};
use crate::braid::weight::{CLASSES, Class};
use crate::design::Design;
use crate::edit::Edit;
use crate::plan::layout::Ground;
use crate::plan::{Notice, Plan};

/// How many plans are listed.
pub const LISTED: usize = 6;
/// How many are planned in full.
const PLANNED: usize = 28;

/// What one unit of each fault weighs in [`Found::demerit`]. Our own choice, said beside the list.
const PER_GRAIN: f64 = 1.0;
const PER_PERCENT_OF_DIAMETER: f64 = 3.0;
const PER_CHANGE: f64 = 0.3;
const PER_GEAR_CHANGE: f64 = 0.3;
const PER_FURTHER_KIND: f64 = 4.0;
/// A line that cannot be braided, or not to its drawing, comes behind all that can.
const FOR_TROUBLE: f64 = 1e3;
const PER_WARNING: f64 = 5.0;

/// Counts of threads that are tried, about.
const COUNTS: u32 = 16;
/// Most ends of a thread that are tried.
const MOST_ENDS: u32 = 500;
/// Fewest threads that are tried: with three there is often no set that holds.
const FEWEST: u32 = 4;

/// A thread plan with what it does to the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// The threads.
    pub supply: Supply,
    /// Mass of the head; `None` when the line is too short to have one.
    pub head: Option<Mass>,
    /// The class the drawing makes.
    pub class: Option<u8>,
    /// How far the head is from its target.
    pub class_error: Option<Mass>,
    /// Root of the mean square error of the diameter along the line, as a share.
    pub diameter_error: f64,
    /// How often a thread is added, dropped or swapped.
    pub thread_changes: usize,
    /// How often wheels are changed.
    pub gear_changes: usize,
    /// Kinds of thread to ply.
    pub kinds: usize,
    /// Whether the line can be braided as drawn: sound at every level, within reach of the threads.
    pub is_sound: bool,
    /// Angle outside the tolerance at rest, bobbins too small, and pins that would not be kept, one each.
    pub warnings: usize,
    /// All faults together; less is better.
    pub demerit: f64,
}

/// A search under way: candidates are rated roughly, then the most promising are planned in full.
#[derive(Clone, Debug)]
pub struct Finder {
    design: Design,
    /// What the rating needs to know of the line.
    rough: Rough,
    /// What is still to be rated.
    unrated: Vec<Supply>,
    /// What was rated, worst first once all are; the rating is a guess of the demerit.
    rated: Vec<(f64, Supply)>,
    found: Vec<Found>,
}

/// Candidates rated in the time one is planned.
const RATED_PER_PLAN: usize = 16;

impl Finder {
    /// Begins a search for this line. The design's own threads are among what is found.
    pub fn new(design: &Design) -> Self {
        let own = design.supply();
        let rough = Rough::of(design);
        let mut unrated = candidates(design, &rough.ground);
        unrated.retain(|supply| !is_alike(*supply, own));
        Self {
            design: design.clone(),
            rough,
            unrated,
            rated: Vec::new(),
            found: judge(design, own).into_iter().collect(),
        }
    }

    /// Works as long as so many plans take; whether anything is left to do.
    pub fn step(&mut self, count: usize) -> bool {
        if self.unrated.is_empty() {
            self.plan(count);
        } else {
            self.rate(count * RATED_PER_PLAN);
        }
        !(self.unrated.is_empty() && self.rated.is_empty())
    }

    fn rate(&mut self, count: usize) {
        let from = self.unrated.len().saturating_sub(count);
        for supply in self.unrated.drain(from..) {
            self.rated.push((self.rough.demerit(&supply), supply));
        }
        if self.unrated.is_empty() {
            self.rated.sort_by(|a, b| a.0.total_cmp(&b.0));
            // Alike plans have the same rough judgement, and so stand together.
            self.rated.dedup_by(|a, b| a.1 == b.1);
            self.rated.truncate(PLANNED);
            self.rated.reverse();
        }
    }

    fn plan(&mut self, count: usize) {
        for _ in 0..count {
            let Some((_, supply)) = self.rated.pop() else {
                break;
            };
            self.found.extend(judge(&self.design, supply));
        }
        self.found.sort_by(|a, b| a.demerit.total_cmp(&b.demerit));
        // Plans that differ only in carriers the line never uses are one plan.
        self.found
            .dedup_by(|a, b| a.demerit == b.demerit && a.head == b.head);
    }

    /// The whole search at once.
    pub fn finish(mut self) -> Vec<Found> {
        while self.step(PLANNED) {}
        self.best().to_vec()
    }

    /// The best found so far, best first.
    pub fn best(&self) -> &[Found] {
        &self.found[..self.found.len().min(LISTED)]
    }

    /// The design the search is for.
    pub fn design(&self) -> &Design {
        &self.design
    }
}

/// A thread plan judged by the plan of the line it makes; `None` where it makes no valid design.
pub fn judge(design: &Design, supply: Supply) -> Option<Found> {
    let changed = Edit::Supply(supply).apply(design).ok()?;
    let plan = Plan::of(&changed);
    let target = class_drawn(plan.head_drawn);
    let class_error = plan
        .head_mass
        .zip(target)
        .map(|(head, class)| head - Mass::from_grains(class.target));
    let is_trouble = |notice: &Notice| {
        matches!(
            notice,
            Notice::Unsound { .. }
                | Notice::TooThick { .. }
                | Notice::TooThin { .. }
                | Notice::Jammed { .. }
        )
    };
    let is_sound = !plan.notices.iter().any(is_trouble);
    let mut found = Found {
        supply,
        head: plan.head_mass,
        class: target.map(|class| class.number),
        class_error,
        diameter_error: plan.diameter_error,
        thread_changes: plan.thread_changes(),
        gear_changes: plan.gear_changes(),
        kinds: plan.plying.len(),
        is_sound,
        warnings: plan
            .notices
            .iter()
            .filter(|notice| is_warning(notice))
            .count(),
        demerit: 0.0,
    };
    found.demerit = found.sum_of_faults();
    Some(found)
}

impl Found {
    fn sum_of_faults(&self) -> f64 {
        let grains = self.class_error.map_or(0.0, |error| error.grains().abs());
        let trouble = if self.is_sound { 0.0 } else { FOR_TROUBLE };
        trouble
            + grains * PER_GRAIN
            + self.diameter_error * 100.0 * PER_PERCENT_OF_DIAMETER
            + self.thread_changes as f64 * PER_CHANGE
            + self.gear_changes as f64 * PER_GEAR_CHANGE
            + self.kinds.saturating_sub(1) as f64 * PER_FURTHER_KIND
            + self.warnings as f64 * PER_WARNING
    }
}

/// What can be braided, but not as the maker wants it.
fn is_warning(notice: &Notice) -> bool {
    matches!(
        notice,
        Notice::AngleOff { passing: false, .. }
            | Notice::BobbinTooSmall { .. }
            | Notice::PinDropped(_)
    )
}

/// The class whose target is nearest to what the drawing weighs.
fn class_drawn(drawn: Option<Mass>) -> Option<Class> {
    let off =
        |class: &Class, drawn: Mass| (Mass::from_grains(class.target) - drawn).abs().kilograms();
    let drawn = drawn?;
    CLASSES
        .into_iter()
        .min_by(|a, b| off(a, drawn).total_cmp(&off(b, drawn)))
}

/// Thread plans whose thinnest and thickest levels come near what the drawing calls for.
fn candidates(design: &Design, ground: &Ground) -> Vec<Supply> {
    let carriers = design.track().carriers();
    let ends = |diameter| ground.staircase.wanted(diameter) * f64::from(ground.supply.light);
    let wanted = (ends(ground.taper.thinnest()), ends(ground.taper.thickest()));
    let mut found = Vec::new();
    // On large machines not every count is tried: the steps between them are small enough.
    let counts = (FEWEST..=carriers)
        .rev()
        .step_by(carriers.div_ceil(COUNTS) as usize);
    for most in counts {
        for full in near(wanted.1 / f64::from(most)) {
            let threads =
                |ends: f64| whole((ends / f64::from(full)).round()).clamp(FEWEST, carriers);
            let used = (threads(wanted.0), threads(wanted.1));
            found.push(supply(Build::MoreThreads, used, (full, full + 1)));
            for light in near(wanted.0 / f64::from(most)).filter(|&light| light < full) {
                found.push(supply(Build::HeavierThreads, (most, most), (light, full)));
            }
            for fewest in (FEWEST..most).step_by(most.div_ceil(COUNTS) as usize) {
                let light = whole((wanted.0 / f64::from(fewest)).round().max(1.0));
                if light < full {
                    found.push(supply(Build::Both, (fewest, most), (light, full)));
                }
            }
        }
    }
    found
}

/// Whether two are the same but for what neither uses.
fn is_alike(a: Supply, b: Supply) -> bool {
    let heavy = |supply: Supply| (supply.build != Build::MoreThreads).then_some(supply.heavy);
    (a.build, a.fewest, a.most, a.light) == (b.build, b.fewest, b.most, b.light)
        && heavy(a) == heavy(b)
}

fn supply(build: Build, (fewest, most): (u32, u32), (light, heavy): (u32, u32)) -> Supply {
    Supply {
        build,
        fewest,
        most,
        light,
        heavy: heavy.min(MOST_ENDS),
    }
}

/// The whole numbers of ends around a wish.
fn near(wish: f64) -> impl Iterator<Item = u32> {
    let middle = whole(wish.round());
    (middle.saturating_sub(1)..=middle + 1).filter(|&ends| (1..MOST_ENDS).contains(&ends))
}

/// Bounded long before it could lose anything.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(value: f64) -> u32 {
    value.clamp(0.0, f64::from(2 * MOST_ENDS)) as u32
}

/// A quick judgement: every level at the target angle, changes where the drawing passes them, nothing late or buried.
#[derive(Clone, Debug)]
struct Rough {
    ground: Ground,
    head: Option<(Length, Length)>,
    target: Option<f64>,
}

impl Rough {
    fn of(design: &Design) -> Self {
        let plan = Plan::of(design);
        let head = plan.head_mass.map(|_| (plan.head.from, plan.head.to));
        Self {
            ground: Ground::of(design),
            head,
            target: class_drawn(plan.head_drawn).map(|class| class.target),
        }
    }

    fn demerit(&self, supply: &Supply) -> f64 {
        let ground = &self.ground;
        let levels = supply.levels();
        // Loads count in the design's standard thread here, whatever thread the plan plies.
        let size = f64::from(supply.light) / f64::from(ground.supply.light);
        let mut staircase = ground.staircase.clone();
        staircase.yarn = levels
            .iter()
            .map(|&level| supply.load(level).yarn * size)
            .collect();
        let (first, changes) = staircase.changes(ground.taper.points());
        let mut sums = (0.0, Mass::ZERO);
        let (mut from, mut level) = (Length::ZERO, first);
        let ends = changes.iter().map(|change| (change.at, change.after()));
        for (to, next) in ends.chain([(ground.taper.length(), 0)]) {
            self.add(&mut sums, (from, to), staircase.yarn[level]);
            (from, level) = (to, next);
        }
        self.judged(sums, &changes, supply)
    }

    /// Adds a run's squared error of diameter, and its part of the head.
    fn add(&self, sums: &mut (f64, Mass), (from, to): (Length, Length), yarn: f64) {
        let ground = &self.ground;
        let made = ground.staircase.diameter(yarn);
        let squared = |at: Length| (made / ground.taper.diameter_at(at) - 1.0).powi(2);
        // Only what the level lies on: a line of many points has many levels too.
        let points = ground.taper.points();
        let first = points.partition_point(|point| point.at <= from);
        let pairs = points[first.saturating_sub(1)..].windows(2);
        for pair in pairs.take_while(|pair| pair[0].at < to) {
            // The drawing is straight between control points, where Simpson's rule serves.
            let (from, to) = (pair[0].at.max(from), pair[1].at.min(to));
            if from < to {
                let sum = squared(from) + 4.0 * squared((from + to) / 2.0) + squared(to);
                sums.0 += sum / 6.0 * (to - from).metres();
            }
        }
        if let Some((begin, end)) = self.head {
            let length = to.min(end) - from.max(begin);
            if length > Length::ZERO {
                sums.1 += length * self.dressed(yarn);
            }
        }
    }

    fn dressed(&self, yarn: f64) -> crate::base::units::LinearDensity {
        let making = &self.ground.making;
        let load = crate::braid::geometry::Load {
            yarn,
            ..crate::braid::geometry::Load::from(1)
        };
        let braid = making.braiding.at_angle(load, making.target);
        making
            .dressing
            .dress(&braid, making.braiding.fibre_fraction)
            .linear_density
    }

    fn judged(&self, (error, head): (f64, Mass), changes: &[Change], supply: &Supply) -> f64 {
        let grains = self
            .target
            .map_or(0.0, |target| (head.grains() - target).abs());
        let percent = 100.0 * (error / self.ground.taper.length().metres()).sqrt();
        let kinds = if supply.build == Build::MoreThreads {
            0.0
        } else {
            1.0
        };
        grains * PER_GRAIN
            + percent * PER_PERCENT_OF_DIAMETER
            + changes.len() as f64 * (PER_CHANGE + PER_GEAR_CHANGE)
            + kinds * PER_FURTHER_KIND
    }
}
