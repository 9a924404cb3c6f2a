//! Which places of the track bear a carrier.

use serde::{Deserialize, Serialize};

use crate::base::choice::Choice;
use crate::braid::track::Direction;

/// The places that bear a carrier, counted from 0 in track order; an empty list means every place.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Mounted {
    /// Places of clockwise carriers.
    pub clockwise: Vec<u32>,
    /// Places of counter-clockwise carriers.
    pub counter_clockwise: Vec<u32>,
}

impl Mounted {
    /// One place in so many, each way.
    pub fn every(step: u32, places_each_way: u32) -> Self {
        if step <= 1 {
            return Self::default();
        }
        let places: Vec<u32> = (0..places_each_way).step_by(step as usize).collect();
        Self {
            clockwise: places.clone(),
            counter_clockwise: places,
        }
    }

    /// The places of one direction.
    pub fn of(&self, direction: Direction) -> &[u32] {
        match direction {
            Direction::Clockwise => &self.clockwise,
            Direction::CounterClockwise => &self.counter_clockwise,
        }
    }

    /// The same with other places for one direction.
    #[must_use]
    pub fn with(mut self, direction: Direction, places: Vec<u32>) -> Self {
        match direction {
            Direction::Clockwise => self.clockwise = places,
            Direction::CounterClockwise => self.counter_clockwise = places,
        }
        self
    }
}

impl Choice for Direction {
    const ALL: &'static [Self] = &[Self::Clockwise, Self::CounterClockwise];

    fn key(self) -> &'static str {
        self.short()
    }

    fn name(self) -> &'static str {
        match self {
            Self::Clockwise => "clockwise",
            Self::CounterClockwise => "counter\u{2011}clockwise",
        }
    }
}
