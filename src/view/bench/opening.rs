//! What lies on the bench when the page opens: a design and where it stands, from the address, the shelf, or the demo.

use crate::browser::address;
use crate::browser::storage::LocalStore;
use crate::choice::Choice;
use crate::design::{Design, demo};
use crate::share::link;
use crate::shelf::{Found, Kept, LineNumber, Shelf, Store, StoreError};
use crate::sketch::Sketch;
use crate::units::show::Units;

/// Key under which the reader's units are kept.
const UNITS_KEY: &str = "taperwright/units";

/// Where the design on the bench comes from, and so where it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Standing {
    /// The demo, or a design opened: kept as a new line at the first change.
    New,
    /// A line of the shelf: kept under its number at every change.
    Kept(LineNumber),
    /// The browser would not keep it; it lasts as long as the page.
    Unkept {
        /// Its number on the shelf, where it has one from before.
        number: Option<LineNumber>,
        /// Whether it was saved as a file since the last change.
        filed: bool,
    },
    /// Came by link: kept as a new line when the maker says so, or at the first change.
    Preview,
}

/// Something to tell the maker at the top of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Message {
    /// What happened, and what to do.
    pub(crate) text: String,
    /// A text found unreadable, so that it can be saved as a file.
    pub(crate) unreadable: Option<String>,
}

impl Message {
    /// A message of words alone.
    pub(crate) fn of(text: String) -> Self {
        Self {
            text,
            unreadable: None,
        }
    }
}

/// The lines kept in this browser.
pub(super) fn shelf() -> Shelf<LocalStore> {
    Shelf::new(LocalStore)
}

/// The bench books kept in this browser.
pub(crate) fn book_shelf() -> Shelf<LocalStore> {
    shelf()
}

/// Lines in this browser, to choose from.
pub(crate) fn kept_lines() -> Vec<Kept> {
    shelf().kept()
}

/// The design of a line in this browser; `None` where there is no such line, or it cannot be read.
pub(crate) fn kept_line(number: LineNumber) -> Option<Design> {
    match shelf().line(number) {
        Found::Line(_, design) => Some(*design),
        Found::Nothing | Found::NoStorage(_) | Found::Unreadable { .. } => None,
    }
}

/// What is laid out, where it stands, and what there is to say of it.
pub(super) type Opening = (Sketch, Standing, Option<Message>);

/// What the page opens with: what the address brings, else the line last open, else the demo.
pub(super) fn opening() -> Opening {
    from_address().unwrap_or_else(from_shelf)
}

/// What the address brings: a preview, or why it cannot be shown, above one's own line.
pub(super) fn from_address() -> Option<Opening> {
    Some(match link::decode(&address::fragment())? {
        Ok(design) => (Sketch::new(design), Standing::Preview, None),
        Err(error) => {
            let (sketch, standing, _) = from_shelf();
            (sketch, standing, Some(Message::of(error.to_string())))
        }
    })
}

/// The line last open, or the demo.
pub(super) fn from_shelf() -> Opening {
    laid_out(shelf().found())
}

/// What lies on the bench when the shelf has given this.
pub(super) fn laid_out(found: Found) -> Opening {
    match found {
        Found::Nothing => (Sketch::new(demo::demo()), Standing::New, None),
        Found::Line(number, design) => (
            shelf().sketch(number, *design),
            Standing::Kept(number),
            None,
        ),
        Found::NoStorage(error) => (
            Sketch::new(demo::demo()),
            Standing::New,
            Some(Message::of(error.to_string())),
        ),
        Found::Unreadable { text, why, .. } => {
            let said = format!(
                "Your kept line cannot be read: {why} It stays untouched; the demo is shown instead."
            );
            (
                Sketch::new(demo::demo()),
                Standing::New,
                Some(Message {
                    text: said,
                    unreadable: Some(text),
                }),
            )
        }
    }
}

/// Keeps the units the reader wants.
pub(super) fn keep_units(units: Units) -> Result<(), StoreError> {
    LocalStore.set(UNITS_KEY, units.key())
}

/// The units kept at an earlier visit.
pub(super) fn kept_units() -> Units {
    LocalStore
        .get(UNITS_KEY)
        .ok()
        .flatten()
        .and_then(|key| Units::from_key(&key))
        .unwrap_or_default()
}
