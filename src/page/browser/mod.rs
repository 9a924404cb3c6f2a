//! Thin wrappers of the web platform: each does one thing, and says in words when the browser will not.

pub(crate) mod address;
pub(crate) mod clipboard;
pub(crate) mod clock;
pub(crate) mod drops;
pub(crate) mod entering;
pub(crate) mod files;
pub(crate) mod lasting;
mod observing;
pub(crate) mod passing;
pub(crate) mod rescue;
pub(crate) mod second_copy;
pub(crate) mod sight;
pub(crate) mod size;
pub(crate) mod storage;
pub(crate) mod updates;
pub(crate) mod wake;
