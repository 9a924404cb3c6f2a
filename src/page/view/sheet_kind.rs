//! The sheets that slide over a place, of which one at a time can be open.

/// A sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SheetKind {
    /// The class, what to see to, and all figures.
    Figures,
    /// Everything saved in this browser.
    Lines,
    /// A line measured with a micrometer.
    Measured,
    /// A braid measured from a photo.
    Photo,
    /// A new line.
    NewLine,
    /// The link of the line.
    Share,
    /// The card for the machine.
    Card,
    /// Yarn, machine, take-off, dressing.
    Workshop,
    /// What a new maker is asked first.
    Questions,
    /// The drawing in numbers.
    Numbers,
    /// Another line to compare with.
    Compare,
    /// How the line turns over in the air.
    Turnover,
    /// Thread plans found, and a class to reach.
    Plans,
    /// The dressing plan on paper.
    Dressing,
    /// The tag of the finished line of this index in the book.
    Tag(usize),
    /// Words of the trade.
    Words,
    /// Cautions, and what is calculated.
    Cautions,
}

impl SheetKind {
    /// The key of the button that opens it.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Figures => "all-figures",
            Self::Lines => "my-lines",
            Self::Measured => "measured-sheet",
            Self::Photo => "photo-sheet",
            Self::NewLine => "new-line",
            Self::Share => "share",
            Self::Card => "card",
            Self::Workshop => "workshop-sheet",
            Self::Questions => "questions",
            Self::Numbers => "numbers",
            Self::Compare => "compare",
            Self::Turnover => "turnover",
            Self::Plans => "plans",
            Self::Dressing => "dressing-sheet",
            Self::Tag(_) => "tag",
            Self::Words => "words",
            Self::Cautions => "cautions",
        }
    }

    /// What stands above it.
    pub(crate) const fn title(self) -> &'static str {
        match self {
            Self::Figures => "Class and figures",
            Self::Lines => "My lines",
            Self::Measured => "Copy a line you own",
            Self::Photo => "Measure from a photo",
            Self::NewLine => "New line",
            Self::Share => "Share this line",
            Self::Card => "Card",
            Self::Workshop => "Workshop",
            Self::Questions => "Your workshop in a few questions",
            Self::Numbers => "The drawing in numbers",
            Self::Compare => "Compare with another line",
            Self::Turnover => "How it turns over",
            Self::Plans => "Find a better plan",
            Self::Dressing => "Dressing plan",
            Self::Tag(_) => "Tag of the line",
            Self::Words => "Words of the trade",
            Self::Cautions => "Safety, and what is calculated",
        }
    }

    /// Whether two are the same sheet, whatever it shows.
    pub(crate) fn is_like(self, other: Option<Self>) -> bool {
        other.is_some_and(|other| other.key() == self.key())
    }

    /// Whether a change of the line, or its undoing, is seen on it.
    pub(crate) const fn shows_changes(self) -> bool {
        matches!(
            self,
            Self::Figures
                | Self::Workshop
                | Self::Questions
                | Self::Numbers
                | Self::Compare
                | Self::Turnover
                | Self::Plans
        )
    }

    /// Whether nothing on it can have the focus: the keyboard then scrolls the sheet itself.
    pub(super) const fn is_only_read(self) -> bool {
        matches!(self, Self::Dressing | Self::Cautions)
    }

    /// The key of its print button; `None` where nothing is printed.
    pub(super) const fn print_key(self) -> Option<&'static str> {
        match self {
            Self::Card => Some("print"),
            Self::Dressing => Some("print-dressing"),
            Self::Tag(_) => Some("print-tag"),
            _ => None,
        }
    }
}
