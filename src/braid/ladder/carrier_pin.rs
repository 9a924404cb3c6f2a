//! Carriers that the maker pins to a step.

use crate::braid::track::Carrier;

/// A maker's wish: the step from so many threads to one more engages this carrier.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct CarrierPin {
    /// Threads before the step.
    pub threads: u32,
    /// The carrier the step engages.
    pub carrier: Carrier,
}

/// Why a pin does not hold. Pins listed earlier have precedence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GivenUp {
    /// No such carrier is mounted.
    NotMounted,
    /// The line takes no such step: the threads before it are fewer than at its start, or as many as it ever has.
    StepNotOnLine,
    /// An earlier pin holds this carrier or this step.
    Twice,
    /// With it, the directions would be more than one thread apart.
    Unbalanced,
    /// With it, some state falls apart, while without it none need do so (on tracks that are not searched in full: as
    /// far as the search found). Named are the carriers whose threads would lie loose in some state.
    FallsApart(Vec<Carrier>),
}
