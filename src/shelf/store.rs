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
        match self {
            Self::Absent => {
                write!(
                    out,
                    "This browser gives the page no storage. Save the line as a file before you leave."
                )
            }
            Self::Full => write!(
                out,
                "The browser's storage is full. Save the line as a file before you leave."
            ),
            Self::NotKept => {
                write!(
                    out,
                    "The browser did not keep what was saved. Save the line as a file before you leave."
                )
            }
        }
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

    /// Every key in use.
    ///
    /// # Errors
    /// [`StoreError`] when the store cannot be read.
    fn keys(&self) -> Result<Vec<String>, StoreError>;
}
