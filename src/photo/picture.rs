//! The brightness of a picture.

use super::grid::Grid;

/// Most pixels of a picture that is worked on: larger ones are scaled down first.
pub const MOST_PIXELS: usize = 2_000_000;

/// Shares of red, green and blue in brightness. Source: ITU-R BT.601.
const SHARES: [f32; 3] = [0.299, 0.587, 0.114];

/// Brightness of each pixel, row by row, 0 for black to 1 for white.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    pub(super) light: Grid,
}

impl Picture {
    /// From four bytes a pixel, red, green, blue and opacity, row by row. `None` where the bytes are not so many, or there are more
    /// than [`MOST_PIXELS`].
    pub fn from_rgba(width: usize, height: usize, bytes: &[u8]) -> Option<Self> {
        let pixels = width.checked_mul(height)?;
        if pixels > MOST_PIXELS || bytes.len() != pixels.checked_mul(4)? {
            return None;
        }
        let light = bytes.chunks_exact(4).map(|pixel| {
            let shares = SHARES.iter().zip(pixel);
            let sum: f32 = shares.map(|(share, byte)| share * f32::from(*byte)).sum();
            sum / 255.0
        });
        let light = Grid::from_values(width, height, light.collect());
        Some(Self { light })
    }

    /// Pixels from side to side.
    pub const fn width(&self) -> usize {
        self.light.width
    }

    /// Pixels from top to bottom.
    pub const fn height(&self) -> usize {
        self.light.height
    }
}
