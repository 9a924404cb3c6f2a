//! A picture at several sizes, each half of the one before: where few pixels are needed, means are read, not single ones.

use super::grid::Grid;
use super::place::Point;

/// A picture and its halves.
pub(super) struct Pyramid {
    levels: Vec<Grid>,
}

impl Pyramid {
    /// Of a picture. Halves go down to sixteen pixels.
    pub(super) fn of(light: &Grid) -> Self {
        let mut levels = vec![light.clone()];
        while let Some(last) = levels
            .last()
            .filter(|last| last.width.min(last.height) >= 32)
        {
            let half = last.halved();
            levels.push(half);
        }
        Self { levels }
    }

    /// The picture itself.
    pub(super) fn whole(&self) -> &Grid {
        &self.levels[0]
    }

    /// The size at which samples so many pixels apart miss nothing: a grid, and how many pixels one of its columns has.
    pub(super) fn for_step(&self, step: f64) -> (&Grid, f64) {
        let mut scale = 1.0;
        let mut level = 0;
        // Between two means of `scale` pixels nothing is missed while the step is below one and a half of them.
        while level + 1 < self.levels.len() && 2.0 * scale <= step * 1.3 {
            scale *= 2.0;
            level += 1;
        }
        (&self.levels[level], scale)
    }
}

/// A place of the picture in a grid whose columns have so many pixels.
pub(super) fn scaled(place: Point, scale: f64) -> Point {
    Point::new(place.x / scale, place.y / scale)
}
