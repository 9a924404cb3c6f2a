//! How the page is coloured: light, dark, or black on white for a bright workshop. A preference of the reader.
//!
//! The colours themselves stand in `style/tokens.css`, which takes a look from the attribute `data-look` of the document.

use crate::base::choice::Choice;

/// A look of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Look {
    /// Whatever the device asks for: light or dark, and more contrast where it wishes so.
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
