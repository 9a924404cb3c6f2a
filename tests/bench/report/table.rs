//! The table: one row for each figure, with its goal, its median and what it spreads over.

use std::fmt;

/// Samples of one figure.
#[derive(Clone, Debug, Default)]
pub(crate) struct Samples(Vec<f64>);

impl Samples {
    /// Of these, in any order; what is no number is left out.
    pub(crate) fn new(samples: impl IntoIterator<Item = f64>) -> Self {
        let mut samples: Vec<f64> = samples.into_iter().filter(|one| one.is_finite()).collect();
        samples.sort_by(f64::total_cmp);
        Self(samples)
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    /// The smallest that at least this share of them does not exceed; nothing of none.
    pub(crate) fn quantile(&self, share: f64) -> f64 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a place in a list of samples"
        )]
        let place = (share * self.0.len() as f64).ceil() as usize;
        let place = place.clamp(1, self.0.len().max(1)) - 1;
        self.0.get(place).copied().unwrap_or(f64::NAN)
    }
}

/// What a figure is counted in, and how many of it are one in the table.
#[derive(Clone, Copy)]
pub(crate) enum Unit {
    Micro,
    Milli,
}

impl Unit {
    /// A figure in SI, as it is read.
    fn show(self, si: f64) -> String {
        let (times, unit) = match self {
            Self::Micro => (1e6, " µs"),
            Self::Milli => (1e3, " ms"),
        };
        let value = si * times;
        // Three figures that mean something; the noise of a shared machine has no more.
        let decimals = if value >= 100.0 {
            0
        } else if value >= 10.0 {
            1
        } else {
            2
        };
        format!("{value:.decimals$}{unit}")
    }
}

/// A row: what, its goal if it has one, its figures.
pub(crate) struct Row {
    what: String,
    goal: String,
    seen: String,
    spread: String,
}

impl Row {
    /// The median of some samples, from the least to the most.
    pub(crate) fn of(what: impl Into<String>, goal: &str, unit: Unit, samples: &Samples) -> Self {
        Self::at(what, goal, unit, samples, 0.5)
    }

    /// The same with another quantile in the middle's place.
    pub(crate) fn at(
        what: impl Into<String>,
        goal: &str,
        unit: Unit,
        samples: &Samples,
        share: f64,
    ) -> Self {
        let (least, most) = (samples.quantile(0.0), samples.quantile(1.0));
        Self {
            what: what.into(),
            goal: goal.to_owned(),
            seen: unit.show(samples.quantile(share)),
            spread: format!(
                "{} to {}, {} samples",
                unit.show(least),
                unit.show(most),
                samples.count()
            ),
        }
    }

    /// A figure that does not spread.
    pub(crate) fn exact(what: impl Into<String>, goal: &str, seen: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            goal: goal.to_owned(),
            seen: seen.into(),
            spread: String::new(),
        }
    }
}

/// As Markdown reads it.
impl fmt::Display for Row {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            what,
            goal,
            seen,
            spread,
        } = self;
        write!(f, "| {what} | {goal} | {seen} | {spread} |")
    }
}

/// What stands above the rows.
pub(crate) const HEAD: &str = "| what | goal | median | spread |\n|---|---|---|---|";
