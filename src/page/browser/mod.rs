//! Thin wrappers of the web platform. Each does one thing, and reports when the browser refuses.

pub(crate) mod address;
pub(crate) mod chime;
pub(crate) mod clipboard;
pub(crate) mod clock;
pub(crate) mod drag_drop;
pub(crate) mod element_size;
pub(crate) mod event_target;
pub(crate) mod files;
pub(crate) mod focus;
mod local_storage;
mod observer;
pub(crate) mod persistence;
pub(in crate::page) mod photo_reader;
pub(crate) mod print;
pub(crate) mod rescue;
pub(crate) mod second_copy;
pub(crate) mod speech;
pub(crate) mod storage;
pub(crate) mod text_input;
pub(crate) mod updates;
pub(crate) mod voice;
pub(crate) mod wake_lock;
pub(crate) mod web_share;
pub(crate) mod written;
