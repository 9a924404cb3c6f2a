//! The kinds of value that are measured on the braid at the machine.

use serde::{Deserialize, Serialize};

/// What is measured on the braid at the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CheckKind {
    /// Braid angle, degrees.
    Angle,
    /// Crossings along one rib, per centimetre.
    Crossings,
    /// Outer diameter of the bare braid, millimetres.
    Diameter,
}

impl CheckKind {
    /// Every kind, in the order in which they are looked at.
    pub const ALL: [Self; 3] = [Self::Angle, Self::Crossings, Self::Diameter];
}
