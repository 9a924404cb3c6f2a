//! The lines kept in this browser.
//!
//! Each line has a number and a key of its own, holding its design file; one more key says which is open. Nothing is
//! ever written over a text that could not be read: such a line keeps its key, and work goes on under a new number.
//! Workshops with their bench books are kept in the same manner.

mod numbered;
mod store;
mod workshops;

use crate::design::Design;
use crate::share::{file, steps};
use crate::sketch::Sketch;

pub use store::{Store, StoreError};
pub use workshops::{FoundWorkshop, KeptWorkshop, WORKSHOP_KEY, WorkshopNumber};

use numbered::Numbered;

/// Keys of lines: this, then the number.
pub const LINE_KEY: &str = "taperwright/line/";
/// Keys of the steps that can be undone on a line: this, then its number.
pub const STEPS_KEY: &str = "taperwright/steps/";
/// Key of the number of the open line.
pub const OPEN_KEY: &str = "taperwright/open";

/// The number of a kept line.
pub type LineNumber = u32;

/// Lines among the numbered texts.
const LINES: Numbered = Numbered {
    prefix: LINE_KEY,
    can_be_read: |text| file::read(text).is_ok(),
};

/// A line kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Its number.
    pub number: LineNumber,
    /// Its title; `None` when its text cannot be read.
    pub title: Option<String>,
}

/// What was found when the page opened.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// Nothing yet: a first visit.
    Nothing,
    /// The line last open.
    Line(LineNumber, Box<Design>),
    /// A text is there but cannot be read; it stays as it is.
    Unreadable {
        /// Its number.
        number: LineNumber,
        /// The text, so that it can be saved as a file.
        text: String,
        /// Why it cannot be read.
        why: String,
    },
    /// The browser gives no storage.
    NoStorage(StoreError),
}

/// The shelf: a store and the rules for using it.
#[derive(Clone, Debug)]
pub struct Shelf<S> {
    store: S,
}

impl<S: Store> Shelf<S> {
    /// A shelf on this store.
    pub fn new(store: S) -> Self {
        Self { store }
    }

    /// The line to open with.
    pub fn found(&self) -> Found {
        match self.open_text() {
            Err(error) => Found::NoStorage(error),
            Ok(None) => Found::Nothing,
            Ok(Some((number, text))) => Self::understood(number, text),
        }
    }

    /// The line of a number.
    pub fn line(&self, number: LineNumber) -> Found {
        match self.store.get(&LINES.key(number)) {
            Err(error) => Found::NoStorage(error),
            Ok(None) => Found::Nothing,
            Ok(Some(text)) => Self::understood(number, text),
        }
    }

    /// Every line kept, by number.
    pub fn kept(&self) -> Vec<Kept> {
        let title = |number| match self.line(number) {
            Found::Line(_, design) => Some(design.title().to_owned()),
            _ => None,
        };
        self.numbers(&LINES)
            .unwrap_or_default()
            .into_iter()
            .map(|number| Kept {
                number,
                title: title(number),
            })
            .collect()
    }

    /// Keeps a design under its number, or under a new one, and remembers it as open. Gives the number it is kept under:
    /// a new one also where the text under the number wished for cannot be read, since that text must stay.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses, or when what was written does not read back.
    pub fn keep(
        &mut self,
        number: Option<LineNumber>,
        design: &Design,
    ) -> Result<LineNumber, StoreError> {
        let number = self.put(&LINES, number, &file::write(design))?;
        self.store.set(OPEN_KEY, &number.to_string())?;
        Ok(number)
    }

    /// Remembers a line as the one to open with.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn open(&mut self, number: LineNumber) -> Result<(), StoreError> {
        self.store.set(OPEN_KEY, &number.to_string())
    }

    /// A kept line with its steps to undo and redo.
    pub fn sketch(&self, number: LineNumber, design: Design) -> Sketch {
        let text = self.store.get(&steps_key(number)).ok().flatten();
        steps::read(&text.unwrap_or_default(), design)
    }

    /// Keeps the steps of a line just kept. They name the design they belong to, so that steps and line, two keys, are
    /// never taken for one: where either was written without the other, there is nothing to undo.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn keep_steps(&mut self, number: LineNumber, sketch: &Sketch) -> Result<(), StoreError> {
        self.set(&steps_key(number), &steps::write(sketch))
    }

    /// The text of the open line; where the note of which is open is missing or wrong, that of the newest.
    fn open_text(&self) -> Result<Option<(LineNumber, String)>, StoreError> {
        let noted = self
            .store
            .get(OPEN_KEY)?
            .and_then(|number| number.parse().ok());
        let numbers = self.numbers(&LINES)?;
        let number = noted
            .filter(|number| numbers.contains(number))
            .or(numbers.last().copied());
        let Some(number) = number else {
            return Ok(None);
        };
        Ok(self
            .store
            .get(&LINES.key(number))?
            .map(|text| (number, text)))
    }

    fn understood(number: LineNumber, text: String) -> Found {
        match file::read(&text) {
            Ok(design) => Found::Line(number, Box::new(design)),
            Err(error) => Found::Unreadable {
                number,
                text,
                why: error.to_string(),
            },
        }
    }
}

fn steps_key(number: LineNumber) -> String {
    format!("{STEPS_KEY}{number}")
}
