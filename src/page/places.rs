//! The six places of the page, in the order of the work. Each has an address: the page's own with `#` and the key of the place.

use crate::base::choice::Choice;

/// A place of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Place {
    /// The taper is drawn.
    #[default]
    Draw,
    /// Where threads are added and dropped and gears are changed.
    Threads,
    /// Bobbins are plied and wound.
    Wind,
    /// The line is braided, one step at a time.
    Braid,
    /// The braided line is oiled, dried and varnished.
    Dress,
    /// What was made is weighed, and the plan learns from it.
    Weigh,
}

impl Choice for Place {
    const ALL: &'static [Self] = &[
        Self::Draw,
        Self::Threads,
        Self::Wind,
        Self::Braid,
        Self::Dress,
        Self::Weigh,
    ];

    fn key(self) -> &'static str {
        match self {
            Self::Draw => "draw",
            Self::Threads => "threads",
            Self::Wind => "wind",
            Self::Braid => "braid",
            Self::Dress => "dress",
            Self::Weigh => "weigh",
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Draw => "Draw",
            Self::Threads => "Threads",
            Self::Wind => "Wind",
            Self::Braid => "Braid",
            Self::Dress => "Dress",
            Self::Weigh => "Weigh",
        }
    }
}

/// An entry of the browser's history: a place, with or without a sheet over it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The place.
    pub place: Place,
    /// Whether a sheet was open over it.
    pub has_sheet: bool,
}

/// After the key of a place in the text of an entry with a sheet.
const WITH_SHEET: &str = " sheet";

impl Entry {
    /// A place without a sheet.
    pub const fn of(place: Place) -> Self {
        Self {
            place,
            has_sheet: false,
        }
    }

    /// The text the browser's history keeps of it.
    pub fn text(self) -> String {
        let sheet = if self.has_sheet { WITH_SHEET } else { "" };
        format!("{}{sheet}", self.place.key())
    }

    /// The entry of such a text.
    pub fn from_text(text: &str) -> Option<Self> {
        let key = text.strip_suffix(WITH_SHEET);
        Some(Self {
            place: Place::from_key(key.unwrap_or(text))?,
            has_sheet: key.is_some(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_is_read_from_its_own_text() {
        for &place in Place::ALL {
            for has_sheet in [false, true] {
                let entry = Entry { place, has_sheet };
                assert_eq!(Entry::from_text(&entry.text()), Some(entry));
            }
        }
        assert_eq!(Entry::from_text("line=abc"), None);
        assert_eq!(Entry::from_text(""), None);
    }
}
