//! The label beside the hand: what the line is like where it points. It never lies beneath a finger, and never off the chart.

use super::grip::ChartPoint;
use super::loupe;
use crate::base::units::Length;
use crate::base::units::show::{self, Units};
use crate::plan::Plan;

/// How many lines of words it has, and the height of each, in pixels.
const LINES: usize = 4;
const LINE: f64 = 20.0;
/// Room round the words, in pixels.
const ROOM: f64 = 8.0;
/// Pixels one character takes at most.
const CHARACTER: f64 = 8.4;
/// Distance from a mouse, in pixels, and from the middle of a finger, which covers some 20 pixels round itself.
const FROM_MOUSE: f64 = 16.0;
const FROM_FINGER: f64 = 34.0;

/// What is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tag {
    /// Line by line: place, size, threads, gear and angle.
    pub lines: [String; LINES],
}

impl Tag {
    /// Of a place on the line, where it is drawn so thick.
    pub fn of(plan: &Plan, at: Length, drawn: Length, units: Units) -> Self {
        let station = plan.station(at);
        let threads = station.piece.load.threads;
        let lines = [
            units.show_position(at),
            units.show_diameter_short(drawn),
            format!("{threads} threads"),
            format!(
                "gear {}, {}",
                station.piece.wheels,
                show::angle(station.braid.angle)
            ),
        ];
        Self { lines }
    }

    /// Its width and height, in pixels.
    pub fn size(&self) -> (f64, f64) {
        let longest = self.lines.iter().map(|line| line.chars().count()).max();
        let width = longest.unwrap_or_default() as f64 * CHARACTER;
        (width + 2.0 * ROOM, LINES as f64 * LINE + ROOM)
    }
}

/// The foot of each line, in pixels below the tag's upper edge.
pub const FEET: [f64; LINES] = [19.0, 39.0, 59.0, 79.0];
/// Where the lines begin, in pixels right of the tag's left edge.
pub const INDENT: f64 = ROOM;

/// The upper left corner of a tag of this size for a hand at a point, on a chart of this size. A hand that covers the point has a
/// loupe beside it: the tag is beside that.
pub fn place(
    hand: ChartPoint,
    (width, height): (f64, f64),
    chart: (f64, f64),
    is_covered: bool,
) -> ChartPoint {
    let held = |x: f64, y: f64| {
        (
            x.min(chart.0 - width).max(0.0),
            y.min(chart.1 - height).max(0.0),
        )
    };
    let (x, y) = hand;
    let away = if is_covered { FROM_FINGER } else { FROM_MOUSE };
    let glass = loupe::place(hand, chart);
    let beside = loupe::RADIUS + 6.0;
    let by_hand = [
        (x + away, y - away - height),
        (x - away - width, y - away - height),
        (x + away, y - height / 2.0),
        (x - away - width, y - height / 2.0),
        (x - width / 2.0, y - away - height),
        (x - width / 2.0, y + away),
    ];
    let by_glass = [
        (glass.0 + beside, glass.1 - height / 2.0),
        (glass.0 - beside - width, glass.1 - height / 2.0),
        (glass.0 - width / 2.0, glass.1 - beside - height),
    ];
    let (right, foot) = (chart.0 - width, chart.1 - height);
    let corners = [(0.0, 0.0), (right, 0.0), (0.0, foot), (right, foot)];
    let wished = by_glass
        .into_iter()
        .filter(|_| is_covered)
        .chain(by_hand)
        .chain(corners)
        .map(|(x, y)| held(x, y));
    let is_clear = |&(left, top): &ChartPoint| {
        let apart = |(x, y): ChartPoint| {
            let right = (left - x).max(x - left - width).max(0.0);
            right.hypot((top - y).max(y - top - height).max(0.0))
        };
        let is_off_glass = !is_covered || apart(glass) >= loupe::RADIUS;
        apart(hand) >= away * 0.6 && is_off_glass
    };
    // On a very small chart nothing is clear of everything: then it is at the top.
    let clear = wished.into_iter().find(is_clear);
    clear.unwrap_or_else(|| held(x - width / 2.0, 0.0))
}
