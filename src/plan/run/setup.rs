//! The rows of setting up: what is done before the tip is marked.

use serde::{Deserialize, Serialize};

/// One thing to do before the tip is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SetupRow {
    /// Former and guide are in their places.
    Guide,
    /// The bobbins of the carriers that begin are on, with the first marking.
    FirstBobbins,
    /// The bobbins that enter later are on, or beside the machine, with the other marking.
    LaterBobbins,
    /// The carriers pull as the maker's note says.
    Tension,
    /// The threads that begin run through the guide and are marked.
    Thread,
    /// The weights of idle carriers are tied up, so that they do not stop the machine.
    IdleWeights,
    /// The first gear is fitted.
    Gear,
    /// The lead-in is braided.
    LeadIn,
    /// Its first centimetres were pushed together between the fingers.
    Push,
    /// Angle and crossings of it were looked at.
    Measure,
}

/// Most ticks of a run's setting up: one for each row.
pub const MOST_SETUP_TICKS: usize = SetupRow::ALL.len();

impl SetupRow {
    /// Every row, in the order of the work.
    pub const ALL: [Self; 10] = [
        Self::Guide,
        Self::FirstBobbins,
        Self::LaterBobbins,
        Self::Tension,
        Self::Thread,
        Self::IdleWeights,
        Self::Gear,
        Self::LeadIn,
        Self::Push,
        Self::Measure,
    ];

    /// The key by which it is known on the page and in files.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Guide => "guide",
            Self::FirstBobbins => "first-bobbins",
            Self::LaterBobbins => "later-bobbins",
            Self::Tension => "tension",
            Self::Thread => "thread",
            Self::IdleWeights => "idle-weights",
            Self::Gear => "gear",
            Self::LeadIn => "lead-in",
            Self::Push => "push",
            Self::Measure => "measure",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn page_and_files_know_a_row_by_the_same_key() {
        for row in SetupRow::ALL {
            let in_file = serde_json::to_value(row).expect("a word");
            assert_eq!(in_file, row.key());
        }
    }
}
