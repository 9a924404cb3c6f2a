//! Pins: what the maker insists on. As plain data, to be kept in files and links, and in typed parts.

use crate::braid::takeoff::TEETH;
use crate::design::refusal::admit;
use serde::{Deserialize, Serialize};

use super::refusal::{MOST_PINS, Place, Refusal};
use super::settings::POSITION;
use crate::base::units::Length;
use crate::braid::takeoff::{Train, Wheels};
use crate::braid::threads::Level;
use crate::braid::track::{Carrier, Direction, MOST_CARRIERS};

/// What the maker insists on, not yet checked. Whether it makes sense on the line shows in the plan, not here.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "pin", rename_all = "kebab-case", deny_unknown_fields)]
pub enum DraftPin {
    /// The change between a level and the next is made there.
    Place {
        /// Threads of the lower level.
        threads: u32,
        /// Those of them that are heavier.
        heavy: u32,
        /// Whether the line gets thicker there.
        rising: bool,
        /// Where, in metres from the tip.
        at_m: f64,
    },
    /// The step from so many threads to one more engages this carrier.
    Carrier {
        /// Threads before the step.
        threads: u32,
        /// Which way the carrier runs.
        #[serde(with = "crate::base::choice")]
        direction: Direction,
        /// Its number, from 0.
        number: u32,
    },
    /// The swap that makes one more thread heavier, of so many, is made on this carrier.
    Swap {
        /// Threads that are heavier before the swap.
        heavy: u32,
        /// Which way the carrier runs.
        #[serde(with = "crate::base::choice")]
        direction: Direction,
        /// Its number, from 0.
        number: u32,
    },
    /// The interval of this level nearest to a place is braided with these wheels.
    Wheels {
        /// Threads of the level.
        threads: u32,
        /// Those of them that are heavier.
        heavy: u32,
        /// A place within the interval, in metres from the tip.
        at_m: f64,
        /// Teeth of the wheel that drives.
        driver: u32,
        /// Teeth of the wheel that is driven.
        driven: u32,
    },
}

/// What the maker insists on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pin {
    /// The change between a level and the next is made there.
    Place {
        /// The lower of the two levels.
        lower: Level,
        /// Whether the line gets thicker there.
        rising: bool,
        /// Where.
        at: Length,
    },
    /// The step from so many threads to one more engages this carrier.
    Carrier {
        /// Threads before the step.
        threads: u32,
        /// The carrier.
        carrier: Carrier,
    },
    /// The swap that makes one more thread heavier, of so many, is made on this carrier.
    Swap {
        /// Threads that are heavier before the swap.
        heavy: u32,
        /// The carrier.
        carrier: Carrier,
    },
    /// The interval of this level nearest to a place is braided with these wheels.
    Wheels {
        /// The level.
        level: Level,
        /// A place within the interval, when it was pinned.
        near: Length,
        /// The wheels.
        wheels: Wheels,
    },
}

impl DraftPin {
    /// Brings its numbers to their steps.
    ///
    /// # Errors
    /// [`Refusal`] when a number is out of every range.
    fn admitted(self, index: usize) -> Result<Self, Refusal> {
        let place = Place::Pin(index);
        let count = |threads: u32| {
            let fits = threads <= MOST_CARRIERS;
            fits.then_some(threads).ok_or(Refusal::BadPin(index))
        };
        let teeth =
            |teeth: u32| admit(TEETH, f64::from(teeth), place).map(|value| TEETH.quanta(value));
        Ok(match self {
            Self::Place {
                threads,
                heavy,
                rising,
                at_m,
            } => Self::Place {
                threads: count(threads)?,
                heavy: count(heavy)?,
                rising,
                at_m: admit(POSITION, at_m, place)?,
            },
            Self::Carrier {
                threads,
                direction,
                number,
            } => Self::Carrier {
                threads: count(threads)?,
                direction,
                number: count(number)?,
            },
            Self::Swap {
                heavy,
                direction,
                number,
            } => Self::Swap {
                heavy: count(heavy)?,
                direction,
                number: count(number)?,
            },
            Self::Wheels {
                threads,
                heavy,
                at_m,
                driver,
                driven,
            } => Self::Wheels {
                threads: count(threads)?,
                heavy: count(heavy)?,
                at_m: admit(POSITION, at_m, place)?,
                driver: teeth(driver)?,
                driven: teeth(driven)?,
            },
        })
    }

    /// The pin in typed parts, on a train.
    pub(super) fn typed(self, train: Train) -> Pin {
        match self {
            Self::Place {
                threads,
                heavy,
                rising,
                at_m,
            } => Pin::Place {
                lower: Level { threads, heavy },
                rising,
                at: Length::from_metres(at_m),
            },
            Self::Carrier {
                threads,
                direction,
                number,
            } => Pin::Carrier {
                threads,
                carrier: Carrier { direction, number },
            },
            Self::Swap {
                heavy,
                direction,
                number,
            } => Pin::Swap {
                heavy,
                carrier: Carrier { direction, number },
            },
            Self::Wheels {
                threads,
                heavy,
                at_m,
                driver,
                driven,
            } => Pin::Wheels {
                level: Level { threads, heavy },
                near: Length::from_metres(at_m),
                wheels: Wheels {
                    driver,
                    driven,
                    train,
                },
            },
        }
    }
}

/// Checks a list of pins.
pub(super) fn admitted(pins: &[DraftPin]) -> Result<Vec<DraftPin>, Refusal> {
    if pins.len() > MOST_PINS {
        return Err(Refusal::PinCount(pins.len()));
    }
    let pins = pins.iter().enumerate();
    pins.map(|(index, pin)| pin.admitted(index)).collect()
}
