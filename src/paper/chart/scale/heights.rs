//! Where things are from top to bottom: the bands of the chart, and places in those of threads and angle.

use super::bands::{Band, NARROW};
use super::map::Scale;
use crate::base::units::Angle;

impl Scale {
    /// The band of the profile.
    pub fn profile(&self) -> Band {
        self.bands.all()[0]
    }

    /// The band of the threads.
    pub fn staircase(&self) -> Band {
        self.bands.all()[1]
    }

    /// The band of the gears.
    pub fn gears(&self) -> Band {
        self.bands.all()[2]
    }

    /// The band of the angle.
    pub fn angles(&self) -> Band {
        self.bands.all()[3]
    }

    /// The bands that are drawn, top to bottom.
    pub fn drawn_bands(&self) -> &[Band] {
        self.bands.drawn()
    }

    /// Whether threads and gears are drawn.
    pub fn has_threads(&self) -> bool {
        self.bands.drawn().len() > 1
    }

    /// Whether the angle strip is drawn.
    pub fn has_angles(&self) -> bool {
        self.bands.drawn().len() > 3
    }

    /// Whether the chart is as narrow as a telephone held upright.
    pub fn is_narrow(&self) -> bool {
        self.width < NARROW
    }

    /// The lower edge of the lowest band that is drawn.
    pub fn foot(&self) -> f64 {
        let bands = self.bands.drawn();
        bands[bands.len() - 1].bottom()
    }

    /// Pixels from the top of the bar of a thread count.
    pub fn y_of_threads(&self, threads: f64) -> f64 {
        let (band, cell) = (self.staircase(), self.bands.cell);
        let height = (threads / self.threads * band.height * 0.9).min(band.height);
        band.bottom() - height.max(cell)
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
}
