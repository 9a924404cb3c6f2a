//! Units by the size of the numbers, where none is written.
//!
//! Our own choice, no source: lines are some 0.2 to 4 mm thick and up to some 60 m long.

use crate::base::units::show::Units;
use crate::base::units::text::Unit;

/// Diameters of lines in each unit, from and to: no number is in two of the ranges.
const DIAMETERS: [(Unit, f64, f64); 4] = [
    (Unit::Millimetre, 0.2, 4.0),
    (Unit::Thousandth, 8.0, 160.0),
    (Unit::Inch, 0.008, 0.16),
    (Unit::Micrometre, 200.0, 4_000.0),
];
/// The largest place in each unit; what is larger is in the next.
const METRIC_PLACES: [(Unit, f64); 2] = [(Unit::Metre, 60.0), (Unit::Centimetre, 6_000.0)];
/// The largest place in feet; what is larger is in inches.
const LARGEST_IN_FEET: f64 = 200.0;

/// Whether a number is a diameter in some unit.
pub(super) fn may_be_diameter(value: f64) -> bool {
    DIAMETERS
        .iter()
        .any(|(_, low, high)| (*low..=*high).contains(&value))
}

/// The unit in which the most of these numbers are diameters of a line; the reader's own where none is.
pub(super) fn diameter_unit(values: &[f64], system: Units) -> Unit {
    let mut best = (system.diameter(), 0);
    for (unit, low, high) in DIAMETERS {
        let count = values
            .iter()
            .filter(|value| (low..=high).contains(*value))
            .count();
        if count > best.1 {
            best = (unit, count);
        }
    }
    best.0
}

/// The unit of places whose largest is this, beside diameters in such a unit.
pub(super) fn place_unit(largest: f64, diameter: Unit) -> Unit {
    if matches!(diameter, Unit::Thousandth | Unit::Inch | Unit::Foot) {
        return if largest <= LARGEST_IN_FEET {
            Unit::Foot
        } else {
            Unit::Inch
        };
    }
    METRIC_PLACES
        .iter()
        .find(|(_, most)| largest <= *most)
        .map_or(Unit::Millimetre, |(unit, _)| *unit)
}
