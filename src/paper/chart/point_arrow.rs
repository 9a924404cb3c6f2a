//! An arrow on the handle of a control point: which way to move it.

use super::grip::{ChartPoint, Edge};
use super::path::Path;
use crate::edit::turnover::{Influence, Wish};

/// A small move of a point, by which size and place are weighed against each other: millimetres of diameter, metres along the line. Our own
/// choice.
const SMALL_MOVE: (f64, f64) = (0.05, 0.25);
/// Shorter than this share of the longest an arrow says nothing.
const LEAST: f64 = 0.08;
/// Where an arrow begins from the middle of its handle, and the length of the longest, in pixels.
const REACH: (f64, f64) = (15.0, 40.0);
/// Least length of an arrow that is drawn, in pixels: its head has room.
const SHORTEST: f64 = 12.0;
/// Length of a head, and half its breadth.
const HEAD: (f64, f64) = (9.0, 6.0);

/// Which way to move a point, as shares of the longest arrow.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PointArrow {
    /// Towards the rear; towards the tip where negative.
    pub along: f64,
    /// Thicker; thinner where negative.
    pub thicker: f64,
}

/// The arrows of all points, tip first, for a wish. The longest is 1 long.
pub fn arrows(influences: &[Influence], wish: Wish) -> Vec<PointArrow> {
    let sign = wish.sign();
    let (size, place) = SMALL_MOVE;
    let raw = |one: &Influence| PointArrow {
        along: sign * place * one.place.map_or(0.0, |change| change.energy_left),
        thicker: sign * size * one.size.energy_left,
    };
    let raws: Vec<PointArrow> = influences.iter().map(raw).collect();
    let longest = raws.iter().map(PointArrow::length).fold(0.0, f64::max);
    let scaled = |arrow: PointArrow| PointArrow {
        along: arrow.along / longest,
        thicker: arrow.thicker / longest,
    };
    let kept = |arrow: PointArrow| {
        let arrow = scaled(arrow);
        let counts = arrow.length() >= LEAST;
        if counts { arrow } else { PointArrow::default() }
    };
    raws.into_iter().map(kept).collect()
}

impl PointArrow {
    fn length(&self) -> f64 {
        libm::hypot(self.along, self.thicker)
    }

    /// Its path on the chart, from a handle on this edge; empty where it says nothing.
    pub fn path(&self, (x, y): ChartPoint, edge: Edge) -> String {
        let length = self.length();
        if length.is_nan() || length <= 0.0 {
            return String::new();
        }
        let up = match edge {
            Edge::Upper => -1.0,
            Edge::Lower => 1.0,
        };
        let way = (self.along / length, up * self.thicker / length);
        let reach = SHORTEST.max(REACH.1 * length);
        let on = |ahead: f64, aside: f64| {
            (
                x + way.0 * ahead - way.1 * aside,
                y + way.1 * ahead + way.0 * aside,
            )
        };
        let end = REACH.0 + reach;
        let mut path = Path::default();
        let mut stroke = |places: &[(f64, f64)]| {
            path.lift();
            for &(ahead, aside) in places {
                let (x, y) = on(ahead, aside);
                path.to(x, y);
            }
        };
        stroke(&[(REACH.0, 0.0), (end, 0.0)]);
        stroke(&[(end - HEAD.0, -HEAD.1), (end, 0.0), (end - HEAD.0, HEAD.1)]);
        path.open()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::edit::turnover::Change;

    fn influence(size: f64, place: Option<f64>) -> Influence {
        let change = |energy_left: f64| Change {
            energy_left,
            head: None,
        };
        Influence {
            size: change(size),
            place: place.map(change),
        }
    }

    /// Size counts for 0.05 mm, place for 0.25 m: 4 · 0.05 is 0.2, and 0.4 · 0.25 is 0.1.
    #[test]
    fn the_longest_arrow_is_one_and_a_wish_turns_them_all() {
        let influences = [
            influence(4.0, None),
            influence(0.0, Some(-0.4)),
            influence(0.01, None),
        ];
        let more = arrows(&influences, Wish::Farther);
        assert!((more[0].thicker - 1.0).abs() < 1e-12 && more[0].along == 0.0);
        assert!((more[1].along + 0.5).abs() < 1e-12);
        assert_eq!(more[2], PointArrow::default(), "too short to say anything");
        let less = arrows(&influences, Wish::Gentler);
        assert!((less[0].thicker + 1.0).abs() < 1e-12);
        let none = arrows(&[influence(0.0, None)], Wish::Gentler);
        assert_eq!(none[0].path((0.0, 0.0), Edge::Upper), "");
    }

    #[test]
    fn thicker_is_outward_on_both_edges() {
        let arrow = PointArrow {
            along: 0.0,
            thicker: 1.0,
        };
        let at = (100.0, 100.0);
        assert!(arrow.path(at, Edge::Upper).starts_with("M100 85L100 45"));
        assert!(arrow.path(at, Edge::Lower).starts_with("M100 115L100 155"));
        assert_eq!(PointArrow::default().path(at, Edge::Upper), "");
    }
}
