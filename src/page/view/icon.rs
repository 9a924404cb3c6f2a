//! The icons: drawn for this page on a grid of 24, in lines of 1.9. Each stands beside its word, or on a button with an accessible
//! name; so a screen reader does not name it.

use leptos::prelude::*;

use crate::page::places::Place;

/// An icon.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Icon {
    /// A taper.
    Draw,
    /// Carriers on their ring.
    Threads,
    /// A wound bobbin.
    Wind,
    /// Two strands that cross.
    Braid,
    /// A drop of oil.
    Dress,
    /// A balance.
    Weigh,
    /// Passing on.
    Share,
    /// Printing.
    Print,
    /// More to choose from.
    More,
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// One more, or larger.
    Plus,
    /// One less, or smaller.
    Minus,
    /// Removing.
    Bin,
    /// Looking closer.
    ZoomIn,
    /// Seeing more.
    ZoomOut,
    /// All of it.
    Whole,
    /// Level parts drawn short.
    Fold,
    /// The middle of the line not drawn.
    Core,
    /// Opens downwards.
    Down,
    /// To the one before.
    Before,
    /// To the next one.
    Next,
    /// Done.
    Tick,
    /// Something to see to before braiding.
    Warning,
    /// Closes.
    Close,
    /// How points move.
    Rules,
    /// Insisted on.
    Pin,
    /// One for another.
    Swap,
    /// A gear.
    Gear,
    /// Speaking aloud.
    Speak,
    /// A machine that runs.
    Run,
    /// A machine that is stopped.
    Stop,
}

impl Icon {
    /// The icon of a place.
    pub(crate) const fn of(place: Place) -> Self {
        match place {
            Place::Draw => Self::Draw,
            Place::Threads => Self::Threads,
            Place::Wind => Self::Wind,
            Place::Braid => Self::Braid,
            Place::Dress => Self::Dress,
            Place::Weigh => Self::Weigh,
        }
    }

    /// Its lines, as the data of an SVG path.
    const fn path(self) -> &'static str {
        match self {
            Self::Draw => "M2.5 9.5L7 7.5H17L21.5 9.5V14.5L17 16.5H7L2.5 14.5ZM7 7.5v9M17 7.5v9",
            Self::Threads => {
                "M12 6.6a6.4 6.4 0 1 0 .01 0M12 4.2a2.3 2.3 0 1 0 .01 0M5.9 15.1a2.3 2.3 0 1 0 .01 0M18.1 15.1a2.3 2.3 0 1 0 .01 0"
            }
            Self::Wind => "M5 3.5h14M5 20.5h14M8 3.5v17M16 3.5v17M8 8h8M8 12h8M8 16h8",
            Self::Braid => {
                "M7.5 3C7.5 9 16.5 9 16.5 15v6M16.5 3C16.5 6 14.4 7.5 12.6 8.9M10 11C8.6 12.2 7.5 13.4 7.5 15v6"
            }
            Self::Dress => "M12 3C15 7.2 18 10.6 18 14.2A6 6 0 0 1 6 14.2C6 10.6 9 7.2 12 3Z",
            Self::Weigh => {
                "M12 3.5v17M7.5 20.5h9M5 7h14M5 7L2.5 13.5a2.6 2.6 0 0 0 5 0ZM19 7l-2.5 6.5a2.6 2.6 0 0 0 5 0Z"
            }
            Self::Share => "M12 15V3.5M7.5 8L12 3.5L16.5 8M5 12v8.5h14V12",
            Self::Print => "M7 8.5V3.5h10v5M7 17.5H3.5v-9h17v9H17M7 14h10v6.5H7Z",
            Self::More => "M4.5 12h1M11.5 12h1M18.5 12h1M5 11.5v1M12 11.5v1M19 11.5v1",
            Self::Undo => "M8 5L4 9.5L8 14M4.5 9.5H14a5.5 5.5 0 0 1 0 11H9.5",
            Self::Redo => "M16 5l4 4.5L16 14M19.5 9.5H10a5.5 5.5 0 0 0 0 11h4.5",
            Self::Plus => "M12 4.5v15M4.5 12h15",
            Self::Minus => "M4.5 12h15",
            Self::Bin => "M4 6.5h16M9.5 6.5V3.5h5v3M6 6.5L7 20.5h10l1-14M10.5 10.5v6M13.5 10.5v6",
            Self::ZoomIn => "M10.5 4a6.5 6.5 0 1 0 .01 0M15.5 15.5L20.5 20.5M10.5 7.5v6M7.5 10.5h6",
            Self::ZoomOut => "M10.5 4a6.5 6.5 0 1 0 .01 0M15.5 15.5L20.5 20.5M7.5 10.5h6",
            Self::Whole => "M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5",
            Self::Fold => {
                "M9.5 3.5L7.5 9L10.5 15L8.5 20.5M15.5 3.5L13.5 9L16.5 15L14.5 20.5M2.5 12H6M18.5 12h3"
            }
            Self::Core => {
                "M3 5.5h18M3 18.5h18M3 12h3M9 12h1.5M13.5 12h3M19.5 12H21M12 7.5v2M12 14.5v2"
            }
            Self::Down => "M6 9.5l6 6l6-6",
            Self::Before => "M14.5 5.5L8 12l6.5 6.5",
            Self::Next => "M9.5 5.5L16 12l-6.5 6.5",
            Self::Tick => "M4.5 12.5l5 5L19.5 7",
            Self::Speak => {
                "M4 9.5h4l5-4.5v14l-5-4.5H4ZM16 9a4.2 4.2 0 0 1 0 6M18.5 6.5a7.8 7.8 0 0 1 0 11"
            }
            Self::Run => "M7.5 4.5L19 12L7.5 19.5Z",
            Self::Stop => "M6 6h12v12H6Z",
            Self::Warning => "M12 3.5L22 20.5H2ZM12 10v5M12 17.8h.01",
            Self::Swap => "M4 8h15M15 4l4 4l-4 4M20 16H5M9 12l-4 4l4 4",
            Self::Gear => {
                "M12 8.5a3.5 3.5 0 1 0 .01 0M12 3v3M12 18v3M3 12h3M18 12h3M5.6 5.6l2.2 2.2M16.2 16.2l2.2 2.2M18.4 5.6l-2.2 2.2M7.8 16.2l-2.2 2.2"
            }
            Self::Pin => "M9 3.5h6M10 3.5v6L6.5 13.5h11L14 9.5v-6M12 13.5v7",
            Self::Rules => "M3 7h9M17 7h4M14.5 4.5v5M3 17h3M11 17h10M8.5 14.5v5",
            Self::Close => "M6 6l12 12M18 6L6 18",
        }
    }
}

/// An icon, drawn.
#[component]
pub(crate) fn Glyph(
    /// Which.
    icon: Icon,
) -> impl IntoView {
    view! { <svg class="glyph" viewBox="0 0 24 24" width="24" height="24" aria-hidden="true"><path d=icon.path() /></svg> }
}
