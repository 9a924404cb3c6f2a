//! The steps of a dressing on a strip of days.

use crate::plan::days::Day;
use crate::plan::days::dates::DatedStep;

/// A strip of fewer days than this is labelled by weeks, a longer one by months.
const DAYS_FOR_MONTHS: i64 = 70;
/// Most labels below a strip.
const MOST_LABELS: usize = 8;

/// A step on the strip: where it begins and ends, as shares of its width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Where it begins.
    pub from: f64,
    /// Where it ends; at least a day later.
    pub to: f64,
}

/// A date below the strip.
#[derive(Clone, Debug, PartialEq)]
pub struct DateLabel {
    /// Where it stands, as a share of the width.
    pub at: f64,
    /// What it says.
    pub text: String,
}

/// The strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// A bar for each step.
    pub bars: Vec<Bar>,
    /// Mondays, or firsts of the month.
    pub labels: Vec<DateLabel>,
    /// Where the middle of today is, if it is on the strip.
    pub today: Option<f64>,
}

/// The strip of some steps; `None` without any.
pub fn timeline(steps: &[DatedStep], today: Option<Day>) -> Option<Timeline> {
    let first = steps.iter().map(|step| step.first).min()?;
    let last = steps.iter().map(|step| step.last).max()?;
    let days = last.since(first) + 1;
    let share = |day: Day, by: f64| (day.since(first) as f64 + by) / days as f64;
    let bar = |step: &DatedStep| Bar {
        from: share(step.first, 0.0),
        to: share(step.last, 1.0),
    };
    let is_within = |day: &Day| (first..=last).contains(day);
    Some(Timeline {
        bars: steps.iter().map(bar).collect(),
        labels: labels(first, days)
            .into_iter()
            .map(|(day, text)| DateLabel {
                at: share(day, 0.0),
                text,
            })
            .collect(),
        today: today.filter(is_within).map(|day| share(day, 0.5)),
    })
}

fn labels(first: Day, days: i64) -> Vec<(Day, String)> {
    let all = (0..days).map(|by| first.plus(by));
    let marked: Vec<(Day, String)> = if days < DAYS_FOR_MONTHS {
        let weeks = all.filter(|day| day.begins_week());
        weeks
            .map(|day| (day, format!("{} {}", day.of_month(), day.month())))
            .collect()
    } else {
        let months = all.filter(|day| day.of_month() == 1);
        months.map(|day| (day, day.month().to_owned())).collect()
    };
    let step = marked.len().div_ceil(MOST_LABELS).max(1);
    marked.into_iter().step_by(step).collect()
}
