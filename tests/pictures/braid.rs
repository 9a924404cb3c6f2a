//! Braids to be drawn, and the way from their pictures back to the unrolled surface.

use core::f64::consts::PI;

use taperwright::base::units::{Angle, Length};
use taperwright::braid::track::Pattern;
use taperwright::paper::chart::braid_view::{BraidView, SIZE, Surface};
use taperwright::paper::chart::ring::MountedCarrier;

use crate::outline::Point;
use crate::{all_on, ring};

/// Diameter of the thread's path in the braids drawn here.
pub(crate) const PATH: Length = Length::from_millimetres(0.8);

/// A braid of standard threads of 12 ends whose width is a share of what would make them touch at 45°.
pub(crate) fn view(
    carriers: u32,
    pattern: Pattern,
    mounted: &[MountedCarrier],
    degrees: f64,
    share: f64,
) -> BraidView {
    BraidView::of(&Surface {
        ring: ring(carriers, pattern),
        mounted,
        path_diameter: PATH,
        angle: Angle::from_degrees(degrees),
        thread_width: width(carriers, share),
        thread_ends: 12,
    })
}

/// Analytic: n threads that touch at 45° share the round at right angles to them, π D cos 45°.
pub(crate) fn width(carriers: u32, share: f64) -> Length {
    PATH * (share * PI * 0.5_f64.sqrt() / f64::from(carriers / 2))
}

pub(crate) fn full(carriers: u32, pattern: Pattern) -> BraidView {
    view(carriers, pattern, &all_on(carriers), 45.0, 0.8)
}

/// Turns a point of the picture back into a place on the unrolled surface: along it and round it, in pixels.
pub(crate) fn unrolled(drawn: &BraidView, (x, y): Point) -> Point {
    let radius = radius(drawn);
    let up = ((y - SIZE.1 / 2.0) / radius).clamp(-1.0, 1.0);
    (x, radius * up.asin())
}

pub(crate) fn radius(drawn: &BraidView) -> f64 {
    0.5 * (drawn.body.1 - drawn.body.0)
}

/// The place on the picture of a place on the unrolled surface.
pub(crate) fn rolled(drawn: &BraidView, along: f64, round: f64) -> Point {
    let radius = radius(drawn);
    (along, SIZE.1 / 2.0 + radius * (round / radius).sin())
}
