//! What the tag of a finished line is printed on.

use crate::base::choice::Choice;

/// The tag alone, or with the note on care.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TagPaper {
    /// The tag alone, to be cut out of a sheet.
    #[default]
    Tag,
    /// The tag with the note on care, on 105 × 148 mm. Source: ISO 216, A6.
    WithCare,
}

impl Choice for TagPaper {
    const ALL: &'static [Self] = &[Self::Tag, Self::WithCare];

    fn key(self) -> &'static str {
        match self {
            Self::Tag => "tag",
            Self::WithCare => "care",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Tag => "Tag on A4",
            Self::WithCare => "Tag and care, A6",
        }
    }
}
