//! A store that lasts as long as it is held: for looking into a copy of a store, and for examples.

use std::collections::BTreeMap;

use super::store::{Store, StoreError};

/// Texts under keys, in memory.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Memory(pub BTreeMap<String, String>);

impl Store for Memory {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self.0.get(key).cloned())
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        self.0.insert(key.to_owned(), text.to_owned());
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), StoreError> {
        self.0.remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        Ok(self.0.keys().cloned().collect())
    }
}
