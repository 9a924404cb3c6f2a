//! What of a planned line must not get worse when it is reshaped.

use core::mem::{Discriminant, discriminant};

use crate::base::units::Mass;
use crate::braid::weight::{Class, Verdict};
use crate::design::Design;
use crate::edit::finder::{Unmet, conditions};
use crate::plan::{Notice, Plan};

/// The chance of the class may become less by this. Our own choice: nobody braids enough lines to notice.
pub const MOST_CHANCE_LOST: f64 = 0.02;

/// How good a planned line of a class is, but for how it turns over.
#[derive(Clone, Debug)]
pub(super) struct Standing {
    /// Whether it is of the class.
    is_within: bool,
    /// What its head weighs.
    pub(super) head: Mass,
    /// The chance that the finished line is of the class.
    pub(super) chance: f64,
    notices: Vec<Discriminant<Notice>>,
    unmet: Vec<Discriminant<Unmet>>,
}

impl Standing {
    pub(super) fn of(design: &Design, plan: &Plan, class: &Class) -> Self {
        let chance = plan.prediction.as_ref().map(|it| it.chance_of(class));
        let unmet = conditions::unmet(design, plan);
        Self {
            is_within: plan.verdict == Verdict::Within(*class),
            head: plan.head_mass.unwrap_or_default(),
            chance: chance.unwrap_or(0.0),
            notices: plan.notices.iter().map(discriminant).collect(),
            unmet: unmet.iter().map(discriminant).collect(),
        }
    }

    /// Whether another is as good: of the class, about as likely, and without a notice or an unmet condition of a kind that this one
    /// has not, or has less often.
    pub(super) fn allows(&self, other: &Self) -> bool {
        other.is_within
            && other.chance >= self.chance - MOST_CHANCE_LOST
            && is_among(&other.notices, &self.notices)
            && is_among(&other.unmet, &self.unmet)
    }
}

/// Whether there is nothing that was not there before, nor more of it.
fn is_among<T: PartialEq>(now: &[T], before: &[T]) -> bool {
    let count = |list: &[T], one: &T| list.iter().filter(|other| *other == one).count();
    now.iter().all(|one| count(now, one) <= count(before, one))
}
