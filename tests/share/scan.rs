//! A code as a camera sees it: its path painted, and read by rqrr, which shares nothing with the writer.

use rqrr::PreparedImage;

/// White squares on each side. Source: ISO/IEC 18004, quiet zone.
pub(crate) const QUIET: usize = 4;
/// Pixels to a square.
const SCALE: usize = 3;

/// A code in black and white, quiet zone included.
pub(crate) struct Painted {
    /// Squares on a side.
    pub(crate) whole: usize,
    /// Which are black, row by row.
    pub(crate) black: Vec<bool>,
}

/// Paints path data of rectangles, `M x y h w v 1 h -w z`, on white of so many squares a side, within its quiet zone.
pub(crate) fn painted(path: &str, whole: usize) -> Painted {
    let mut black = vec![false; whole * whole];
    for rectangle in path.split('z').filter(|piece| !piece.is_empty()) {
        let numbers: Vec<i32> = rectangle
            .split(|c: char| !(c.is_ascii_digit() || c == '-'))
            .filter(|piece| !piece.is_empty())
            .map(|piece| piece.parse().expect("path data holds whole numbers"))
            .collect();
        let [column, row, length, height, back] = numbers[..] else {
            panic!("“{rectangle}” is no rectangle");
        };
        assert_eq!((height, back), (1, -length));
        for square in column..column + length {
            let at = |n: i32| usize::try_from(n).expect("inside the code") + QUIET;
            black[at(row) * whole + at(square)] = true;
        }
    }
    Painted { whole, black }
}

impl Painted {
    /// What it says, and the level of correction as rqrr counts it: 0 is M, 1 is L.
    pub(crate) fn read(&self) -> (u16, String) {
        let is_black = |x, y| self.black[y / SCALE * self.whole + x / SCALE];
        let side = self.whole * SCALE;
        let shade = |x, y| if is_black(x, y) { 0 } else { 255 };
        let mut image = PreparedImage::prepare_from_greyscale(side, side, shade);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "one code in the picture");
        let (meta, text) = grids[0].decode().expect("the code can be read");
        (meta.ecc_level, text)
    }
}
