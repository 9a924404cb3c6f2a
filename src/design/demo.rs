//! The design a first visit opens. Workshop, line and machine are invented.

use super::settings::Settings;
use super::{Design, Draft, DraftPoint};
use crate::track::Pattern;
use crate::yarn::{Condition, Fibre};

/// Distances from the tip in feet and finished diameters in millimetres: a double taper of 82 ft 6 in.
const POINTS: [(f64, f64); 6] = [
    (0.0, 0.76),
    (0.5, 0.76),
    (8.5, 1.075),
    (74.0, 1.075),
    (82.0, 0.76),
    (82.5, 0.76),
];
/// Change gears of the invented machine: every tooth from 15 to 30.
const GEARS: core::ops::RangeInclusive<u32> = 15..=30;

/// A double taper for a class 5 rod, braided on an invented machine.
pub fn demo() -> Design {
    Design::parse(draft()).expect("the demo design is valid: a test parses it")
}

fn draft() -> Draft {
    Draft {
        name: "Heron Weir double taper".to_owned(),
        notes: "Invented example: the Heron Weir workshop, its machine and this line do not exist."
            .to_owned(),
        fibre: Fibre::Silk,
        condition: Condition::AsBraided,
        pattern: Pattern::Regular,
        gears: GEARS.map(f64::from).collect(),
        settings: Settings::default(),
        points: POINTS
            .map(|(feet, diameter_mm)| DraftPoint {
                at_m: feet * crate::units::METRES_PER_FOOT,
                diameter_mm,
            })
            .to_vec(),
    }
}
