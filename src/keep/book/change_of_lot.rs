//! The last lines of a book depart from the earlier ones: probably another lot of yarn, or a machine that was changed.
//!
//! A book is one machine and one lot. Each finished weight is taken as a share of what the whole book makes one expect of that
//! line, not of its plan: plans change with what the book learns, and a plan that got better is no change of the lot. The shares
//! are tried for a step beyond chance ([`Step`]). A weight that stands out and waits for an answer counts here, since a change is
//! what makes weights stand out; one that is far from all that is expected is not learnt from, and does not.
//!
//! One line alone is never called a change: its weight is asked about ([`super::doubt`]).

use std::collections::BTreeMap;

use super::errors;
use super::estimate::{Estimate, Residual};
use super::model::Source;
use super::record::{LineField, LineStage};
use crate::base::sample::Step;

/// The last lines depart from the earlier ones beyond chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangeOfLot {
    /// How many lines at the end of the book do; two at least.
    pub lines: usize,
    /// By how much heavier they are than those before, as a share.
    pub share: f64,
}

impl ChangeOfLot {
    /// What the lines of a book show of it; `None` where they show no change beyond chance.
    pub fn of(estimate: &Estimate) -> Option<Self> {
        let step = Step::of(&shares(estimate), errors::MASS_SHARE)?;
        Some(Self {
            lines: step.after,
            share: step.to / step.from - 1.0,
        })
    }

    /// In words: `The last 2 lines weigh 9 % more than those before.`
    pub fn words(&self) -> String {
        let way = if self.share > 0.0 { "more" } else { "less" };
        format!(
            "The last {} lines weigh {:.0} % {way} than those before.",
            self.lines,
            100.0 * self.share.abs()
        )
    }
}

/// What each finished line weighs, as a share of what is expected of it, in the order of the book: the first 30 ft where those were
/// weighed, else the whole line.
fn shares(estimate: &Estimate) -> Vec<f64> {
    let mut shares = BTreeMap::new();
    for residual in &estimate.residuals {
        let share = |residual: &Residual| residual.measured / residual.expected;
        match residual.source {
            Source::Line(index, LineStage::Finished, LineField::HeadMass) => {
                shares.insert(index, share(residual));
            }
            Source::Line(index, LineStage::Finished, LineField::Mass) => {
                shares.entry(index).or_insert_with(|| share(residual));
            }
            _ => {}
        }
    }
    shares.into_values().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::demo::demo;
    use crate::keep::book::record::LineRecord;
    use crate::keep::book::{Frozen, Workshop};
    use crate::plan::Plan;

    /// A book of lines of the demo design that weigh these shares of their plan.
    fn change(shares: &[f64]) -> Option<ChangeOfLot> {
        let head = Plan::of(&demo()).head_mass.expect("it has a head").grams();
        let mut book = Workshop::new("home".to_owned(), &demo());
        for share in shares {
            let mut record = LineRecord::new("Heron".to_owned(), Frozen::of(&demo()));
            let finished = &mut record.finished;
            finished.set(LineField::HeadMass, Some(share * head));
            book.records.push(record);
        }
        ChangeOfLot::of(&Estimate::of(&book))
    }

    #[test]
    fn heavier_last_lines_are_a_change() {
        let change = change(&[1.01, 0.99, 1.0, 1.02, 0.99, 1.10, 1.09]);
        let change = change.expect("9 % is far beyond what lines differ by");
        assert_eq!(change.lines, 2);
        assert_eq!(
            change.words(),
            "The last 2 lines weigh 9 % more than those before."
        );
    }

    #[test]
    fn lines_that_differ_by_chance_one_line_and_no_line_are_none() {
        assert_eq!(change(&[1.01, 0.99, 1.0, 1.02, 0.99, 1.01, 1.0]), None);
        assert_eq!(change(&[1.01, 0.99, 1.0, 1.02, 0.99, 1.10]), None);
        assert_eq!(change(&[]), None);
    }
}
