//! A step in a row of numbers: the last of them depart from the earlier ones by more than chance.
//!
//! Every place where the row may have stepped is tried by the two-sample t of its halves, with the spread pooled from both. The
//! largest counts, and has to be beyond the limit at which chance alone leads too rarely: the level of a row is shared out to its
//! places (Bonferroni), so that no assumption on how they hang together is needed. Source: Worsley 1979, "On the likelihood ratio
//! test for a shift in location of normal populations"; for a row that grows, Hawkins, Qiu, Kang 2003, "The changepoint model for
//! statistical process control" (both from memory). Their limits are simulated and a little closer.
//!
//! A row is looked at again with each number it grows by. So its level gets less with its length `n`: [`LEVEL`]` / n(n − 1)`,
//! which from 4 numbers on to `N` is in sum `LEVEL (1/3 − 1/N)`. Analytic: the sum telescopes. Over a row of ten numbers without a
//! step that is 4.7 % at most, over any row 6.7 %; `tests/laws/sample.rs` counts how often it really happens.

use super::{Sample, student};

/// What is shared out to all lengths of a row. Our own choice: less than 5 % of rows of ten are taken for a step they do not have.
pub const LEVEL: f64 = 0.2;
/// Fewest numbers on either side. One alone is no step: it may be a slip.
const LEAST: usize = 2;

/// A step beyond chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// How many numbers there are after it.
    pub after: usize,
    /// The mean of those before it, in their own unit.
    pub from: f64,
    /// The mean of those after it.
    pub to: f64,
    /// The t of the two samples, without its sign.
    pub t: f64,
}

impl Step {
    /// The likeliest step of a row, where one is beyond chance. The spread is never taken for less than `least`, the error of the
    /// instrument: where it shows the same digits by luck, nothing is as sure as that looks. That makes false alarms rarer only.
    pub fn of(row: &[f64], least: f64) -> Option<Self> {
        let places = row.len().checked_sub(2 * LEAST)? + 1;
        let steps = (LEAST..LEAST + places).filter_map(|before| at(row, before, least));
        let step = steps.max_by(|one, other| one.t.total_cmp(&other.t))?;
        let (count, places) = (row.len() as f64, places as f64);
        let level = LEVEL / (count * (count - 1.0)) / places;
        let degrees = u32::try_from(row.len() - 2).ok()?;
        (step.t > student(degrees, 1.0 - level)).then_some(step)
    }
}

/// The step after so many numbers; `None` where they are all alike and `least` is 0.
fn at(row: &[f64], before: usize, least: f64) -> Option<Step> {
    let (first, last) = row.split_at(before);
    let (one, other) = (Sample::of(first)?, Sample::of(last)?);
    let squares = |sample: &Sample| {
        let deviation = sample.deviation.unwrap_or_default();
        f64::from(sample.count - 1) * deviation * deviation
    };
    let variance = (squares(&one) + squares(&other)) / (row.len() - 2) as f64;
    let variance = variance.max(least * least);
    let each = f64::from(one.count).recip() + f64::from(other.count).recip();
    let t = (other.mean - one.mean).abs() / (variance * each).sqrt();
    (!t.is_nan()).then_some(Step {
        after: last.len(),
        from: one.mean,
        to: other.mean,
        t,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_step_is_found_where_it_is() {
        let row = [1.00, 1.01, 0.99, 1.00, 1.01, 1.10, 1.11];
        let step = Step::of(&row, 0.0).expect("it is plain");
        assert_eq!(step.after, 2);
        assert!((step.from - 1.002).abs() < 1e-12 && (step.to - 1.105).abs() < 1e-12);
    }

    #[test]
    fn few_numbers_one_alone_and_equal_ones_are_no_step() {
        assert_eq!(Step::of(&[], 0.0), None);
        assert_eq!(Step::of(&[1.0, 1.0, 2.0], 0.0), None);
        assert_eq!(Step::of(&[1.0, 1.01, 0.99, 1.0, 1.0, 1.3], 0.0), None);
        assert_eq!(Step::of(&[1.0; 6], 0.0), None);
    }

    /// Without any spread at all, a step is plain all the same.
    #[test]
    fn a_step_between_equal_numbers_is_one() {
        let row = [1.0, 1.0, 1.0, 2.0, 2.0];
        let step = Step::of(&row, 0.0);
        assert_eq!(step.map(|step| step.after), Some(2));
        assert_eq!(Step::of(&row, 1.0), None, "the instrument errs by as much");
    }
}
