//! Where the braid angle is outside the tolerance, why, and what helps.

use crate::base::units::show::{self, Units};
use crate::plan::{AngleCause, BetterWheels, GearFault, OutsideParts};

pub(super) fn off(parts: &OutsideParts, cause: &AngleCause, units: Units) -> String {
    let cause = match cause {
        AngleCause::OtherWheelsChosen(better) => format!(
            "Gear {}, which you own, would make it {}; the price of a gear change, or a pin of yours, keeps it off.",
            better.wheels,
            show::angle(better.angle)
        ),
        AngleCause::NoWheelsOwned { buy, fault } => {
            let reason = match fault {
                GearFault::AllTooFast => "even your slowest gear takes the line off too fast",
                GearFault::AllTooSlow => "even your fastest gear takes the line off too slowly",
                GearFault::TooFarApart => "your gears are too far apart there",
            };
            format!("The reason: {reason}. {}", way_out(buy.as_ref(), *fault))
        }
    };
    format!(
        "The angle stays outside your tolerance {}. {cause}",
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
        None => "No single gear you could buy would mend it.".to_owned(),
    };
    let otherwise = match fault {
        GearFault::AllTooFast => "ply more ends to a thread, or aim at a smaller angle",
        GearFault::AllTooSlow => "ply fewer ends to a thread, or aim at a larger angle",
        GearFault::TooFarApart => "aim at another angle, or allow a wider tolerance",
    };
    format!("{gear} Or {otherwise}.")
}

pub(super) fn settling(parts: &OutsideParts, units: Units) -> String {
    format!(
        "While it settles after a change, the angle is outside your tolerance {}. With what is fitted there it settles \
         within your tolerance.",
        where_outside(parts, units)
    )
}

/// How much of the line, where most of it lies, and how bad it is.
fn where_outside(parts: &OutsideParts, units: Units) -> String {
    let (from, to) = parts.longest;
    let (from, to) = (units.show_position(from), units.show_position(to));
    let places = match parts.count {
        1 => format!("from {from} to {to}"),
        count => format!(
            "on {count} parts of the line, {} together, the longest from {from} to {to}",
            units.show_position(parts.length)
        ),
    };
    format!(
        "{places}; it is worst at {}: {}",
        units.show_position(parts.at),
        show::angle(parts.angle)
    )
}
