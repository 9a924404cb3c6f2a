//! Where the braid angle is outside the tolerance, why, and what helps.

use crate::base::units::show::{self, Units};
use crate::plan::{AngleCause, BetterWheels, GearFault, OutsideParts};

pub(super) fn off(parts: &OutsideParts, cause: &AngleCause, units: Units) -> String {
    let cause = match cause {
        AngleCause::OtherWheelsChosen(better) => format!(
            "Gear {}, which you own, would make it {}. It is not used because of a pin, or of how much gear changes are avoided.",
            better.wheels,
            show::angle(better.angle)
        ),
        AngleCause::NoWheelsOwned { buy, fault } => {
            let reason = match fault {
                GearFault::AllTooFast => "even your slowest gear takes the line off too fast",
                GearFault::AllTooSlow => "even your fastest gear takes the line off too slowly",
                GearFault::TooFarApart => "your gears are too far apart there",
            };
            format!("Reason: {reason}. {}", way_out(buy.as_ref(), *fault))
        }
    };
    format!(
        "The angle stays outside your tolerance {} {cause}",
        where_outside(parts, units)
    )
}

/// What helps where no wheels owned do.
fn way_out(buy: Option<&BetterWheels>, fault: GearFault) -> String {
    let gear = match buy {
        Some(better) => format!(
            "Gear {}, which you do not own, would make it {}.",
            better.wheels,
            show::angle(better.angle)
        ),
        None => "No single gear you could buy would help.".to_owned(),
    };
    let other = match fault {
        GearFault::AllTooFast => "ply more ends to a thread, or choose a smaller target angle",
        GearFault::AllTooSlow => "ply fewer ends to a thread, or choose a larger target angle",
        GearFault::TooFarApart => "choose another target angle, or a wider tolerance",
    };
    format!("{gear} Or {other}.")
}

pub(super) fn settling(parts: &OutsideParts, units: Units) -> String {
    let places = where_outside(parts, units);
    let after = "With that gear the angle settles within your tolerance.";
    format!("Until it settles after a change, the angle is outside your tolerance {places} {after}")
}

/// How much of the line, where most of it lies, and how bad it is.
fn where_outside(parts: &OutsideParts, units: Units) -> String {
    let (from, to) = parts.longest;
    let (from, to) = (units.show_position(from), units.show_position(to));
    let places = match parts.count {
        1 => format!("from {from} to {to}."),
        count => format!(
            "on {count} parts of the line, {} together. The longest is from {from} to {to}.",
            units.show_position(parts.length)
        ),
    };
    format!(
        "{places} It is worst at {}: {}.",
        units.show_position(parts.at),
        show::angle(parts.angle)
    )
}
