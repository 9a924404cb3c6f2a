//! How far off a hobby maker's measuring may be: one standard deviation each. All are our own choice, from what the tools of
//! a bench can do in careful hands.

use crate::base::units::{Angle, Length, Mass};

/// A steel rule laid along: a millimetre at either end of a short braid …
pub const LENGTH: Length = Length::from_millimetres(1.0);
/// … and half a millimetre in each metre of a long line, which lies neither quite straight nor quite slack.
pub const LENGTH_SHARE: f64 = 0.0005;
/// A scale that shows hundredths of a gram …
pub const MASS: Mass = Mass::from_grams(0.01);
/// … and half a percent, since a braid takes up and gives off some moisture with the weather.
pub const MASS_SHARE: f64 = 0.005;
/// A micrometer shows hundredths of a millimetre; a soft braid gives way under its jaws, by half as much again.
pub const DIAMETER: Length = Length::from_micrometres(15.0);
/// Along a taper, or near a change of threads, the jaws are this far from the place written down.
pub const PLACE: Length = Length::from_millimetres(10.0);
/// A gauge laid on the braid.
pub const ANGLE: Angle = Angle::from_degrees(1.0);
/// The machine is stopped, and the count begun, to a quarter of a circuit.
pub const CIRCUITS: f64 = 0.25;
/// The first and the last crossing counted are each met to some third of one.
pub const CROSSINGS: f64 = 0.5;

/// Error of a length, whichever is larger.
pub fn of_length(length: Length) -> Length {
    LENGTH.max(length * LENGTH_SHARE)
}

/// Error of a mass, whichever is larger.
pub fn of_mass(mass: Mass) -> Mass {
    MASS.max(mass * MASS_SHARE)
}

/// Error of the lay from so many circuits over a length, as a share of it. Analytic: independent shares add as squares.
pub fn share_by_circuits(length: Length, circuits: f64) -> f64 {
    (of_length(length) / length).hypot(CIRCUITS / circuits)
}

/// Error of the lay from so many crossings over a length, as a share of it. `own` is the error of the crossings themselves where a
/// photo gave them: it holds what is uncertain of the length too.
pub fn share_by_crossings(length: Length, crossings: f64, own: Option<f64>) -> f64 {
    match own {
        Some(own) => own / crossings,
        None => (of_length(length) / length).hypot(CROSSINGS / crossings),
    }
}

/// Error of an angle; `own` is that of the photo it came from, degrees.
pub fn of_angle(own: Option<f64>) -> Angle {
    own.map_or(ANGLE, Angle::from_degrees)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::KnownDiameter;

    #[test]
    fn a_measured_diameter_is_as_sure_for_a_photo_as_for_the_book() {
        let diameter = KnownDiameter::Measured(Length::from_millimetres(1.0));
        assert_eq!(diameter.error(), DIAMETER);
    }
}
