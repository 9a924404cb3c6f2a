//! What the shelf needs of a browser: texts under keys. Tests put stores of their own in its place.

use core::fmt;

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
            Self::Absent => "This browser gives the page no storage.",
            Self::Full => "The browser’s storage is full.",
            Self::NotKept => "The browser did not keep what was saved.",
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
            "{why} Save the {what} as a file before you leave; what was kept before is still there."
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
