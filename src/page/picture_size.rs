//! How large a photograph is worked on, and which part of it is saved with a swatch.

use crate::photo::{Line, MOST_PIXELS};

/// The longest side that is worked on, pixels. Our own choice: every browser has canvases of this length.
pub const LONGEST_SIDE: f64 = 8192.0;

/// The size of a picture within [`MOST_PIXELS`] and [`LONGEST_SIDE`], in the same shape: width and height, pixels.
pub fn fitted(width: u32, height: u32) -> (u32, u32) {
    let (wide, high) = (f64::from(width), f64::from(height));
    let by_area = libm::sqrt(MOST_PIXELS as f64 / (wide * high).max(1.0));
    let scale = by_area.min(LONGEST_SIDE / wide.max(high)).min(1.0);
    (whole(wide * scale), whole(high * scale))
}

/// The sizes on the way to the fitted one, which is the last. Each is half of the one before, but for the last. A browser that
/// halves a picture takes the mean of four pixels; in one step it would leave out most of them, and threads would look like others.
pub fn steps(width: u32, height: u32) -> Vec<(u32, u32)> {
    let end = fitted(width, height);
    let mut sizes = Vec::new();
    let mut now = (width, height);
    while now.0 / 2 > end.0 && now.1 / 2 > end.1 {
        now = (now.0 / 2, now.1 / 2);
        sizes.push(now);
    }
    sizes.push(end);
    sizes
}

/// At least one pixel.
// The numbers are between 1 and 2³².
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(pixels: f64) -> u32 {
    pixels.max(1.0) as u32
}

/// A part of a picture, pixels from its upper left corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PictureCrop {
    /// Its left side.
    pub left: f64,
    /// Its upper side.
    pub top: f64,
    /// From left to right.
    pub width: f64,
    /// From top to bottom.
    pub height: f64,
}

/// Space left round the braid, as a share of its diameter. Our own choice.
const MARGIN: f64 = 0.5;

impl PictureCrop {
    /// All of a picture.
    pub fn all(width: u32, height: u32) -> Self {
        Self {
            left: 0.0,
            top: 0.0,
            width: f64::from(width),
            height: f64::from(height),
        }
    }

    /// The part of a picture round the braid with these edges. All of it where the edges are outside.
    pub fn round_edges(edges: [Line; 2], width: u32, height: u32) -> Self {
        let all = Self::all(width, height);
        let ends = edges.map(|edge| [edge.from, edge.to]).concat();
        let [one, other] = edges.map(|edge| edge.from.half_way(edge.to));
        let margin = MARGIN * Line::new(one, other).length();
        let range = |places: Vec<f64>, most: f64| {
            let low = places.iter().copied().fold(most, f64::min) - margin;
            let high = places.iter().copied().fold(0.0, f64::max) + margin;
            let (low, high) = (libm::floor(low.max(0.0)), libm::ceil(high.min(most)));
            (high - low >= 1.0).then_some((low, high - low))
        };
        let across = range(ends.iter().map(|end| end.x).collect(), all.width);
        let down = range(ends.iter().map(|end| end.y).collect(), all.height);
        match (across, down) {
            (Some((left, width)), Some((top, height))) => Self {
                left,
                top,
                width,
                height,
            },
            _ => all,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::photo::Point;

    #[test]
    fn a_picture_keeps_its_shape_and_is_small_enough() {
        // 50 megapixels of a telephone, 2 : 1 panorama, a small one, and strange ones.
        for (width, height) in [
            (8165, 6124),
            (16_000, 8000),
            (640, 480),
            (1, 1),
            (1, 60_000),
            (60_000, 1),
            (u32::MAX, u32::MAX),
            (u32::MAX, 1),
            (0, 0),
        ] {
            let (wide, high) = fitted(width, height);
            assert!(wide >= 1 && high >= 1);
            assert!(
                wide as usize * high as usize <= MOST_PIXELS,
                "{width} {height}"
            );
            assert!(
                f64::from(wide.max(high)) <= LONGEST_SIDE,
                "{width} {height}"
            );
        }
        assert_eq!(fitted(640, 480), (640, 480));
        let (wide, high) = fitted(8165, 6124);
        let shape = f64::from(wide) / f64::from(high);
        assert!((shape / (8165.0 / 6124.0) - 1.0).abs() < 1e-3);
        assert!(wide * high > 1_990_000);
    }

    #[test]
    fn a_picture_is_halved_until_one_smaller_step_is_left() {
        assert_eq!(steps(640, 480), [(640, 480)]);
        assert_eq!(
            steps(8000, 6000),
            [(4000, 3000), (2000, 1500), (1632, 1224)]
        );
        assert_eq!(steps(1, 60_000), [(1, 8192)]);
        assert_eq!(steps(0, 0), [(1, 1)]);
        assert_eq!(steps(u32::MAX, u32::MAX).len(), 22);
    }

    #[test]
    fn the_part_round_the_braid_is_in_the_picture() {
        let edge = |y: f64| Line::new(Point::new(0.0, y), Point::new(100.0, y));
        let part = PictureCrop::round_edges([edge(40.0), edge(60.0)], 100, 80);
        let expected = PictureCrop {
            left: 0.0,
            top: 30.0,
            width: 100.0,
            height: 40.0,
        };
        assert_eq!(part, expected);
        let all = PictureCrop::all(100, 80);
        for y in [f64::NAN, f64::INFINITY, 1e300, -1e300] {
            let part = PictureCrop::round_edges([edge(y), edge(y)], 100, 80);
            assert!(
                part.left >= 0.0 && part.left + part.width <= 100.0,
                "{y}: {part:?}"
            );
            assert!(
                part.top >= 0.0 && part.top + part.height <= 80.0,
                "{y}: {part:?}"
            );
        }
        assert_eq!(
            PictureCrop::round_edges([edge(900.0), edge(900.0)], 100, 80),
            all
        );
    }
}
