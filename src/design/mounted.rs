//! Which places of the track bear a carrier.

use serde::{Deserialize, Serialize};

use super::gears;
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

/// Reads places as a maker numbers them, from 1: `1-8, 10`, `all`, `all but 3`; `each_way` are those there are.
///
/// # Errors
/// In words, what is wrong with the text.
pub fn read(text: &str, each_way: u32) -> Result<Vec<u32>, String> {
    let all: Vec<u32> = (1..=each_way).collect();
    let numbers = gears::read_counts(text, &all).map_err(|unread| unread.to_string())?;
    if numbers == all {
        // Every place, also of a larger ring.
        return Ok(Vec::new());
    }
    if numbers.is_empty() {
        return Err(NONE.to_owned());
    }
    let place = |number: u32| number.checked_sub(1).ok_or_else(|| FROM_ONE.to_owned());
    numbers.into_iter().map(place).collect()
}

/// What is wrong with a place 0.
const FROM_ONE: &str = "There is no place 0: places are numbered from 1.";
/// What is wrong with a list without places.
const NONE: &str =
    "A braid needs at least two carriers each way. List the places that have one, or type “all”.";

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_read_as_a_maker_numbers_them() {
        assert_eq!(read("1, 3", 8), Ok(vec![0, 2]));
        for every in ["all", "1–8"] {
            assert_eq!(read(every, 8), Ok(vec![]), "{every}");
        }
        assert_eq!(read("all but 3", 4), Ok(vec![0, 1, 3]));
        assert!(read("0, 1", 8).unwrap_err().contains("no place 0"));
        assert!(
            read("all but 9", 8)
                .unwrap_err()
                .contains("9 cannot be left out")
        );
        // An empty list means every place, so a list that leaves all out must not become one.
        for none in ["", "all but 1–8"] {
            assert!(
                read(none, 8).unwrap_err().contains("at least two"),
                "{none}"
            );
        }
    }
}
