//! A line small and whole, as seen from the side: for choosing among several.

use super::path::Path;
use crate::base::units::Length;
use crate::braid::taper::Taper;

/// A picture with the length and the diameter that fill it. Lines drawn with the same frame can be compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Width, in pixels.
    pub width: f64,
    /// Height, in pixels.
    pub height: f64,
    /// Length of a line as long as the picture is wide; above 0.
    pub longest: Length,
    /// Diameter of a line as thick as the picture is high; above 0.
    pub thickest: Length,
}

impl Frame {
    /// The frame of this size that the longest and the thickest of these lines fill; without lines, one of 1 m and 1 mm.
    pub fn around(tapers: &[Taper], (width, height): (f64, f64)) -> Self {
        let greatest = |of: fn(&Taper) -> Length| tapers.iter().map(of).reduce(Length::max);
        Self {
            width,
            height,
            longest: greatest(Taper::length).unwrap_or(Length::from_metres(1.0)),
            thickest: greatest(Taper::thickest).unwrap_or(Length::from_millimetres(1.0)),
        }
    }
}

/// The drawing as a closed silhouette, tip at the left edge, its axis half-way down.
pub fn outline(taper: &Taper, frame: &Frame) -> String {
    let middle = 0.5 * frame.height;
    let edge = taper.points().iter().map(|point| {
        let along = frame.width * (point.at / frame.longest);
        (along, middle * (point.diameter / frame.thickest))
    });
    let mut path = Path::default();
    for (x, half) in edge.clone() {
        path.to(x, middle - half);
    }
    for (x, half) in edge.rev() {
        path.to(x, middle + half);
    }
    path.shut();
    path.open()
}
