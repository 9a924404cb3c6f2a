//! The sizes of paper a card is printed on.

use crate::base::choice::Choice;

/// White kept free on every side of a sheet, in millimetres: printers cannot reach the edge. Common practice, no source.
pub const MARGIN: f64 = 11.0;

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm. Source: ISO 216.
    #[default]
    A4,
    /// 8½ × 11 in. Source: ANSI/ASME Y14.1, size A.
    Letter,
}

impl Paper {
    /// Width and height, in millimetres.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// Width between the margins, in millimetres.
    pub(super) fn room(self) -> f64 {
        self.size().0 - 2.0 * MARGIN
    }

    /// Height between the margins, in millimetres.
    pub(super) fn height(self) -> f64 {
        self.size().1 - 2.0 * MARGIN
    }
}

impl Choice for Paper {
    const ALL: &'static [Self] = &[Self::A4, Self::Letter];

    fn key(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "US Letter",
        }
    }
}
