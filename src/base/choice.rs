//! A choice from a short list, with a word for files and words for people.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serializer};

/// One of a short list of named things.
pub trait Choice: Copy + PartialEq + 'static {
    /// Everything there is to choose from, in the order offered. The order is part of the link format: append only.
    const ALL: &'static [Self];

    /// The word in design files.
    fn key(self) -> &'static str;

    /// The words shown.
    fn name(self) -> &'static str;

    /// The choice of that key.
    fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|choice| choice.key() == key)
    }
}

/// Writes a choice as its key. With [`deserialize`] for `#[serde(with = "crate::base::choice")]`.
///
/// # Errors
/// Those of the serializer.
// Serde hands the field over by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
pub fn serialize<C: Choice, S: Serializer>(choice: &C, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(choice.key())
}

/// Reads a choice from its key.
///
/// # Errors
/// When the key is not one of the list's.
pub fn deserialize<'de, C: Choice, D: Deserializer<'de>>(deserializer: D) -> Result<C, D::Error> {
    let key = String::deserialize(deserializer)?;
    C::from_key(&key).ok_or_else(|| D::Error::custom(format!("“{key}” is not a choice known here")))
}
