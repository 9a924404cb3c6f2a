//! The browser's local storage, as a store for the shelf. Every state written is also written to the second copy.

use std::sync::OnceLock;

use js_sys::Math;

use super::local_storage::{self, local};
use super::{rescue, second_copy};
use crate::keep::shelf::{Id, Store, StoreError, Writer};

/// Local storage of this page's origin.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct LocalStore;

/// A crashed program writes nothing.
fn ready() -> Result<(), StoreError> {
    if rescue::is_broken() {
        return Err(StoreError::NotKept);
    }
    Ok(())
}

impl Store for LocalStore {
    fn get(&self, key: &str) -> Result<Option<String>, StoreError> {
        local()?.get_item(key).map_err(|_| StoreError::Absent)
    }

    fn set(&mut self, key: &str, text: &str) -> Result<(), StoreError> {
        ready()?;
        // A browser that has storage refuses only what exceeds its quota.
        local()?.set_item(key, text).map_err(|_| StoreError::Full)?;
        second_copy::put(key, text);
        Ok(())
    }

    fn remove(&mut self, key: &str) -> Result<(), StoreError> {
        ready()?;
        local()?.remove_item(key).map_err(|_| StoreError::Absent)?;
        second_copy::remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, StoreError> {
        local_storage::keys()
    }
}

/// A preference kept at an earlier visit.
pub(crate) fn preference(key: &str) -> Option<String> {
    LocalStore.get(key).ok().flatten()
}

/// Keeps something small for the next visit that nobody misses where the browser would not.
pub(crate) fn keep_hint(key: &str, value: &str) {
    let _ = LocalStore.set(key, value);
}

/// The identity of this page among the open tabs.
pub(crate) fn writer() -> Writer {
    static WRITER: OnceLock<u64> = OnceLock::new();
    Writer(*WRITER.get_or_init(chance))
}

/// A new identity for a line or workshop.
pub(crate) fn fresh_id() -> Id {
    Id(chance())
}

/// 64 random bits. They tell tabs and lines apart; they protect no secret.
// The product is a whole number below 2³².
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn chance() -> u64 {
    let half = || u64::from((Math::random() * 4_294_967_296.0) as u32);
    (half() << 32) | half()
}
