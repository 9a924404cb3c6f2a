//! What a photo says of a swatch: its angle, its crossings, and how far off they may be.

use super::measured;
use super::small_picture::SmallPicture;
use super::swatch::{Swatch, SwatchField};
use crate::photo::Estimate;
use crate::plan::run::{CheckKind, Measured};

/// Length along a rib that crossings of a photo, and those counted at the machine, are given for, metres: a centimetre.
pub(super) const COUNTED_OVER_M: f64 = 0.01;

impl Swatch {
    /// Writes down what a photo shows: the braid `angle`, radians, and where it has a scale the `crossings` along a rib, per metre. A
    /// `picture` takes the place of one kept before. What is `None` leaves what was there; so does a number whose error cannot be.
    pub fn take_photo(
        &mut self,
        angle: Estimate,
        crossings: Option<Estimate>,
        picture: Option<SmallPicture>,
    ) {
        let crossings = crossings.map(Measured::crossings_by_photo);
        let read = [Some(Measured::angle_by_photo(angle)), crossings];
        for measured in read.into_iter().flatten() {
            if measured.error.is_some() {
                self.take(measured);
            }
        }
        if picture.is_some() {
            self.picture = picture;
        }
    }

    /// Writes down a value measured, with its own error where it has one.
    pub(super) fn take(&mut self, measured: Measured) {
        let value = Some(measured.value);
        let error = measured.own_error().map(measured::kept);
        match measured.kind {
            CheckKind::Angle => {
                self.set(SwatchField::Angle, value);
                self.angle_error_deg = error;
            }
            CheckKind::Crossings => {
                self.set(SwatchField::CrossingsOver, Some(COUNTED_OVER_M));
                self.set(SwatchField::Crossings, value);
                self.crossings_error = error;
            }
            CheckKind::Diameter => self.set(SwatchField::Diameter, value),
        }
    }

    /// A number's own error, one standard deviation, in the unit of its field: that of the photo it came from. `None` where it has
    /// none, or one that cannot be: then the usual one holds.
    pub fn own_error(&self, field: SwatchField) -> Option<f64> {
        match field {
            SwatchField::Angle => CheckKind::Angle.own_error(self.angle_deg?, self.angle_error_deg),
            SwatchField::Crossings => {
                CheckKind::Crossings.own_error(self.crossings?, self.crossings_error)
            }
            _ => None,
        }
    }

    /// Drops the error of a photo where another number takes the place of the photo's.
    pub(super) const fn forget_error(&mut self, changed: SwatchField) {
        match changed {
            SwatchField::Angle => self.angle_error_deg = None,
            SwatchField::Crossings | SwatchField::CrossingsOver => self.crossings_error = None,
            _ => {}
        }
    }

    /// Leaves out own errors that cannot be, or are of no number, and keeps the others with twelve digits.
    pub(super) fn keep_possible_errors(&mut self) {
        // In this order: what is left can be after it was rounded, too.
        self.angle_error_deg = self.angle_error_deg.map(measured::kept);
        self.crossings_error = self.crossings_error.map(measured::kept);
        self.angle_error_deg = self.own_error(SwatchField::Angle);
        self.crossings_error = self.own_error(SwatchField::Crossings);
    }

    /// Whether anything in it came from a photo.
    pub(super) const fn has_photo(&self) -> bool {
        self.angle_error_deg.is_some() || self.crossings_error.is_some() || self.picture.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::units::Angle;
    use crate::keep::book::small_picture::tests::picture;

    fn degrees(value: f64, error: f64) -> Estimate {
        let [value, error] = [value, error].map(|degrees| Angle::from_degrees(degrees).radians());
        Estimate { value, error }
    }

    fn per_metre(value: f64, error: f64) -> Estimate {
        Estimate { value, error }
    }

    fn numbers(swatch: &Swatch) -> [Option<f64>; 5] {
        [
            swatch.angle_deg,
            swatch.angle_error_deg,
            swatch.crossings,
            swatch.crossings_over_m,
            swatch.crossings_error,
        ]
    }

    #[test]
    fn a_photo_is_written_down_with_its_errors() {
        let mut swatch = Swatch::default();
        swatch.set(SwatchField::CrossingsOver, Some(0.2));
        swatch.set(SwatchField::Crossings, Some(620.0));
        swatch.take_photo(degrees(46.238, 0.4567), None, Some(picture()));
        let typed = [Some(46.24), Some(0.46), Some(620.0), Some(0.2), None];
        assert_eq!(numbers(&swatch), typed);
        swatch.take_photo(
            degrees(46.0, 0.0001),
            Some(per_metre(3_123.44, 31.55)),
            None,
        );
        // No photo is so exact: it is kept as exact as one can be.
        let read = [Some(46.0), Some(0.02), Some(31.234), Some(0.01), Some(0.32)];
        assert_eq!(numbers(&swatch), read);
        assert_eq!(swatch.picture, Some(picture()));
        assert_eq!(swatch.own_error(SwatchField::Crossings), Some(0.32));
        assert_eq!(swatch.own_error(SwatchField::Mass), None);
    }

    /// What is no error leaves the numbers as they were.
    #[test]
    fn an_error_that_cannot_be_writes_nothing_down() {
        for error in [0.0, -0.5, 50.0, f64::NAN, f64::INFINITY] {
            let mut swatch = Swatch::default();
            let crossings = per_metre(3_100.0, 100.0 * error * error);
            swatch.take_photo(degrees(46.0, error), Some(crossings), None);
            assert_eq!(swatch.angle_deg, None, "{error}");
            assert!(swatch.crossings.is_none() || error.abs() == 0.5, "{error}");
        }
        let mut swatch = Swatch::default();
        for value in [f64::NAN, f64::INFINITY] {
            swatch.take_photo(degrees(value, 0.5), None, None);
            assert_eq!(swatch, Swatch::default());
        }
        for value in [f64::NAN, f64::INFINITY, -3_000.0, 0.0] {
            swatch.take_photo(degrees(46.0, 0.5), Some(per_metre(value, 30.0)), None);
        }
        assert_eq!(numbers(&swatch), [Some(46.0), Some(0.5), None, None, None]);
    }

    #[test]
    fn another_number_typed_drops_the_error() {
        let mut photo = Swatch::default();
        photo.take_photo(degrees(46.0, 0.5), Some(per_metre(3_100.0, 30.0)), None);
        let after = |field, value| {
            let mut swatch = photo.clone();
            swatch.set(field, value);
            [swatch.angle_error_deg, swatch.crossings_error].map(|error| error.is_some())
        };
        assert_eq!(after(SwatchField::Angle, Some(46.0)), [true; 2]);
        assert_eq!(after(SwatchField::Crossings, Some(31.0)), [true; 2]);
        assert_eq!(after(SwatchField::Diameter, Some(1.0)), [true; 2]);
        assert_eq!(after(SwatchField::Threads, Some(16.0)), [true; 2]);
        for value in [None, Some(30.0)] {
            assert_eq!(after(SwatchField::Angle, value), [false, true]);
            assert_eq!(after(SwatchField::Crossings, value), [true, false]);
            assert_eq!(after(SwatchField::CrossingsOver, value), [true, false]);
        }
    }
}
