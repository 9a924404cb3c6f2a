//! Thread left on the bobbins when a line is done.

use super::outcome;
use crate::base::units::Length;
use crate::braid::track::Carrier;
use crate::design::Design;
use crate::plan::AdjustedPlan;
use crate::plan::bobbins::Bobbin;
use crate::plan::wound::Wound;

/// Less than this is waste and no thread left. Our own choice: the step in which thread is measured.
pub const LEAST_LEFT: Length = Length::from_metres(0.1);

/// The thread of one bobbin: what was wound is what the line used and what is left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeftThread {
    /// The carrier it sits on.
    pub carrier: Carrier,
    /// Ends plied to its thread.
    pub ends: u32,
    /// What was wound on, by the tick or by weight.
    pub wound: Length,
    /// What the line took of it: braided, tails and lead-in. Never more than was wound.
    pub used: Length,
    /// What is left.
    pub left: Length,
}

/// The thread left of what was wound, when a line is done that took these bobbins. Bobbins that were not ticked are left out.
pub fn left_on(bobbins: &[Bobbin], wound: &Wound) -> Vec<LeftThread> {
    let left = |bobbin: &Bobbin| {
        let on = wound.thread_on(bobbin)?;
        let used = bobbin.takes().max(Length::ZERO).min(on);
        Some(LeftThread {
            carrier: bobbin.carrier,
            ends: bobbin.ends,
            wound: on,
            used,
            left: on - used,
        })
    };
    bobbins.iter().filter_map(left).collect()
}

impl AdjustedPlan {
    /// The bobbins as the line really took them: what was done late or caught up for changes what a bobbin gave. This is the adjusted
    /// plan of a line of `design`.
    pub fn bobbins(&self, design: &Design) -> Vec<Bobbin> {
        outcome::winding(design, &self.line).bobbins(&self.events)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Plan;

    #[test]
    fn a_bobbin_wound_as_planned_leaves_its_allowance() {
        let design = demo();
        let plan = Plan::of(&design);
        let mut wound = Wound::default();
        wound.toggle(&plan.bobbins[0], &plan.bobbins);
        let left = left_on(&plan.unadjusted().bobbins(&design), &wound);
        assert_eq!(left.len(), 1, "only what was ticked");
        let engagements = f64::from(plan.bobbins[0].engagements);
        let allowance = design.thread_allowance() * engagements;
        // A tick is to a tenth of a metre.
        assert!((left[0].left - allowance).abs() <= Length::from_metres(0.05 + 1e-9));
    }

    #[test]
    fn a_bobbin_that_had_too_little_has_nothing_left() {
        let plan = Plan::of(&demo());
        let mut wound = Wound::default();
        wound.weigh(&plan.bobbins[0], &plan.bobbins, Some(10));
        let left = left_on(&plan.bobbins, &wound);
        assert_eq!(left[0].left, Length::ZERO);
        assert_eq!(left[0].used, left[0].wound);
    }
}
