//! Angles in radians as degrees to a tenth.

use crate::base::units::Angle;

/// Degrees to a tenth.
pub(super) fn degrees(radians: f64) -> String {
    format!("{:.1}", Angle::from_radians(radians).degrees())
}

/// A spread of degrees to a tenth, and a tenth at least.
pub(super) fn degrees_off(radians: f64) -> String {
    format!(
        "{:.1}",
        Angle::from_radians(radians).degrees().abs().max(0.1)
    )
}
