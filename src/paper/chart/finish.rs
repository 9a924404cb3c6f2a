//! The states of a line that the chart can show.

use crate::braid::dressing::Dressing;

/// A state of the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// As it comes from the machine.
    Bare,
    /// Once its last coat of oil is dry, before varnish and grease.
    Oiled,
    /// Ready to fish.
    Finished,
}

impl Finish {
    /// Every state, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Bare, Self::Oiled, Self::Finished];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bare => "bare",
            Self::Oiled => "oiled",
            Self::Finished => "finished",
        }
    }

    /// What is on the line then.
    pub fn dressing(self, finished: &Dressing) -> Dressing {
        match self {
            Self::Bare => Dressing::BARE,
            Self::Oiled => Dressing {
                oil: finished.oil,
                weighed: finished.weighed,
                ..Dressing::BARE
            },
            Self::Finished => *finished,
        }
    }
}
