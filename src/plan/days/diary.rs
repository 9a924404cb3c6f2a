//! The diary of one line in dressing.

use serde::{Deserialize, Serialize};

use super::Day;
use crate::base::bounded::bounded_list;

/// Most steps with a tick.
const MOST_TICKS: usize = crate::braid::recipe::MOST_STEPS;

/// When work on a line began, and on which day each of its steps was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Diary {
    /// The first day.
    pub start: Day,
    /// The day on which each step was done; steps after the last tick may be missing.
    #[serde(deserialize_with = "bounded_list::<_, _, MOST_TICKS>")]
    pub ticks: Vec<Option<Day>>,
}

impl Diary {
    /// A diary with nothing done.
    pub fn new(start: Day) -> Self {
        Self {
            start,
            ticks: Vec::new(),
        }
    }

    /// The day a step was done.
    pub fn tick_of(&self, index: usize) -> Option<Day> {
        self.ticks.get(index).copied().flatten()
    }

    /// Notes the day a step was done, or that it was not.
    pub fn tick(&mut self, index: usize, day: Option<Day>) {
        if index >= MOST_TICKS {
            return;
        }
        if index >= self.ticks.len() {
            self.ticks.resize(index + 1, None);
        }
        self.ticks[index] = day;
    }
}
