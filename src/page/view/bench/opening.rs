//! What the page opens with: a design and where it is stored, from the address, the shelf, or the demo.

use crate::design::{Design, demo};
use crate::edit::sketch::Sketch;
use crate::keep::share::link;
use crate::keep::shelf::{
    Document, Kept, LineNumber, Lookup, SeenRevision, Shelf, ShelfEntry, StoreError,
};
use crate::page::browser::storage::{LocalStore, writer};
use crate::page::browser::{address, second_copy};
use crate::plan::wound::Wound;

/// Where the design on the bench comes from, and so where it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum StorageState {
    /// The demo, or a design opened: kept as a new line at the first change.
    New,
    /// A stored line: stored under its number at every change.
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

impl StorageState {
    /// The same in words.
    pub(crate) const fn words(&self) -> &'static str {
        match self {
            Self::New => "Example, not saved yet",
            Self::Kept(_) => "Saved in this browser",
            Self::Unkept { .. } => "Not saved: save it as a file",
            Self::Preview => "From a link, not saved yet",
        }
    }
}

/// A message at the top of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Message {
    /// What happened, and what to do.
    pub(crate) text: String,
    /// A text found unreadable, so that it can be saved as a file.
    pub(crate) unreadable: Option<String>,
    /// Whether it says that something is stored nowhere: then it offers to save everything, and disappears once that is stored.
    pub(crate) is_unkept: bool,
}

impl Message {
    /// A message of words alone.
    pub(crate) fn of(text: String) -> Self {
        Self {
            text,
            unreadable: None,
            is_unkept: false,
        }
    }

    /// A message that something is kept nowhere.
    pub(super) fn of_unkept(text: String) -> Self {
        Self {
            is_unkept: true,
            ..Self::of(text)
        }
    }

    fn of_unreadable(text: String, unreadable: String) -> Self {
        Self {
            unreadable: Some(unreadable),
            ..Self::of(text)
        }
    }
}

/// The lines and workshops kept in this browser.
pub(crate) fn shelf() -> Result<Shelf<LocalStore>, StoreError> {
    Shelf::load(LocalStore, writer())
}

/// What is under a number.
pub(crate) fn look(number: LineNumber) -> Lookup<Design> {
    shelf().map_or_else(Lookup::NoStorage, |shelf| shelf.look(number))
}

/// Separates what two tabs wrote under one number at the same moment, if they did.
pub(crate) fn settle<T: Document>(number: u32) {
    // What could not be separated stays as it is, and is tried again when it is next opened.
    let _ = shelf().and_then(|mut shelf| shelf.settle::<T>(number));
}

/// The same for every number there is.
pub(crate) fn settle_all<T: Document>(entries: &[ShelfEntry]) {
    let tangled = entries.iter().filter(|entry| entry.is_tangled);
    tangled.for_each(|entry| settle::<T>(entry.number));
}

/// Notes which line to open with at the next visit. A hint: where it cannot be noted, another line opens.
pub(super) fn note_open(number: LineNumber) {
    let _ = shelf().and_then(|mut shelf| shelf.open(number));
}

/// A line for the bench, where it is stored, and a message about it.
pub(super) struct Opening {
    pub(super) sketch: Sketch,
    pub(super) storage_state: StorageState,
    /// Which state of a kept line it is.
    pub(super) seen: Option<SeenRevision>,
    pub(super) message: Option<Message>,
}

impl Opening {
    /// A design that is not kept.
    pub(super) fn of(
        design: Design,
        storage_state: StorageState,
        message: Option<Message>,
    ) -> Self {
        Self {
            sketch: Sketch::new(design),
            storage_state,
            seen: None,
            message,
        }
    }

    /// A kept line with its steps.
    pub(super) fn kept(kept: Kept<Design>, message: Option<Message>) -> Self {
        let number = kept.seen.number();
        let sketch = match shelf() {
            Ok(shelf) => shelf.sketch(number, kept.work),
            Err(_) => Sketch::new(kept.work),
        };
        Self {
            sketch,
            storage_state: StorageState::Kept(number),
            seen: Some(kept.seen),
            message,
        }
    }
}

/// What the page opens with: what the address brings, else the line last open, else the demo. That nothing can be kept is
/// said at once.
pub(super) fn opening() -> Opening {
    let mut opening = from_address().unwrap_or_else(from_shelf);
    if let Err(why) = shelf() {
        opening.message.get_or_insert_with(|| without_storage(why));
    }
    if second_copy::is_healed() {
        let healed = "Work saved in this browser was damaged. It has been restored whole from a second copy.";
        opening
            .message
            .get_or_insert_with(|| Message::of(healed.to_owned()));
    }
    opening
}

fn without_storage(why: StoreError) -> Message {
    Message::of_unkept(format!(
        "{why} Perhaps this is a private window, or a setting forbids it. You can work here, but nothing is saved. Save your work as a file before you leave."
    ))
}

/// The line in the address, as a preview; or the last open line, with why the address cannot be shown.
pub(super) fn from_address() -> Option<Opening> {
    Some(match link::decode(&address::fragment())? {
        Ok(design) => Opening::of(design, StorageState::Preview, None),
        Err(error) => Opening {
            message: Some(Message::of(error.to_string())),
            ..from_shelf()
        },
    })
}

/// The line last open, or the demo.
pub(super) fn from_shelf() -> Opening {
    let to_open = || shelf().map_or_else(Lookup::NoStorage, |shelf| shelf.to_open());
    if let Lookup::Kept(kept) = to_open() {
        settle::<Design>(kept.seen.number());
    }
    opening_of(to_open())
}

/// The opening for what was found on the shelf.
pub(super) fn opening_of(found: Lookup<Design>) -> Opening {
    let demo = |message| Opening::of(demo::demo(), StorageState::New, message);
    match found {
        Lookup::Nothing => demo(None),
        Lookup::Kept(kept) => Opening::kept(*kept, None),
        Lookup::NoStorage(why) => {
            let storage_state = StorageState::Unkept {
                number: None,
                filed: true,
            };
            Opening::of(demo::demo(), storage_state, Some(without_storage(why)))
        }
        Lookup::Unreadable { text, why, .. } => demo(Some(Message::of_unreadable(
            format!(
                "Your saved line cannot be read: {why} It is not changed. The demo is shown instead."
            ),
            text,
        ))),
        Lookup::Newer { work, text, .. } => newer(work, text),
    }
}

/// A line kept by a newer version: shown where it can be, and never written.
fn newer(work: Option<Box<Design>>, text: String) -> Opening {
    let shown = if work.is_some() {
        "You can look at it here. A change makes a line of its own."
    } else {
        "This version cannot show it. The demo is shown instead."
    };
    let text_of_it = format!(
        "A newer version of this page saved this line. It is not changed. {shown} Reload the page to get the newest version."
    );
    let message = Some(Message::of_unreadable(text_of_it, text));
    let design = work.map_or_else(demo::demo, |work| *work);
    Opening::of(design, StorageState::New, message)
}

/// Which bobbins of a line are wound, as far as that is kept.
pub(super) fn kept_wound(seen: Option<&SeenRevision>) -> Wound {
    let wound = seen.and_then(|seen| Some(shelf().ok()?.wound(seen.number(), seen.id())));
    wound.unwrap_or_default()
}
