//! Where things are on the chart: three bands over one axis of length.
//!
//! The scale stays after a change as long as the line still fits, so that nothing moves under the finger. Zooming enlarges lengths
//! only and leaves thickness, so that a slope is never judged by two scales; the caption says by how much thickness is enlarged. Low
//! charts give up bands from below: first the angle strip, then the staircase.

use plotters::coord::ranged1d::{BoldPoints, Ranged};
use plotters::coord::types::RangedCoordf64;

use super::visible_range::VisibleRange;
use crate::base::units::show::{Units, trimmed};
use crate::base::units::text::Unit;
use crate::base::units::{Angle, Length};
use crate::braid::threads::Build;
use crate::design::Design;
use crate::plan::Plan;

/// Room left of the bands for their figures, in pixels.
pub const LEFT: f64 = 54.0;
/// Height of one line of figures, in pixels.
const LINE_HEIGHT: f64 = 16.0;
/// Room one figure takes along the axis of length, in pixels.
const WIDTH_PER_FIGURE: f64 = 70.0;
/// Room right of them: half a touch target, so that the last point can be grabbed.
pub const RIGHT: f64 = 26.0;
/// Room above the profile for the bracket of the weighed head.
const TOP: f64 = 42.0;
/// Room between profile and staircase: the profile's caption, the dimension lines, and the staircase's caption.
const DIMENSIONS: f64 = 72.0;
/// How far below the profile its dimension lines run.
pub const DIMENSION_LINE: f64 = 32.0;
/// Room between staircase and angle strip, for a caption.
const BETWEEN: f64 = 30.0;
/// Room below for the axis of length.
const BOTTOM: f64 = 42.0;
/// Share of the bands' height that each takes: profile, staircase, angle; by how many there are.
const SHARES: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.72, 0.28, 0.0], [0.6, 0.19, 0.21]];
/// Below these heights, in pixels, the angle strip, and the staircase too, give their room to the profile: more bands would
/// be too low to read and to sketch in.
const NO_ANGLES_BELOW: f64 = 330.0;
const NO_THREADS_BELOW: f64 = 250.0;
/// Room below a lone profile for the figures of the axis of length.
const LONE_BOTTOM: f64 = 24.0;
/// Diameter shown beyond the thickest place, so that it can be drawn thicker.
const SPARE_DIAMETER: f64 = 1.3;
/// The angle strip shows at least this many tolerances either side of the target.
const TOLERANCES_SHOWN: f64 = 1.8;

/// A horizontal strip of the chart, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its upper edge.
    pub top: f64,
    /// Its height.
    pub height: f64,
}

impl Band {
    /// Its lower edge.
    pub fn bottom(&self) -> f64 {
        self.top + self.height
    }

    /// Halfway down.
    pub fn middle(&self) -> f64 {
        self.top + self.height / 2.0
    }
}

/// Everything that maps a place on the line to a place on the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Width of the whole chart, in pixels.
    pub width: f64,
    /// Height of the whole chart, in pixels.
    pub height: f64,
    /// Units of the figures.
    pub units: Units,
    /// Distance from the tip at the left edge of the bands.
    pub from: Length,
    /// Length shown across the bands.
    pub length: Length,
    /// Diameter that fills the profile band.
    pub diameter: Length,
    /// Standard threads at the top of the staircase.
    pub threads: f64,
    /// Whether some threads are heavier and count as more than one.
    pub by_yarn: bool,
    /// The angle aimed at.
    pub target: Angle,
    /// How far from it the angle may be.
    pub tolerance: Angle,
    /// How far from it the strip reaches.
    pub reach: Angle,
}

/// A figure on an axis: where, in pixels, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Pixels along the axis.
    pub at: f64,
    /// The figure.
    pub label: String,
}

impl Scale {
    /// The part of the line shown.
    pub fn visible(&self) -> VisibleRange {
        VisibleRange {
            from: self.from,
            length: self.length,
        }
    }

    /// This scale with another part of the line visible.
    #[must_use]
    pub fn with_visible(mut self, range: VisibleRange) -> Self {
        (self.from, self.length) = (range.from, range.length);
        self
    }

    /// Whether a place on the line is visible.
    pub fn shows(&self, at: Length) -> bool {
        // A thousandth more, so that an end of the line at an edge is seen.
        let x = (at - self.from) / self.length;
        (-0.001..=1.001).contains(&x)
    }

