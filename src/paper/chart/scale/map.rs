//! The scale itself: what it shows, and the way from a place on the line to its pixel and back.

use super::bands::Bands;
use super::folds::Folds;
use crate::base::units::show::Units;
use crate::base::units::text::Unit;
use crate::base::units::{Angle, Length};
use crate::design::Design;
use crate::paper::chart::visible_range::VisibleRange;
use crate::plan::Plan;

/// Room left of the bands for their figures, in pixels.
pub const LEFT: f64 = 64.0;
/// Room right of them: half a touch target, so that the last point can be grabbed.
pub const RIGHT: f64 = 26.0;
/// How far below the profile its dimension lines run, on a card.
pub const DIMENSION_LINE: f64 = 32.0;
/// Diameter shown beyond the thickest place, so that it can be drawn thicker.
pub(super) const SPARE: f64 = 1.3;
/// The angle strip shows at least this many tolerances either side of the target.
const TOLERANCES_SHOWN: f64 = 1.8;

/// Everything that maps a place on the line to a place on the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Width of the whole chart, in pixels.
    pub width: f64,
    /// Height of the whole chart, in pixels.
    pub height: f64,
    /// Units of the figures.
    pub units: Units,
    /// Paper from the tip to the left edge of the bands.
    pub from: Length,
    /// Paper shown across the bands.
    pub length: Length,
    /// Level stretches drawn short.
    pub folds: Folds,
    /// The diameter that thickness begins at; 0 where all of it is drawn.
    pub core: Length,
    /// Diameter that fills the profile band.
    pub diameter: Length,
    /// Standard threads of the highest bar.
    pub threads: f64,
    /// The angle aimed at.
    pub target: Angle,
    /// How far from it the angle may be.
    pub tolerance: Angle,
    /// How far from it the strip reaches.
    pub reach: Angle,
    pub(super) bands: Bands,
}

impl Scale {
    /// A scale that shows the whole of a plan on a chart of this size, in pixels: all lengths alike, and true thickness.
    pub fn of(design: &Design, plan: &Plan, units: Units, (width, height): (f64, f64)) -> Self {
        let thickest = design.taper().thickest().max(plan.belly.dressed.diameter);
        let tolerance = design.angle_tolerance();
        Self {
            width,
            height,
            units,
            from: Length::ZERO,
            length: VisibleRange::whole(plan.length).length,
            folds: Folds::NONE,
            core: Length::ZERO,
            diameter: thickest * SPARE,
            threads: plan
                .staircase
                .most()
                .max(f64::from(design.track().carriers())),
            target: design.target_angle(),
            tolerance,
            reach: (tolerance * TOLERANCES_SHOWN).max(plan.worst_angle.off * 1.25),
            bands: Bands::on_screen((width, height)),
        }
    }

    /// This scale for the picture on a card.
    #[must_use]
    pub fn on_card(mut self) -> Self {
        self.bands = Bands::on_card(self.height);
        self
    }

    /// This scale, with room also for another line of this length, diameter and number of standard threads. Before anything is
    /// folded or cut.
    #[must_use]
    pub fn with_room_for(mut self, length: Length, diameter: Length, threads: f64) -> Self {
        self.length = self.length.max(VisibleRange::whole(length).length);
        self.diameter = self.diameter.max(diameter * SPARE);
        self.threads = self.threads.max(threads);
        self
    }

    /// This scale of a whole line, with these stretches of it drawn short.
    #[must_use]
    pub fn with_folds(mut self, folds: Folds) -> Self {
        let longest = VisibleRange::line_of(self.length);
        self.folds = folds;
        self.length = VisibleRange::whole(folds.paper_of(longest)).length;
        self
    }

    /// This scale, but with the paper of the one before wherever that still fits: after a small change nothing moves
    /// from under the finger.
    #[must_use]
    pub fn keeping_paper_of(mut self, before: &Self) -> Self {
        let is_as_wide = before.width == self.width;
        let folds = self.folds.keeping(&before.folds);
        let is_folded_alike = self.folds.is_empty() == before.folds.is_empty();
        if is_as_wide && folds != self.folds {
            self.length += self.paper_lost(folds);
            self.folds = folds;
        }
        let share_of_length = self.length / before.length;
        if before.from == Length::ZERO && is_folded_alike && (0.7..=1.03).contains(&share_of_length)
        {
            self.length = before.length;
        }
        let share_of_reach = self.reach / before.reach;
        if (0.6..=1.0).contains(&share_of_reach) {
            self.reach = before.reach;
        }
        self.keep_thickness_of(before);
        self
    }

    /// How much more paper the whole takes with other folds.
    fn paper_lost(&self, folds: Folds) -> Length {
        let end = self.folds.at_of(VisibleRange::line_of(self.length));
        VisibleRange::whole(folds.paper_of(end)).length - self.length
    }

    /// The part of the paper shown.
    pub fn visible(&self) -> VisibleRange {
        VisibleRange {
            from: self.from,
            length: self.length,
        }
    }

    /// This scale with another part of the paper visible.
    #[must_use]
    pub fn with_visible(mut self, range: VisibleRange) -> Self {
        (self.from, self.length) = (range.from, range.length);
        self
    }

    /// Whether a place on the line is visible.
    pub fn shows(&self, at: Length) -> bool {
        // A thousandth more, so that an end of the line at an edge is seen.
        let x = (self.paper_of(at) - self.from) / self.length;
        (-0.001..=1.001).contains(&x)
    }

    /// Paper from the tip to a place on the line.
    pub fn paper_of(&self, at: Length) -> Length {
        self.folds.paper_of(at)
    }

    /// Width of the bands, in pixels.
    pub fn band_width(&self) -> f64 {
        (self.width - LEFT - RIGHT).max(60.0)
    }

    /// The right edge of the bands, in pixels from the left of the chart.
    pub fn right(&self) -> f64 {
        LEFT + self.band_width()
    }

    /// Pixels of a metre of paper.
    pub fn pixels_per_metre(&self) -> f64 {
        self.band_width() / self.length.metres()
    }

    /// Pixels from the left of a place on the line.
    pub fn x_of(&self, at: Length) -> f64 {
        LEFT + (self.paper_of(at) - self.from) / self.length * self.band_width()
    }

    /// The place on the line at `x` pixels from the left; may be beyond either end.
    pub fn at_of(&self, x: f64) -> Length {
        self.folds.at_of(self.paper_at(x))
    }

    /// Paper from the tip to `x` pixels from the left.
    pub fn paper_at(&self, x: f64) -> Length {
        self.from + self.length * ((x - LEFT) / self.band_width())
    }

    /// From where to where a part of the line is drawn, in pixels, cut off at the edges; `None` where it is out of view.
    pub fn seen(&self, (from, to): (Length, Length)) -> Option<(f64, f64)> {
        let (from, to) = (self.x_of(from), self.x_of(to));
        (to > LEFT && from < self.right()).then(|| (from.max(LEFT), to.min(self.right())))
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
}
