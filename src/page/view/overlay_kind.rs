//! The overlays of the page, of which one at a time can be open.

/// An overlay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum OverlayKind {
    /// The card for the machine.
    Card,
    /// The dressing plan on paper.
    Dressing,
    /// The bench book.
    Book,
    /// The steps at the machine.
    Machine,
    /// Everything kept in this browser.
    Lines,
    /// The tag of the finished line of this index in the book.
    Tag(usize),
}

impl OverlayKind {
    /// The key of the button that opens it.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Dressing => "dressing-sheet",
            Self::Book => "book",
            Self::Machine => "at-machine",
            Self::Lines => "my-lines",
            Self::Tag(_) => "tag",
        }
    }

    /// What is open once it is closed.
    pub(super) const fn under(self) -> Option<Self> {
        match self {
            Self::Card | Self::Dressing | Self::Book | Self::Machine | Self::Lines => None,
            Self::Tag(_) => Some(Self::Book),
        }
    }

    /// Whether two are the same overlay, whatever it shows.
    pub(crate) fn is_like(self, other: Option<Self>) -> bool {
        other.is_some_and(|other| other.key() == self.key())
    }

    /// The key of its print button; `None` where nothing is printed.
    pub(super) const fn print_key(self) -> Option<&'static str> {
        match self {
            Self::Card => Some("print"),
            Self::Dressing => Some("print-dressing"),
            Self::Book => Some("print-book"),
            Self::Tag(_) => Some("print-tag"),
            Self::Machine | Self::Lines => None,
        }
    }
}
