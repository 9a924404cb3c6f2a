//! The order in which carriers are engaged, chosen so that every state on the way braids soundly.
//!
//! A [`Ladder`] lists carriers; the state with `n` threads is its first `n`. Adding takes the next, dropping gives up
//! the last: last in, first out, and the start set runs the whole line. From the start on, the directions are never
//! more than one thread apart; either may be ahead.
//!
//! Of all ladders the best is the one with, in this order,
//!
//! 1. the fewest states that fall apart,
//! 2. the shortest longest float over all states,
//! 3. the most even gaps: the least sum, over all states, of the squared steps in places from each engaged carrier to
//!    the next of its direction,
//! 4. the shortest walk: the least sum of the ways round the ring between the places of carriers added one after
//!    another, whichever way they run.
//!
//! With at most eight carriers mounted each way, the best is found among all start sets and all orders; of several as
//! good as each other, the one with the lowest numbers. With more, the search keeps the most promising few from state
//! to state; it is checked, not proven best.
//!
//! The maker may pin steps ([`CarrierPin`]): the same holds among the ladders that honour the pins.

use std::sync::Arc;

use crate::braid::track::{Carrier, Engaged, Interlacing, Track};

mod cache;
mod carrier_pin;
mod constraints;
mod evaluator;
mod exact;
mod heavier;
mod pins;
mod start;
mod walk;
mod wide;

pub use cache::LadderCache;
pub use carrier_pin::{CarrierPin, GivenUp};
use constraints::Constraints;

/// The fewest threads a ladder begins with: fewer make no braid.
pub const FEWEST_THREADS: u32 = 3;

/// Carriers in the order in which they are engaged. Cheap to clone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ladder {
    track: Track,
    found: Arc<Solution>,
}

/// What a search finds.
#[derive(Debug, PartialEq, Eq)]
struct Solution {
    start: u32,
    carriers: Vec<Carrier>,
    given_up: Vec<(CarrierPin, GivenUp)>,
    /// From the start up, how each state interlaces.
    interlacings: Vec<Interlacing>,
}

impl Ladder {
    /// The best ladder from `start` threads up to `full` that honours the pins, or those of them that can be honoured.
    ///
    /// `full` is brought to at most [`Track::most_threads`], then `start` to between [`FEWEST_THREADS`] and `full`, then
    /// `full` to no less than `start`.
    pub fn new(track: Track, start: u32, full: u32, pins: &[CarrierPin]) -> Self {
        Question::of(track, start, full, pins).ladder()
    }

    /// The track it was made for.
    pub fn track(&self) -> Track {
        self.track
    }

    /// Threads of its lowest state.
    pub fn start(&self) -> u32 {
        self.found.start
    }

    /// Threads of its highest state.
    pub fn full(&self) -> u32 {
        u32::try_from(self.found.carriers.len()).unwrap_or(u32::MAX)
    }

    /// The carriers engaged with `threads` threads, in the order they came in; the start set stands alternately
    /// clockwise and counter-clockwise, each direction in track order.
    pub fn engaged(&self, threads: u32) -> &[Carrier] {
        let carriers = &self.found.carriers;
        &carriers[..(threads as usize).min(carriers.len())]
    }

    /// The carrier added when going from `threads` to one more, and dropped when coming back.
    pub fn step_above(&self, threads: u32) -> Option<Carrier> {
        self.found.carriers.get(threads as usize).copied()
    }

    /// How the state with `threads` threads interlaces.
    pub fn interlacing(&self, threads: u32) -> Interlacing {
        let state = threads.checked_sub(self.found.start);
        let known = state.and_then(|state| self.found.interlacings.get(state as usize));
        known.cloned().unwrap_or_else(|| {
            self.track
                .interlacing(&Engaged::from_carriers(self.engaged(threads)))
        })
    }

    /// How the states of the ladder interlace, from its start up.
    pub fn interlacings(&self) -> &[Interlacing] {
        &self.found.interlacings
    }

    /// The pins that do not hold, each with the reason, in the order in which they were given.
    pub fn given_up(&self) -> &[(CarrierPin, GivenUp)] {
        &self.found.given_up
    }

    /// The order in which the carriers engaged with `threads` threads get heavier threads, one by one.
    ///
    /// Directions alternate, the one with more threads first. Each next carrier stands as far as can be from those of
    /// its direction that are heavy already, so that heavy threads lie evenly; of several as far, it is the nearest to
    /// the carrier before, then the one with the lowest number.
    ///
    /// Each of `pins` names how many threads are heavier before a swap, and the carrier to swap. It is followed where that
    /// carrier is engaged, light still, and runs the way whose turn it is.
    pub fn heavier_order(&self, threads: u32, pins: &[(u32, Carrier)]) -> Vec<Carrier> {
        heavier::order(self.track, self.engaged(threads), pins)
    }
}

/// All that a ladder depends on.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Question {
    track: Track,
    start: u32,
    full: u32,
    pins: Vec<CarrierPin>,
}

impl Question {
    /// Its numbers brought into their ranges, as [`Ladder::new`] says.
    fn of(track: Track, start: u32, full: u32, pins: &[CarrierPin]) -> Self {
        let most = track.most_threads();
        let start = start.clamp(FEWEST_THREADS, full.clamp(FEWEST_THREADS, most));
        Self {
            track,
            start,
            full: full.clamp(start, most),
            pins: pins.to_vec(),
        }
    }

    /// The search itself.
    fn ladder(&self) -> Ladder {
        Ladder {
            track: self.track,
            found: Arc::new(self.answer()),
        }
    }

    fn answer(&self) -> Solution {
        let constraints = Constraints::new(self.track, self.start, self.full);
        let (carriers, given_up) = pins::settle(&constraints, &self.pins);
        let states = (self.start..=self.full).map(|threads| &carriers[..threads as usize]);
        let interlacing =
            |state: &[Carrier]| self.track.interlacing(&Engaged::from_carriers(state));
        Solution {
            start: self.start,
            interlacings: states.map(interlacing).collect(),
            carriers,
            given_up,
        }
    }
}