    /// How many bands are drawn: the profile; with it the staircase; with both the angle strip.
    pub fn band_count(&self) -> usize {
        if self.height < NO_THREADS_BELOW {
            1
        } else if self.height < NO_ANGLES_BELOW {
            2
        } else {
            3
        }
    }

    /// Whether the staircase is drawn.
    pub fn has_threads(&self) -> bool {
        self.band_count() > 1
    }

    /// Whether the angle strip is drawn.
    pub fn has_angles(&self) -> bool {
        self.band_count() > 2
    }

    /// A scale that shows the whole of a plan on a chart of this size, in pixels.
    pub fn of(design: &Design, plan: &Plan, units: Units, (width, height): (f64, f64)) -> Self {
        let thickest = design.taper().thickest().max(plan.belly.dressed.diameter);
        let tolerance = design.angle_tolerance();
        Self {
            width,
            height,
            units,
            from: Length::ZERO,
            length: VisibleRange::whole(plan.length).length,
            diameter: thickest * SPARE_DIAMETER,
            threads: plan
                .staircase
                .most()
                .max(f64::from(design.track().carriers())),
            by_yarn: plan.supply.build != Build::MoreThreads,
            target: design.target_angle(),
            tolerance,
            reach: (tolerance * TOLERANCES_SHOWN).max(plan.worst_angle.off * 1.25),
        }
    }

    /// This scale, with room also for another line of this length, diameter and number of standard threads.
    #[must_use]
    pub fn with_room_for(mut self, length: Length, diameter: Length, threads: f64) -> Self {
        self.length = self.length.max(VisibleRange::whole(length).length);
        self.diameter = self.diameter.max(diameter * SPARE_DIAMETER);
        self.threads = self.threads.max(threads);
        self
    }

    /// This scale, but with the paper of the one before wherever that still fits: after a small change nothing moves
    /// from under the finger.
    #[must_use]
    pub fn keeping_paper_of(mut self, before: &Self) -> Self {
        let share_of_length = self.length / before.length;
        let share_of_diameter = self.diameter / SPARE_DIAMETER / before.diameter;
        let share_of_reach = self.reach / before.reach;
        if before.from == Length::ZERO && (0.7..=1.03).contains(&share_of_length) {
            self.length = before.length;
        }
        if (0.45..=0.95).contains(&share_of_diameter) {
            self.diameter = before.diameter;
        }
        if (0.6..=1.0).contains(&share_of_reach) {
            self.reach = before.reach;
        }
        self
    }

    /// The band of the profile.
    pub fn profile(&self) -> Band {
        Band {
            top: TOP,
            height: self.band_height(0),
        }
    }

    /// The band of the threads.
    pub fn staircase(&self) -> Band {
        Band {
            top: self.profile().bottom() + DIMENSIONS,
            height: self.band_height(1),
        }
    }

    /// The band of the angle.
    pub fn angles(&self) -> Band {
        Band {
            top: self.staircase().bottom() + BETWEEN,
            height: self.band_height(2),
        }
    }

    /// The bands, top to bottom.
    pub fn bands(&self) -> [Band; 3] {
        [self.profile(), self.staircase(), self.angles()]
    }

    /// The bands that are drawn, top to bottom.
    pub fn drawn_bands(&self) -> Vec<Band> {
        self.bands().into_iter().take(self.band_count()).collect()
    }

    /// The lower edge of the lowest band that is drawn.
    pub fn foot(&self) -> f64 {
        self.bands()[self.band_count() - 1].bottom()
    }

    fn band_height(&self, index: usize) -> f64 {
        let count = self.band_count();
        let below = match count {
            1 => LONE_BOTTOM,
            2 => DIMENSIONS + BOTTOM,
            _ => DIMENSIONS + BETWEEN + BOTTOM,
        };
        (self.height - TOP - below).max(40.0) * SHARES[count - 1][index]
    }

    /// Width of the bands, in pixels.
    pub fn band_width(&self) -> f64 {
        (self.width - LEFT - RIGHT).max(60.0)
    }

    /// Pixels from the left of a place on the line.
    pub fn x_of(&self, at: Length) -> f64 {
        LEFT + (at - self.from) / self.length * self.band_width()
    }

    /// The place on the line at `x` pixels from the left; may be beyond either end.
    pub fn at_of(&self, x: f64) -> Length {
        self.from + self.length * ((x - LEFT) / self.band_width())
    }

