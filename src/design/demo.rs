//! The design a first visit opens. Workshop, line and machine are invented.

use super::machine::Mounted;
use super::settings::{Setting, Settings};
use super::{Design, Draft, DraftPoint};
use crate::braid::recipe::ReadyRecipe;
use crate::braid::takeoff::Train;
use crate::braid::threads::Build;
use crate::braid::track::Pattern;
use crate::braid::yarn::{Condition, Fibre};

/// Distances from the tip in feet and finished diameters in millimetres: a double taper of 82 ft 6 in.
const POINTS: [(f64, f64); 6] = [
    (0.0, 0.825),
    (0.5, 0.825),
    (10.5, 1.085),
    (72.0, 1.085),
    (82.0, 0.825),
    (82.5, 0.825),
];
/// Change gears of the invented machine: every tooth from 16 to 34.
const GEARS: core::ops::RangeInclusive<u32> = 16..=34;
/// Ends in a thread: the belly takes 14 threads of these and leaves two carriers for a thicker line.
const ENDS: f64 = 14.0;

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
        build: Build::MoreThreads,
        pattern: Pattern::Regular,
        mounted: Mounted::default(),
        train: Train::Driver,
        gears: GEARS.map(f64::from).collect(),
        settings: settings(),
        pins: Vec::new(),
        recipe: ReadyRecipe::Fine.steps(),
        workshop: String::new(),
        learned: None,
        original: None,
        points: POINTS
            .map(|(feet, diameter_mm)| DraftPoint {
                at_m: feet * crate::base::units::METRES_PER_FOOT,
                diameter_mm,
            })
            .to_vec(),
    }
}

fn settings() -> Settings {
    let mut settings = Settings::default();
    settings.set(Setting::EndsPerThread, ENDS);
    settings
}
