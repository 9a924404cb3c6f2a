//! A fan of straight lines at the braid angle, to hold a line against.

use crate::base::units::Angle;

/// Size of the fan, in pixels.
pub const SIZE: (f64, f64) = (300.0, 190.0);
/// Length of a solid line at the angle made, in pixels.
pub const SOLID: f64 = 140.0;
/// Length of a dashed line at the angle wanted, in pixels: longer, so that its ends are seen where both agree.
pub const DASHED: f64 = 184.0;

/// A straight line between two points, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Where it begins: from the left, from the top.
    pub from: (f64, f64),
    /// Where it ends.
    pub to: (f64, f64),
}

/// Two lines of this length that cross in the middle of the fan at ± an angle to the axis, which lies level; the one that
/// rises to the right comes first. 0° to 90°. Analytic.
pub fn fan(angle: Angle, length: f64) -> [Segment; 2] {
    let (sine, cosine) = angle.radians().sin_cos();
    let (across, up) = (0.5 * length * cosine, 0.5 * length * sine);
    let (x, y) = (0.5 * SIZE.0, 0.5 * SIZE.1);
    [up, -up].map(|up| Segment {
        from: (x - across, y + up),
        to: (x + across, y - up),
    })
}
