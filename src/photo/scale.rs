//! From pixels to lengths: what a braid measures once something in the picture is known.

use libm::{hypot, sqrt};

use super::reading::{Estimate, PhotoReading, PhotoScale};
use crate::base::units::Length;

/// Pixels of the picture by which a finger misses a mark of a rule, one standard deviation. Our own choice: one on a telephone’s screen
/// is some four of them.
const MARK: f64 = 4.0;
/// One standard deviation of a measured diameter: a micrometer in careful hands, on a soft braid. Our own choice, that of the bench book.
const MICROMETER: Length = Length::from_micrometres(15.0);
/// Share by which a planned diameter may be off, one standard deviation. Our own choice: one thread of sixteen does as much,
/// since a diameter is as the root of the threads.
const PLANNED_SHARE: f64 = 0.03;

/// A diameter of the braid, and from where it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum KnownDiameter {
    /// The plan says so.
    Planned(Length),
    /// The maker measured it.
    Measured(Length),
}

impl KnownDiameter {
    /// How large it is.
    pub const fn size(self) -> Length {
        match self {
            Self::Planned(size) | Self::Measured(size) => size,
        }
    }

    /// One standard deviation of it.
    pub fn error(self) -> Length {
        match self {
            Self::Planned(size) => size * PLANNED_SHARE,
            Self::Measured(_) => MICROMETER,
        }
    }

    /// The scale that it gives.
    pub fn scale(self) -> PhotoScale {
        PhotoScale::Diameter(self.size(), self.error())
    }
}

/// Pixels in a metre, and their error as a share of them.
struct PixelsInMetre {
    pixels: f64,
    share: f64,
}

impl PhotoReading {
    /// Crossings in a metre along a rib: `P = n/s` with `n` pixels in a metre and `s` pixels from one crossing to the next. Shares of
    /// independent errors add as squares. Nothing where the picture shows no crossings, or the scale is none.
    ///
    /// By the diameter `D` of the braid, `d` pixels of it, `n = d/D`; so `P` has the errors of all three.
    pub fn crossings(&self, scale: PhotoScale) -> Option<Estimate> {
        let spacing = Some(self.spacing).filter(is_usable)?;
        let PixelsInMetre { pixels, share } = self.pixels_in_metre(scale)?;
        let value = pixels / spacing.value;
        let share = hypot(share, spacing.error / spacing.value);
        Some(Estimate {
            value,
            error: value * share,
        })
        .filter(is_usable)
    }

    /// Outer diameter in metres, with one standard deviation. Nothing where the scale is none. Where the diameter is the scale, it is
    /// that one.
    pub fn diameter(&self, scale: PhotoScale) -> Option<Estimate> {
        let PixelsInMetre { pixels, share } = self.pixels_in_metre(scale)?;
        let own = match scale {
            PhotoScale::Diameter(diameter, error) => {
                return Some(Estimate {
                    value: diameter.metres(),
                    error: error.metres(),
                });
            }
            PhotoScale::Rule(..) => self.diameter.error / self.diameter.value,
        };
        let value = self.diameter.value / pixels;
        Some(Estimate {
            value,
            error: value * hypot(share, own),
        })
        .filter(is_usable)
    }

    fn pixels_in_metre(&self, scale: PhotoScale) -> Option<PixelsInMetre> {
        let diameter = Some(self.diameter).filter(is_usable)?;
        let (pixels, length, share) = match scale {
            PhotoScale::Diameter(length, error) => {
                let share = hypot(diameter.error / diameter.value, error / length);
                (diameter.value, length, share)
            }
            // Both ends are set by hand.
            PhotoScale::Rule(line, length) => {
                (line.length(), length, sqrt(2.0) * MARK / line.length())
            }
        };
        let is_one = pixels > 0.0 && length > Length::ZERO && share.is_finite();
        let pixels = pixels / length.metres();
        (is_one && pixels.is_finite()).then_some(PixelsInMetre { pixels, share })
    }
}

