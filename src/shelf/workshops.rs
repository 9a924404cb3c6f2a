//! Workshops on the shelf, each with its bench book, under a number of its own.

use super::numbered::Numbered;
use super::{Shelf, Store, StoreError};
use crate::book::Workshop;
use crate::book::file;

/// Keys of workshops: this, then the number.
pub const WORKSHOP_KEY: &str = "taperwright/workshop/";

/// Workshops among the numbered texts.
const WORKSHOPS: Numbered = Numbered {
    prefix: WORKSHOP_KEY,
    can_be_read: |text| file::read(text).is_ok(),
};

/// The number of a kept workshop.
pub type WorkshopNumber = u32;

/// A workshop kept.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptWorkshop {
    /// Its number.
    pub number: WorkshopNumber,
    /// Its name as it was given, which designs know it by; `None` when its text cannot be read.
    pub name: Option<String>,
}

/// What was found under a workshop's number.
#[derive(Clone, Debug, PartialEq)]
pub enum FoundWorkshop {
    /// Nothing.
    Nothing,
    /// The workshop.
    Workshop(Box<Workshop>),
    /// A text is there but cannot be read; it stays as it is.
    Unreadable {
        /// The text, so that it can be saved as a file.
        text: String,
        /// Why it cannot be read.
        why: String,
    },
    /// The browser gives no storage.
    NoStorage(StoreError),
}

impl<S: Store> Shelf<S> {
    /// The workshop of a number.
    pub fn workshop(&self, number: WorkshopNumber) -> FoundWorkshop {
        match self.store.get(&WORKSHOPS.key(number)) {
            Err(error) => FoundWorkshop::NoStorage(error),
            Ok(None) => FoundWorkshop::Nothing,
            Ok(Some(text)) => match file::read(&text) {
                Ok(workshop) => FoundWorkshop::Workshop(Box::new(workshop)),
                Err(error) => FoundWorkshop::Unreadable {
                    text,
                    why: error.to_string(),
                },
            },
        }
    }

    /// Every workshop kept, by number.
    pub fn workshops(&self) -> Vec<KeptWorkshop> {
        let name = |number| match self.workshop(number) {
            FoundWorkshop::Workshop(workshop) => Some(workshop.name),
            _ => None,
        };
        let numbers = self.numbers(&WORKSHOPS).unwrap_or_default();
        numbers
            .into_iter()
            .map(|number| KeptWorkshop {
                number,
                name: name(number),
            })
            .collect()
    }

    /// Keeps a workshop under its number, or under a new one. Gives the number it is kept under: a new one also where the
    /// text under the number wished for cannot be read, since that text must stay.
    ///
    /// # Errors
    /// [`StoreError`] when the browser refuses, or when what was written does not read back: also where the workshop would
    /// not have been [`Workshop::admitted`].
    pub fn keep_workshop(
        &mut self,
        number: Option<WorkshopNumber>,
        workshop: &Workshop,
    ) -> Result<WorkshopNumber, StoreError> {
        let text = file::write(workshop);
        if file::read(&text).is_err() {
            return Err(StoreError::NotKept);
        }
        self.put(&WORKSHOPS, number, &text)
    }
}
