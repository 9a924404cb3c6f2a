//! The look of the page: light, dark, or black on white for a bright workshop. A preference of the reader.
//!
//! A look is the attribute `data-look` of the document. `style/tokens.css` holds the colours of each look and answers the media
//! queries for `device`; where the device forces its own colours, drawings use system colours through the same tokens. A new
//! pairing of colours in a style sheet must be added to the lists of `tests/looks.rs`.

use crate::base::choice::Choice;

/// A look of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Look {
    /// What the device asks for: light or dark, and more contrast where it asks for that.
    #[default]
    Device,
    /// Dark on light.
    Light,
    /// Light on dark.
    Dark,
    /// Black on pure white with thick lines, for sun on the bench and tired eyes.
    Bright,
}

impl Choice for Look {
    const ALL: &'static [Self] = &[Self::Device, Self::Light, Self::Dark, Self::Bright];

    fn key(self) -> &'static str {
        match self {
            Self::Device => "device",
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Bright => "bright",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Device => "as device",
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Bright => "bright",
        }
    }
}