/// Whether something can be divided by it, and its error is one.
fn is_usable(estimate: &Estimate) -> bool {
    let Estimate { value, error } = *estimate;
    value > 0.0 && value.is_finite() && error >= 0.0 && error.is_finite()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::{Line, Point};

    fn estimate(value: f64, error: f64) -> Estimate {
        Estimate { value, error }
    }

    /// A braid of 200 pixels with a crossing every 64 pixels.
    fn reading() -> PhotoReading {
        let edge = |y| Line::new(Point::new(0.0, y), Point::new(1200.0, y));
        PhotoReading {
            edges: [edge(300.0), edge(500.0)],
            angle: estimate(0.8, 0.01),
            skew: estimate(0.0, 0.01),
            spacing: estimate(64.0, 0.64),
            diameter: estimate(200.0, 2.0),
            thread: 20.0,
            threads: 16,
            counted: Some(16),
            windows: Vec::new(),
        }
    }

    fn by_diameter(millimetres: f64, micrometres: f64) -> PhotoScale {
        PhotoScale::Diameter(
            Length::from_millimetres(millimetres),
            Length::from_micrometres(micrometres),
        )
    }

    fn by_rule(pixels: f64, millimetres: f64) -> PhotoScale {
        let line = Line::new(Point::new(10.0, 700.0), Point::new(10.0 + pixels, 700.0));
        PhotoScale::Rule(line, Length::from_millimetres(millimetres))
    }

    fn is_near(value: f64, wanted: f64) -> bool {
        (value / wanted - 1.0).abs() < 1e-9
    }

    /// 200 pixels are 1 mm, so a crossing comes every 0.32 mm: 3125 in a metre. Shares of 1 %, 1 % and 3 % add to √11 %. Analytic.
    #[test]
    fn crossings_follow_from_the_diameter_with_all_errors() {
        let crossings = reading().crossings(by_diameter(1.0, 30.0)).unwrap();
        assert!(is_near(crossings.value, 3125.0), "{crossings:?}");
        let share = crossings.error / crossings.value;
        assert!(is_near(share, sqrt(11.0) / 100.0), "{share}");
    }

    /// 2000 pixels on 10 mm of a rule: 200 pixels are 1 mm again. The rule is off by √2 · 4 of 2000 pixels. Analytic.
    #[test]
    fn a_rule_gives_crossings_and_the_diameter() {
        let scale = by_rule(2000.0, 10.0);
        let rule = sqrt(2.0) * 4.0 / 2000.0;
        let crossings = reading().crossings(scale).unwrap();
        assert!(is_near(crossings.value, 3125.0), "{crossings:?}");
        assert!(is_near(crossings.error / 3125.0, hypot(0.01, rule)));
        let diameter = reading().diameter(scale).unwrap();
        assert!(is_near(diameter.value, 1e-3), "{diameter:?}");
        assert!(is_near(diameter.error / 1e-3, hypot(0.01, rule)));
        // Drawn the other way it is the same rule.
        let PhotoScale::Rule(line, length) = scale else {
            unreachable!()
        };
        let back = PhotoScale::Rule(line.reversed(), length);
        assert_eq!(reading().crossings(back), Some(crossings));
    }

    #[test]
    fn a_diameter_as_scale_is_the_diameter() {
        let diameter = reading().diameter(by_diameter(1.05, 15.0)).unwrap();
        assert!(is_near(diameter.value, 1.05e-3), "{diameter:?}");
        assert!(is_near(diameter.error, 15e-6), "{diameter:?}");
    }

    #[test]
    fn without_crossings_or_with_no_scale_there_is_nothing() {
        let mut reading = reading();
        for none in [
            by_diameter(0.0, 15.0),
            by_diameter(-1.0, 15.0),
            by_diameter(f64::NAN, 15.0),
            by_diameter(1.0, f64::INFINITY),
            by_rule(0.0, 10.0),
            by_rule(2000.0, 0.0),
            by_rule(f64::NAN, 10.0),
        ] {
            assert_eq!(reading.crossings(none), None, "{none:?}");
            assert_eq!(reading.diameter(none), None, "{none:?}");
        }
        reading.spacing = Estimate::default();
        assert_eq!(reading.crossings(by_diameter(1.0, 15.0)), None);
        assert!(reading.diameter(by_diameter(1.0, 15.0)).is_some());
        reading.spacing = estimate(0.0, 1.0);
        assert_eq!(reading.crossings(by_diameter(1.0, 15.0)), None);
        reading.diameter = estimate(0.0, 0.0);
        assert_eq!(reading.diameter(by_rule(2000.0, 10.0)), None);
    }
}
