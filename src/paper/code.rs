//! A link as a code of black and white squares (QR), for a camera to read off a screen or off paper.
//!
//! A code is printed at most [`LARGEST_MM`] wide, quiet zone included, with squares of at least [`SMALLEST_MODULE_MM`]. That
//! leaves room for version 20 at most. Within it a link is given correction level M (about 15 % of the code may be spoilt,
//! by oil or a crease) where it fits, and level L (about 7 %) where it does not; a higher level is taken only where it costs
//! not one square. So a square stays printable, whatever the level.

use core::fmt::{self, Write as _};

use qrcodegen::{Mask, QrCode, QrCodeEcc, QrSegment, Version};

/// White squares that must be left free on each side. Source: ISO/IEC 18004, section on the quiet zone: 4 modules.
pub const QUIET: u32 = 4;
/// Largest width of a printed code with its quiet zone, in millimetres.
pub const LARGEST_MM: f64 = 35.0;
/// Smallest width of a printed square, in millimetres: what an office printer sets and a telephone reads at a hand's
/// breadth. Common practice, no source.
pub const SMALLEST_MODULE_MM: f64 = 0.33;
/// The largest version with 17 + 4 · 20 = 97 squares a side: with the quiet zone 105, at 0.33 mm 34.65 mm.
const LARGEST_VERSION: u8 = 20;
/// Bytes that version holds at level L. Source: ISO/IEC 18004, table of capacities, byte mode.
const MOST_BYTES: usize = 858;

/// A text that needs more squares than can be printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// Bytes of the text.
    pub bytes: usize,
}

impl TooLong {
    /// Most bytes a code holds.
    pub const MOST: usize = MOST_BYTES;
}

impl fmt::Display for TooLong {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "No code to scan. This line’s link has {} characters. A code that prints clearly at {LARGEST_MM} mm has room for {}. Copy the link, or send the design file.",
            self.bytes,
            Self::MOST
        )
    }
}

/// A code: which of its squares are black.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    size: u32,
    /// Row by row from the upper left.
    squares: Vec<bool>,
}

impl Code {
    /// The code of a text.
    ///
    /// # Errors
    /// [`TooLong`] when its squares would be too small on paper.
    pub fn of(text: &str) -> Result<Self, TooLong> {
        let segments = QrSegment::make_segments(text);
        let at = |level| {
            let (least, most) = (Version::MIN, Version::new(LARGEST_VERSION));
            QrCode::encode_segments_advanced(&segments, level, least, most, None::<Mask>, true)
        };
        at(QrCodeEcc::Medium)
            .or_else(|_| at(QrCodeEcc::Low))
            .map(|code| Self::of_squares(&code))
            .map_err(|_| TooLong { bytes: text.len() })
    }

    fn of_squares(code: &QrCode) -> Self {
        let all = 0..code.size();
        let row = |row: i32| all.clone().map(move |column| code.get_module(column, row));
        Self {
            size: code.size().unsigned_abs(),
            squares: all.clone().flat_map(row).collect(),
        }
    }

    /// Squares on each side, without the quiet zone: 21 to 97.
    pub fn size(&self) -> u32 {
        self.size
    }

    /// Squares on each side, with the quiet zone.
    pub fn whole(&self) -> u32 {
        self.size() + 2 * QUIET
    }

    /// Width of a square in millimetres when the code is printed as large as it may be; at least [`SMALLEST_MODULE_MM`].
    pub fn module_mm(&self) -> f64 {
        LARGEST_MM / f64::from(self.whole())
    }

    /// The black squares as SVG path data, one unit to a square, from the upper left without the quiet zone. Neighbours of
    /// one row are one rectangle, so that no seams show between them.
    pub fn path(&self) -> String {
        let mut path = String::new();
        for (row, squares) in self.squares.chunks(self.size as usize).enumerate() {
            for (from, length) in runs(squares) {
                let _ = write!(path, "M{from} {row}h{length}v1h-{length}z");
            }
        }
        path
    }

    /// The box of the whole code with its quiet zone, in the units of [`Self::path`]: an SVG `viewBox`.
    pub fn view_box(&self) -> String {
        format!("-{QUIET} -{QUIET} {0} {0}", self.whole())
    }
}

/// The first column and the length of every black run of a row.
fn runs(squares: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for column in (0..squares.len()).filter(|column| squares[*column]) {
        match runs.last_mut() {
            Some((from, length)) if *from + *length == column => *length += 1,
            _ => runs.push((column, 1)),
        }
    }
    runs
}
