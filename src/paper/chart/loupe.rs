//! The loupe beside a finger: where it is, and what it shows.

use super::grip::ChartPoint;

/// Its radius, in pixels.
pub const RADIUS: f64 = 52.0;
/// How many times it magnifies.
const TIMES: f64 = 2.5;
/// Radius of the dot that marks the point, in pixels.
pub const SPOT: f64 = 3.0 * TIMES;
/// From the finger's tip to its centre: a fingertip covers some 20 pixels around itself.
const AWAY: f64 = 100.0;

/// The centre of the loupe for a handle at a point, on a chart of this size: above the finger, or beside it where there is
/// no room above, on the side with more room.
pub fn place((x, y): ChartPoint, (width, height): (f64, f64)) -> ChartPoint {
    let held = |value: f64, room: f64| value.min(room - RADIUS).max(RADIUS);
    if y - AWAY >= RADIUS {
        return (held(x, width), y - AWAY);
    }
    let beside = if x < width / 2.0 { x + AWAY } else { x - AWAY };
    (held(beside, width), held(y, height))
}

/// What it shows: the part of the chart around the point, as an SVG view box.
pub fn view_box((x, y): ChartPoint) -> String {
    let reach = RADIUS / TIMES;
    format!(
        "{:.1} {:.1} {:.1} {:.1}",
        x - reach,
        y - reach,
        2.0 * reach,
        2.0 * reach
    )
}
