//! A thread plan, judged by the plan of the line it makes.

use core::cmp::Ordering;

use super::conditions::{self, Unmet};
use crate::base::units::Mass;
use crate::braid::ladder::LadderCache;
use crate::braid::threads::Supply;
use crate::braid::weight::Class;
use crate::design::Design;
use crate::edit::Edit;
use crate::plan::{Notice, Plan};

/// What one unit of each fault counts in [`ThreadPlan::demerit`]. Our own choice, shown beside the list.
pub(super) const PER_GRAIN: f64 = 1.0;
pub(super) const PER_PERCENT_OF_DIAMETER: f64 = 3.0;
pub(super) const PER_CHANGE: f64 = 0.3;
pub(super) const PER_GEAR_CHANGE: f64 = 0.3;
pub(super) const PER_FURTHER_KIND: f64 = 4.0;
const PER_WARNING: f64 = 5.0;

/// A thread plan with what it does to the line.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadPlan {
    /// The threads.
    pub supply: Supply,
    /// Fewest and most threads that the line then has.
    pub threads: (u32, u32),
    /// Mass of the head; `None` when the line is too short to have one.
    pub head: Option<Mass>,
    /// The class the drawing makes.
    pub class: Option<u8>,
    /// How far the head is from its target.
    pub class_error: Option<Mass>,
    /// The chance that the finished line is of that class, 0 to 1, as far as machine, yarn and dressing are known; `None` without a
    /// class.
    pub chance: Option<f64>,
    /// Root of the mean square error of the diameter along the line, as a share.
    pub diameter_error: f64,
    /// How often a thread is added, dropped or swapped.
    pub thread_changes: usize,
    /// How often wheels are changed.
    pub gear_changes: usize,
    /// Kinds of thread to ply.
    pub kinds: usize,
    /// The conditions that it does not meet. None of a plan that is recommended.
    pub unmet: Vec<Unmet>,
    /// Bobbins too small, and pins that would not be kept, one each.
    pub warnings: usize,
    /// All faults together, weighted; less is better.
    pub demerit: f64,
}

/// A thread plan judged by the plan of the line it makes; `None` where it makes no valid design.
pub fn judge(design: &Design, supply: Supply, ladders: &mut LadderCache) -> Option<ThreadPlan> {
    let changed = Edit::Supply(supply).apply(design).ok()?;
    let plan = Plan::with(&changed, ladders);
    let target = plan.head_drawn.map(Class::nearest);
    let class_error = plan
        .head_mass
        .zip(target)
        .map(|(head, class)| head - Mass::from_grains(class.target));
    let mut judged = ThreadPlan {
        supply,
        threads: (plan.threads_min(), plan.threads_max()),
        head: plan.head_mass,
        class: target.map(|class| class.number),
        class_error,
        chance: chance(&plan, target),
        diameter_error: plan.diameter_error,
        thread_changes: plan.thread_changes(),
        gear_changes: plan.gear_changes(),
        kinds: plan.plying.len(),
        unmet: conditions::unmet(&changed, &plan),
        warnings: plan
            .notices
            .iter()
            .filter(|notice| is_warning(notice))
            .count(),
        demerit: 0.0,
    };
    judged.demerit = judged.sum_of_faults();
    Some(judged)
}

/// The chance of a class.
fn chance(plan: &Plan, class: Option<Class>) -> Option<f64> {
    Some(plan.prediction.as_ref()?.chance_of(&class?))
}

impl ThreadPlan {
    /// Which of two is to be listed first: by the chance of the class, to the whole percent that is shown, then by the faults.
    pub fn cmp_rank(&self, other: &Self) -> Ordering {
        let percent = |plan: &Self| plan.chance.map(|chance| (100.0 * chance).round());
        let by_chance = percent(other)
            .unwrap_or_default()
            .total_cmp(&percent(self).unwrap_or_default());
        by_chance.then(self.demerit.total_cmp(&other.demerit))
    }

    /// How often the braider stops for a change: of threads, and of gears.
    pub fn changes(&self) -> usize {
        self.thread_changes + self.gear_changes
    }

    /// Whether it meets all conditions.
    pub fn is_recommended(&self) -> bool {
        self.unmet.is_empty()
    }

    /// Whether the line can be braided as drawn, if not as well as the maker wants.
    pub fn is_sound(&self) -> bool {
        let is_trouble =
            |one: &Unmet| matches!(one, Unmet::FallsApart | Unmet::OutOfReach | Unmet::Jams);
        !self.unmet.iter().any(is_trouble)
    }

    fn sum_of_faults(&self) -> f64 {
        let grains = self.class_error.map_or(0.0, |error| error.grains().abs());
        grains * PER_GRAIN
            + self.diameter_error * 100.0 * PER_PERCENT_OF_DIAMETER
            + self.thread_changes as f64 * PER_CHANGE
            + self.gear_changes as f64 * PER_GEAR_CHANGE
            + self.kinds.saturating_sub(1) as f64 * PER_FURTHER_KIND
            + self.warnings as f64 * PER_WARNING
    }
}

/// Whether the line can be braided, but not as the maker wants it.
fn is_warning(notice: &Notice) -> bool {
    matches!(
        notice,
        Notice::BobbinTooSmall { .. } | Notice::PinDropped(_)
    )
}
