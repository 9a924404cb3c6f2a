//! How sure the class of a line is.

use crate::base::units::Mass;
use crate::braid::weight::{Class, Verdict};
use crate::plan::Plan;
use crate::plan::prediction::{Prediction, chance_percent};

/// How well the weight of a head is known, and what that makes of its class.
///
/// The chance is that of a line planned for the middle of its class: what lies within the band of a normal distribution around the
/// class's target, with this spread. So it speaks of what is known alone. That a line is planned off the middle is no fault of the
/// book; planning it again corrects that, and no measurement does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sureness {
    /// The class.
    pub class: Class,
    /// One standard deviation of the head of such a line.
    pub spread: Mass,
    /// The chance that it is of the class.
    pub chance: f64,
}

impl Sureness {
    /// That of a head known to this share of its mass, one standard deviation. What is not known of a braid and its dressing acts in
    /// proportion to what it weighs; so the share holds for a line planned for the middle of the class.
    pub fn of(class: Class, share: f64) -> Self {
        let target = Mass::from_grains(class.target);
        let spread = target * share;
        Self {
            class,
            spread,
            chance: Prediction::new(target, spread).chance_of(&class),
        }
    }

    /// In words: `Planned for the middle of class 5, a line has a chance of 34 % now.`
    pub fn words(&self) -> String {
        format!(
            "Planned for the middle of class {}, a line has a chance of {} now.",
            self.class.number,
            chance_percent(self.chance)
        )
    }

    /// What becomes of it: `chance of class 5 from 34 % to 71 %`.
    pub fn change_words(&self, after: &Self) -> String {
        format!(
            "chance of class {} from {} to {}",
            self.class.number,
            chance_percent(self.chance),
            chance_percent(after.chance)
        )
    }
}

/// The class a line is meant for: its own, and where it has none the one whose target is nearest to its head. `None` where it has
/// no head.
pub(super) fn meant_for(plan: &Plan) -> Option<Class> {
    let head = plan.head_mass?;
    if let Verdict::Within(class) = plan.verdict {
        return Some(class);
    }
    Some(Class::nearest(head))
}
