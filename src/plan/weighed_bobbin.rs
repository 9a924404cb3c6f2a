//! A bobbin weighed when it is wound: how much thread is on it, compared with the plan.

use super::contents::Plan;
use super::outcome;
use crate::base::units::{Length, Mass};
use crate::design::Design;
use crate::plan::bobbins::Bobbin;

/// Within this share of the plan a weight is as planned. Our own choice: yarn takes up more or less moisture by some percent, and
/// bobbins are weighed to a hundredth of a gram.
const AS_PLANNED: f64 = 0.02;
/// What a weight of thread may be off by, as a share. Our own choice: half a percent, as the bench book has it.
const WEIGHING: f64 = 0.005;

/// The thread on a bobbin, by its weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeighedBobbin {
    /// Length of it.
    pub by_weight: Length,
    /// By what share that is more than planned; negative where it is less.
    pub over: f64,
    /// What that means.
    pub verdict: WeighedVerdict,
}

/// What the weight of a bobbin means for the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WeighedVerdict {
    /// As much as planned.
    AsPlanned,
    /// More than planned.
    More,
    /// So much less that it is to be wound on.
    TooShort(Length),
}

impl WeighedBobbin {
    /// A bobbin the thread on which weighs so much. `None` where the plan has no thread to compare with.
    ///
    /// It is enough within 2 % of the plan, as long as it also holds what the line takes without the allowance.
    pub fn of(bobbin: &Bobbin, mass: Mass) -> Option<Self> {
        let by_weight = bobbin.length_of(mass)?;
        let over = by_weight / bobbin.length - 1.0;
        let takes = bobbin.takes() * (1.0 - WEIGHING);
        let verdict = if over < -AS_PLANNED || by_weight < takes {
            WeighedVerdict::TooShort(bobbin.length - by_weight)
        } else if over > AS_PLANNED {
            WeighedVerdict::More
        } else {
            WeighedVerdict::AsPlanned
        };
        Some(Self {
            by_weight,
            over,
            verdict,
        })
    }
}

impl Plan {
    /// Where along the line a bobbin with so much thread on it is empty; `None` where that is enough. `self` is the plan of `design`.
    pub fn runs_out_with(&self, design: &Design, bobbin: &Bobbin, has: Length) -> Option<Length> {
        outcome::winding(design, &self.line).runs_out(&self.events, bobbin, has)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::plan::Action;

    fn weighed(bobbin: &Bobbin, share: f64) -> WeighedVerdict {
        let weighed = WeighedBobbin::of(bobbin, bobbin.mass * share).expect("it is planned");
        assert!((weighed.over - (share - 1.0)).abs() < 1e-9);
        weighed.verdict
    }

    #[test]
    fn within_two_percent_it_is_as_planned() {
        let mut bobbin = Plan::of(&demo()).bobbins[0];
        bobbin.allowance = bobbin.length * 0.03;
        for share in [0.981, 1.0, 1.019] {
            assert_eq!(
                weighed(&bobbin, share),
                WeighedVerdict::AsPlanned,
                "{share}"
            );
        }
        assert_eq!(weighed(&bobbin, 1.021), WeighedVerdict::More);
        let WeighedVerdict::TooShort(short) = weighed(&bobbin, 0.979) else {
            panic!("it is too short");
        };
        assert!((short / bobbin.length - 0.021).abs() < 1e-9);
    }

    #[test]
    fn what_the_line_takes_is_needed_however_little_is_missing() {
        let mut bobbin = Plan::of(&demo()).bobbins[0];
        bobbin.allowance = Length::ZERO;
        assert_eq!(weighed(&bobbin, 0.996), WeighedVerdict::AsPlanned);
        assert!(matches!(
            weighed(&bobbin, 0.99),
            WeighedVerdict::TooShort(_)
        ));
    }

    /// Of a bobbin that runs from the tip to the end: the stretch after it is empty takes the thread that is missing. Analytic, from
    /// what the words mean; to some millimetres, as `place_after_thread` has it.
    #[test]
    fn a_short_bobbin_runs_out_before_the_end_and_one_as_planned_does_not() {
        let design = demo();
        let plan = Plan::of(&design);
        let Some(Action::End(set)) = plan.events.last().map(|event| &event.action) else {
            panic!("a plan ends with the end");
        };
        let runs_through = |bobbin: &&Bobbin| {
            let is_once = (bobbin.enters, bobbin.engagements) == (Length::ZERO, 1);
            is_once && set.contains(&(bobbin.carrier, bobbin.ends))
        };
        let bobbin = plan.bobbins.iter().find(runs_through).expect("one does");
        assert_eq!(plan.runs_out_with(&design, bobbin, bobbin.length), None);
        let missing = Length::from_metres(1.2);
        let empty = plan
            .runs_out_with(&design, bobbin, bobbin.length - missing)
            .expect("it is too short");
        let not_braided = plan.line.thread(empty, plan.length);
        let off = not_braided - missing;
        assert!(off.abs() < Length::from_millimetres(5.0), "{off:?}");
    }
}
