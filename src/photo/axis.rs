//! The axis of a braid in a picture, and places given along it and across it.

use libm::{cos, sin};

use super::band::Band;
use super::grid::Grid;
use super::place::{Line, Point};

/// A braid as it lies in a picture: its axis from end to end, with its two edges as straight lines beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Axis {
    /// A place on the axis.
    pub(super) middle: Point,
    /// Radians from the x axis towards the y axis.
    pub(super) direction: f64,
    /// Where the braid begins and ends, pixels along the axis from the middle.
    pub(super) ends: [f64; 2],
    /// Half of the diameter at the middle, pixels.
    pub(super) radius: f64,
    /// Half of the diameter gained with each pixel along.
    pub(super) taper: f64,
}

/// Least share of the half width, on each side of the axis, that must lie in the picture: threads are followed up to sin 0.85 rad = 0.75 of it.
const SEEN: f64 = 0.8;

impl Axis {
    /// The axis of a band, as far as the picture shows it.
    pub(super) fn of(band: &Band, light: &Grid) -> Option<Self> {
        let axis = Self {
            middle: band.middle,
            direction: band.direction,
            ends: [0.0, 0.0],
            radius: band.half_width,
            taper: 0.0,
        };
        let ends = axis.seen(light)?;
        Some(Self { ends, ..axis })
    }

    /// The same, its middle half-way between its ends, as far as the picture shows it.
    pub(super) fn centred(self, light: &Grid) -> Option<Self> {
        let ends = self.seen(light)?;
        let by = 0.5 * (ends[0] + ends[1]);
        Some(Self {
            middle: self.at(by, 0.0),
            ends: [ends[0] - by, ends[1] - by],
            radius: self.radius_at(by),
            ..self
        })
    }

    /// A place of the picture: pixels along the axis and across it, to the right of its direction as the picture is seen.
    pub(super) fn at(&self, along: f64, across: f64) -> Point {
        let (c, s) = (cos(self.direction), sin(self.direction));
        Point::new(
            self.middle.x + along * c - across * s,
            self.middle.y + along * s + across * c,
        )
    }

    /// Pixels along the axis of a place of the picture.
    pub(super) fn along_of(&self, place: Point) -> f64 {
        let (x, y) = (place.x - self.middle.x, place.y - self.middle.y);
        x * cos(self.direction) + y * sin(self.direction)
    }

    /// Half of the diameter at a place along the axis.
    pub(super) fn radius_at(&self, along: f64) -> f64 {
        (self.radius + self.taper * along).max(0.5)
    }

    /// Pixels from end to end.
    pub(super) fn length(&self) -> f64 {
        self.ends[1] - self.ends[0]
    }

    /// The two edges, both from the first end to the second.
    pub(super) fn edges(&self) -> [Line; 2] {
        [-1.0, 1.0].map(|side| {
            let [from, to] = self
                .ends
                .map(|end| self.at(end, side * self.radius_at(end)));
            Line::new(from, to)
        })
    }

    /// The longest piece of the axis of which the picture shows enough to both sides.
    fn seen(&self, light: &Grid) -> Option<[f64; 2]> {
        let (width, height) = (light.width as f64, light.height as f64);
        let is_seen = |along: i32| {
            let along = f64::from(along);
            [-SEEN, SEEN].into_iter().all(|side| {
                let place = self.at(along, side * self.radius_at(along));
                (0.0..=width).contains(&place.x) && (0.0..=height).contains(&place.y)
            })
        };
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a picture is some thousands of pixels wide"
        )]
        let reach = (width + height).min(1e6) as i32;
        let (mut best, mut start) = (None::<[i32; 2]>, None);
        for along in -reach..=reach + 1 {
            match (start, along <= reach && is_seen(along)) {
                (None, true) => start = Some(along),
                (Some(first), false) => {
                    let is_longest = best.is_none_or(|[from, to]| along - 1 - first > to - from);
                    if is_longest {
                        best = Some([first, along - 1]);
                    }
                    start = None;
                }
                _ => {}
            }
        }
        best.map(|ends| ends.map(f64::from))
    }
}
