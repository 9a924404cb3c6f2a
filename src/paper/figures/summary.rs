//! The figures looked at most while a line is drawn, in few words.

use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::braid::taper::Part;
use crate::plan::Plan;

/// A name and its words, in the order shown.
pub fn summary(plan: &Plan, units: Units) -> [(&'static str, String); 6] {
    let at = |diameter: Length, threads: u32| {
        let diameter = units.show_diameter_short(diameter);
        format!("{diameter} · {threads} threads")
    };
    let tip = plan.station(Length::ZERO).piece.load.threads;
    let changes = plan.gear_changes();
    let worst = show::angle(plan.worst_angle.angle);
    [
        ("Tip", at(plan.tip_diameter, tip)),
        (
            "Belly",
            at(plan.belly.dressed.diameter, plan.belly.piece.load.threads),
        ),
        ("Whole line", show::grams(plan.total_mass)),
        ("Belly weight", show::grams(plan.mass_of(&[Part::Belly]))),
        ("Gear changes", format!("{changes}, worst angle {worst}")),
        (
            "Yarn",
            format!(
                "{}, {}",
                show::grams(plan.yarn.mass),
                units.show_yarn(plan.yarn.ends, 0)
            ),
        ),
    ]
}