    /// Half the drawn thickness of a diameter, in pixels.
    pub fn half_thickness(&self, diameter: Length) -> f64 {
        diameter / self.diameter * self.profile().height / 2.0
    }

    /// The diameter whose edge is this many pixels from the centre line.
    pub fn diameter_of(&self, half_thickness: f64) -> Length {
        self.diameter * (half_thickness * 2.0 / self.profile().height)
    }

    /// Pixels from the top of a thread count.
    pub fn y_of_threads(&self, threads: f64) -> f64 {
        let band = self.staircase();
        band.bottom() - threads / self.threads * band.height * 0.9
    }

    /// Pixels from the top of an angle.
    pub fn y_of_angle(&self, angle: Angle) -> f64 {
        let band = self.angles();
        band.middle() - (angle - self.target) / self.reach * band.height / 2.0
    }

    /// The same, held within the strip: an angle far off must not run across the figures of another band.
    pub fn y_of_angle_held(&self, angle: Angle) -> f64 {
        let band = self.angles();
        self.y_of_angle(angle).clamp(band.top, band.bottom())
    }

    /// How many times larger thickness is drawn than length.
    pub fn magnification(&self) -> f64 {
        (self.profile().height / self.diameter.metres())
            / (self.band_width() / self.length.metres())
    }

    /// Figures along the axis of length.
    pub fn length_ticks(&self) -> Vec<Tick> {
        let (from, to) = self.lengths_shown();
        key_points(from, to, self.length_tick_count())
            .into_iter()
            .map(|value| Tick {
                at: LEFT + (value - from) / (to - from) * self.band_width(),
                label: trimmed(value, 3),
            })
            .collect()
    }

    /// Figures of the profile, upper half: diameters.
    pub fn diameter_ticks(&self) -> Vec<Tick> {
        let most = self.convert_diameter(self.diameter);
        let band = self.profile();
        key_points(-most, most, self.diameter_tick_count())
            .into_iter()
            .filter(|&value| value > 0.0)
            .map(|value| Tick {
                at: band.middle() - value / most * band.height / 2.0,
                label: trimmed(value, 2),
            })
            .collect()
    }

    /// Figures of the staircase: none, half and all carriers.
    pub fn thread_ticks(&self) -> Vec<Tick> {
        [0.0, self.threads / 2.0, self.threads]
            .into_iter()
            .map(|threads| Tick {
                at: self.y_of_threads(threads),
                label: trimmed(threads, 0),
            })
            .collect()
    }

    /// Figures of the angle strip: the target, and both ends of the tolerance where there is room.
    pub fn angle_ticks(&self) -> Vec<Tick> {
        let all = [
            self.target,
            self.target + self.tolerance,
            self.target - self.tolerance,
        ];
        let apart = self.y_of_angle(self.target) - self.y_of_angle(self.target + self.tolerance);
        let shown = if apart < LINE_HEIGHT {
            &all[..1]
        } else {
            &all[..]
        };
        shown
            .iter()
            .map(|&angle| Tick {
                at: self.y_of_angle(angle),
                label: format!("{}°", trimmed(angle.degrees(), 1)),
            })
            .collect()
    }

    /// The lengths at both edges, in the unit of the axis.
    pub fn lengths_shown(&self) -> (f64, f64) {
        let from = self.convert_length(self.from);
        (from, self.convert_length(self.from + self.length))
    }

    /// A length in the unit of the axis.
    pub fn convert_length(&self, length: Length) -> f64 {
        Unit::Metre
            .convert(length.metres(), self.units.position())
            .unwrap_or_default()
    }

    /// A diameter in the unit of the axis.
    pub fn convert_diameter(&self, diameter: Length) -> f64 {
        Unit::Metre
            .convert(diameter.metres(), self.units.diameter())
            .unwrap_or_default()
    }

    /// How many figures fit along the axis of length.
    pub fn length_tick_count(&self) -> usize {
        count_of(self.band_width() / WIDTH_PER_FIGURE)
    }

    /// How many lines of diameter fit the profile, both halves together.
    pub fn diameter_tick_count(&self) -> usize {
        count_of(self.profile().height / 22.0)
    }
}

/// Bounded to what a screen holds.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn count_of(share: f64) -> usize {
    share.clamp(2.0, 40.0) as usize
}

/// Round numbers in a range, at most `most`: those at which plotters draws its grid.
fn key_points(low: f64, high: f64, most: usize) -> Vec<f64> {
    RangedCoordf64::from(low..high).key_points(BoldPoints(most))
}
