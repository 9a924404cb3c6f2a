//! A braid found in a picture.

use core::f64::consts::PI;

use super::axis::Axis;
use super::edges::EdgePair;
use super::spacing::Spacing;
use super::surface::Surface;

/// A braid found in a picture.
pub(super) struct Found {
    /// Its axis with its straight edges.
    pub(super) axis: Axis,
    /// Its edges piece by piece.
    pub(super) pairs: Vec<EdgePair>,
    /// Its surface laid flat.
    pub(super) surface: Surface,
    /// From one crossing to the next.
    pub(super) spacing: Spacing,
}

impl Found {
    /// Tangent of the angle at which threads lie whose wave turns so often round the braid.
    pub(super) fn steepness(&self, turns: f64) -> f64 {
        2.0 * PI * self.surface.radius / (turns * self.spacing.samples)
    }
}
