//! Why a thread plan is not recommended.

use crate::base::units::show::{self, Units};
use crate::edit::finder::Unmet;

/// `the angle stays outside your tolerance over 16.2 m, 38.5° at worst`.
pub fn unmet(unmet: &Unmet, units: Units) -> String {
    match *unmet {
        Unmet::FallsApart => "some threads would be loose".to_owned(),
        Unmet::OutOfReach => "there are not enough carriers for this thickness".to_owned(),
        Unmet::Jams => "the threads have no room beside each other".to_owned(),
        Unmet::AngleOff { length, worst } => format!(
            "the angle stays outside your tolerance over {}, {} at worst",
            units.show_position(length),
            show::angle(worst)
        ),
        Unmet::AngleFar(worst) => format!("the angle is {} at worst", show::angle(worst)),
        Unmet::Float(crossings) => format!("a thread floats over {crossings} crossings"),
        Unmet::Gap(places) => format!("neighbouring threads are {places} places apart"),
    }
}
