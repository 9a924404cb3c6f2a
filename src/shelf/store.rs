//! What the shelf needs of a browser: texts under keys. A store in memory stands in for it in tests, and on a page
//! whose browser gives none.

use core::fmt;
use std::collections::BTreeMap;

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

/// A store that lasts as long as the page.
#[derive(Clone, Debug, Default)]
pub struct Memory(BTreeMap<String, String>);

impl Store for Memory {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self.0.get(key).cloned())
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        self.0.insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        Ok(self.0.keys().cloned().collect())
    }
}
