//! The lines kept in this browser.
//!
//! Each line has a number and a key of its own, holding its design file; one more key says which is open. Nothing is
//! ever written over a text that could not be read: such a line keeps its key, and work goes on under a new number.

mod store;

use crate::design::Design;
use crate::share::{file, steps};
use crate::sketch::Sketch;

pub use store::{Store, StoreError};

/// Keys of lines: this, then the number.
pub const LINE_KEY: &str = "taperwright/line/";
/// Keys of the steps that can be undone on a line: this, then its number.
pub const STEPS_KEY: &str = "taperwright/steps/";
/// Key of the number of the open line.
pub const OPEN_KEY: &str = "taperwright/open";

/// The number of a kept line.
pub type LineNumber = u32;

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
        match self.store.get(&key(number)) {
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
        self.numbers()
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
        let number = match number {
            Some(number) if self.may_be_replaced(number)? => number,
            _ => self.free_number()?,
        };
        let text = file::write(design);
        self.set(&key(number), &text)?;
        if self.store.get(&key(number))?.as_deref() != Some(&text) {
            return Err(StoreError::NotKept);
        }
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

    /// Puts a text under a key. Where there is no room, all steps are let go for it: they are a convenience.
    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        match self.store.set(key, text) {
            Err(StoreError::Full) => {
                for steps in self.store.keys()? {
                    if steps.starts_with(STEPS_KEY) {
                        self.store.set(&steps, "")?;
                    }
                }
                self.store.set(key, text)
            }
            done => done,
        }
    }

    /// The text of the open line; where the note of which is open is missing or wrong, that of the newest.
    fn open_text(&self) -> Result<Option<(LineNumber, String)>, StoreError> {
        let noted = self
            .store
            .get(OPEN_KEY)?
            .and_then(|number| number.parse().ok());
        let numbers = self.numbers()?;
        let number = noted
            .filter(|number| numbers.contains(number))
            .or(numbers.last().copied());
        let Some(number) = number else {
            return Ok(None);
        };
        Ok(self.store.get(&key(number))?.map(|text| (number, text)))
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

    /// Whether nothing stands under a number, or a line that can be read.
    fn may_be_replaced(&self, number: LineNumber) -> Result<bool, StoreError> {
        let text = self.store.get(&key(number))?;
        Ok(text.is_none_or(|text| file::read(&text).is_ok()))
    }

    /// The number after the highest in use; the lowest gap when there is none after it.
    fn free_number(&self) -> Result<LineNumber, StoreError> {
        let numbers = self.numbers()?;
        let next = numbers.last().map_or(Some(1), |last| last.checked_add(1));
        let gap = || (1..LineNumber::MAX).find(|number| numbers.binary_search(number).is_err());
        next.or_else(gap).ok_or(StoreError::Full)
    }

    /// The numbers in use, ascending. A key that only looks like one of ours (`+7`, `07`) is somebody else's.
    fn numbers(&self) -> Result<Vec<LineNumber>, StoreError> {
        let number_of = |text: &String| {
            let number = text.strip_prefix(LINE_KEY)?.parse().ok()?;
            (*text == key(number)).then_some(number)
        };
        let mut numbers: Vec<_> = self.store.keys()?.iter().filter_map(number_of).collect();
        numbers.sort_unstable();
        Ok(numbers)
    }
}

fn steps_key(number: LineNumber) -> String {
    format!("{STEPS_KEY}{number}")
}

fn key(number: LineNumber) -> String {
    format!("{LINE_KEY}{number}")
}
