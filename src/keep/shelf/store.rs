//! What the shelf needs of a browser: texts under keys. Tests put stores of their own in its place.

use core::fmt;

use super::ids::Writer;
use super::prefixes::{LineNumber, OPEN_KEY};

/// Why the browser did not do what was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StoreError {
    /// There is no storage, or it is blocked.
    Absent,
    /// It is full.
    Full,
    /// It said yes, but the text does not read back.
    NotKept,
}

impl fmt::Display for StoreError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Absent => "This browser does not let the page save anything.",
            Self::Full => "The browser’s storage is full.",
            Self::NotKept => "The browser did not save the change.",
        })
    }
}

/// A line or a workshop that could not be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unkept {
    /// What it is: “line” or “workshop”.
    pub what: &'static str,
    /// Why.
    pub why: StoreError,
}

impl fmt::Display for Unkept {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { what, why } = self;
        write!(
            out,
            "{why} Save the {what} as a file before you leave. The version saved before is still there."
        )
    }
}

/// Texts under keys.
pub trait Store {
    /// The text under a key, if any.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    fn get(&self, key: &str) -> Result<Option<String>, StoreError>;

    /// Puts a text under a key.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be written.
    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError>;

    /// Takes a key and its text away, if it is there.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be written.
    fn remove(&mut self, key: &str) -> Result<(), StoreError>;

    /// Every key in use.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    fn keys(&self) -> Result<Vec<String>, StoreError>;
}

/// The shelf: a store that was loaded, and the rules for using it.
#[derive(Clone, Debug)]
pub struct Shelf<S> {
    pub(super) store: S,
    pub(super) writer: Writer,
}

impl<S: Store> Shelf<S> {
    /// The shelf on a store whose keys can be read. Nothing is written by it, and nothing can be written without it.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read: then there is nothing to write on either.
    pub fn load(store: S, writer: Writer) -> Result<Self, StoreError> {
        store.keys()?;
        Ok(Self { store, writer })
    }

    /// The store below.
    pub fn into_store(self) -> S {
        self.store
    }

    /// Remembers a line as the one to open with.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses.
    pub fn open(&mut self, number: LineNumber) -> Result<(), StoreError> {
        let note = number.to_string();
        if self.store.get(OPEN_KEY)?.as_deref() == Some(&note) {
            return Ok(());
        }
        self.store.set(OPEN_KEY, &note)
    }
}
