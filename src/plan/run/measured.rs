//! A value measured on the braid, by an instrument or from a photo.

use super::check_kind::CheckKind;
use crate::base::units::Angle;
use crate::braid::geometry::{Braiding, Load};
use crate::photo::Estimate;

/// Own errors of an angle that can be, degrees. Our own choice: no photo shows less, and beyond the largest it shows nothing.
const ANGLE_ERRORS: (f64, f64) = (0.01, 45.0);
/// Own errors of crossings that can be, as shares of them. Our own choice: less than the scale in any photo, and half of them.
const CROSSINGS_SHARES: (f64, f64) = (1e-4, 0.5);
/// Steps in one degree in which an angle from a photo is kept.
const ANGLE_STEPS: f64 = 100.0;
/// Steps in one crossing per centimetre in which crossings from a photo are kept.
const CROSSINGS_STEPS: f64 = 1_000.0;
/// Centimetres in a metre.
const CENTIMETRES: f64 = 100.0;

/// A braid angle seen on the surface of a load, radians, at the path of its threads; the error becomes smaller or larger with it.
pub fn at_path(braiding: &Braiding, load: Load, surface: Estimate) -> Estimate {
    let path = |radians: f64| {
        let surface = Angle::from_radians(radians.clamp(0.001, 1.57));
        braiding.at_surface_angle(load, surface).angle.radians()
    };
    let value = path(surface.value);
    // By the slope over a tenth of a degree: the error itself may be large.
    let step = 0.001;
    let slope = (path(surface.value + step) - path(surface.value - step)) / (2.0 * step);
    Estimate {
        value,
        error: surface.error * slope,
    }
}

/// A value measured on the braid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// What was measured.
    pub kind: CheckKind,
    /// The value, in the unit of its kind.
    pub value: f64,
    /// Its own error, one standard deviation in the same unit; nothing where the usual one of the instrument holds.
    pub error: Option<f64>,
}

impl Measured {
    /// A value read off an instrument, in the unit of its kind.
    pub const fn by_hand(kind: CheckKind, value: f64) -> Self {
        Self {
            kind,
            value,
            error: None,
        }
    }

    /// A braid angle from a photo; `angle` is in radians, as [`crate::photo::PhotoReading`] has it. It is kept in hundredths of a
    /// degree.
    pub fn angle_by_photo(angle: Estimate) -> Self {
        let [value, error] =
            [angle.value, angle.error].map(|radians| Angle::from_radians(radians).degrees());
        Self::by_photo(CheckKind::Angle, on_steps(value, ANGLE_STEPS), error)
    }

    /// Crossings along a rib from a photo; `crossings` is per metre. They are kept in thousandths of one per centimetre. The error is
    /// the whole one: that of the scale of the picture is in it.
    pub fn crossings_by_photo(crossings: Estimate) -> Self {
        let [value, error] =
            [crossings.value, crossings.error].map(|per_metre| per_metre / CENTIMETRES);
        Self::by_photo(
            CheckKind::Crossings,
            on_steps(value, CROSSINGS_STEPS),
            error,
        )
    }

    fn by_photo(kind: CheckKind, value: f64, error: f64) -> Self {
        // Twice the least stays possible when it is rounded.
        let least = kind
            .own_errors(value)
            .map_or(error, |(least, _)| 2.0 * least);
        let is_less = error > 0.0 && error < least;
        let measured = Self {
            kind,
            value,
            error: Some(two_digits(if is_less { least } else { error })),
        };
        Self {
            error: measured.own_error(),
            ..measured
        }
    }

    /// Its own error where it has one that can be.
    pub fn own_error(&self) -> Option<f64> {
        self.kind.own_error(self.value, self.error)
    }
}

impl CheckKind {
    /// An own error of a value, where it can be one. A diameter has none.
    pub fn own_error(self, value: f64, error: Option<f64>) -> Option<f64> {
        let (least, most) = self.own_errors(value)?;
        let can_be =
            |error: f64| error > 0.0 && error.is_finite() && error >= least && error <= most;
        error.filter(|&error| value.is_finite() && can_be(error))
    }

    /// The least and the greatest own error that a value can have.
    fn own_errors(self, value: f64) -> Option<(f64, f64)> {
        match self {
            Self::Angle => Some(ANGLE_ERRORS),
            Self::Crossings => {
                let (least, most) = CROSSINGS_SHARES;
                Some((least * value, most * value))
            }
            Self::Diameter => None,
        }
    }
}

fn on_steps(value: f64, steps: f64) -> f64 {
    (value * steps).round() / steps
}

/// An error with two digits: a third one says nothing.
fn two_digits(error: f64) -> f64 {
    format!("{error:.1e}").parse().unwrap_or(error)
}
