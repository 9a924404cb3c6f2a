//! Local storage of this page's origin, as the browser has it.

use leptos::prelude::window;
use web_sys::Storage;

use crate::keep::shelf::StoreError;

/// The storage itself.
pub(super) fn local() -> Result<Storage, StoreError> {
    window()
        .local_storage()
        .ok()
        .flatten()
        .ok_or(StoreError::Absent)
}

/// All keys in it.
pub(super) fn keys() -> Result<Vec<String>, StoreError> {
    let storage = local()?;
    let count = storage.length().map_err(|_| StoreError::Absent)?;
    let key = |index| storage.key(index).ok().flatten();
    Ok((0..count).filter_map(key).collect())
}
