//! The browser's local storage, as a store for the shelf.

use leptos::prelude::window;
use web_sys::Storage;

use crate::shelf::{Store, StoreError};

/// Local storage of this page's origin.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct LocalStore;

fn storage() -> Result<Storage, StoreError> {
    window()
        .local_storage()
        .ok()
        .flatten()
        .ok_or(StoreError::Absent)
}

impl Store for LocalStore {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        storage()?.get_item(key).map_err(|_| StoreError::Absent)
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        // The one thing a browser that has storage refuses is more than its quota.
        storage()?.set_item(key, text).map_err(|_| StoreError::Full)
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        let storage = storage()?;
        let count = storage.length().map_err(|_| StoreError::Absent)?;
        Ok((0..count)
            .filter_map(|index| storage.key(index).ok().flatten())
            .collect())
    }
}
