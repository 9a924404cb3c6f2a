//! The course of a dressing as one bar of days.
//!
//! Each step begins where the one before it ends. A step that lasts no longer than the day already drawn has no room of its own:
//! it belongs to the segment of that day.

use core::ops::Range;

use crate::plan::days::Day;
use crate::plan::days::dates::{DatedStep, StepStatus};

/// Labels stand at least this share of the width apart, so that none covers another on a telephone.
const APART: f64 = 0.2;

/// A part of the bar: one step, or several of one day.
#[derive(Clone, Debug, PartialEq)]
pub struct Segment {
    /// Where it begins, as a share of the width.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// The steps it stands for, by their places in the list.
    pub steps: Range<usize>,
    /// Whether all of them are done.
    pub is_done: bool,
}

/// A date below the bar.
#[derive(Clone, Debug, PartialEq)]
pub struct DateLabel {
    /// Where it stands, as a share of the width: 0 for the first day, 1 for the last, else where a segment begins.
    pub at: f64,
    /// What it says: `6 Dec`.
    pub text: String,
}

/// The bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// Its parts, from the first to the last.
    pub segments: Vec<Segment>,
    /// The first day, days on which long steps begin, the last day.
    pub labels: Vec<DateLabel>,
    /// Where the middle of today is, if it is on the bar.
    pub today: Option<f64>,
}

/// The bar of some steps; `None` without any.
pub fn timeline(steps: &[DatedStep], today: Option<Day>) -> Option<Timeline> {
    let first = steps.iter().map(|step| step.first).min()?;
    let last = steps.iter().map(|step| step.last).max()?;
    let days = last.since(first) + 1;
    let share = |day: Day, by: f64| (day.since(first) as f64 + by) / days as f64;
    let mut segments: Vec<Segment> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let is_done = matches!(step.status, StepStatus::Done { .. });
        let (from, to) = (
            segments.last().map_or(0.0, |before| before.to),
            share(step.last, 1.0),
        );
        match segments.last_mut() {
            Some(before) if to <= from => {
                before.steps.end = index + 1;
                before.is_done &= is_done;
            }
            _ => segments.push(Segment {
                from,
                to,
                steps: index..index + 1,
                is_done,
            }),
        }
    }
    let is_within = |day: &Day| (first..=last).contains(day);
    Some(Timeline {
        labels: labels(&segments, steps, first, last),
        segments,
        today: today.filter(is_within).map(|day| share(day, 0.5)),
    })
}

/// The days a bar is labelled with, none too close to another.
fn labels(segments: &[Segment], steps: &[DatedStep], first: Day, last: Day) -> Vec<DateLabel> {
    let label = |at: f64, day: Day| DateLabel {
        at,
        text: day.short(),
    };
    let mut labels = vec![label(0.0, first)];
    for segment in segments.iter().skip(1) {
        let is_clear = |label: &DateLabel| segment.from - label.at >= APART;
        if labels.last().is_some_and(is_clear) && 1.0 - segment.from >= APART {
            labels.push(label(segment.from, steps[segment.steps.start].first));
        }
    }
    if last > first {
        labels.push(label(1.0, last));
    }
    labels
}
