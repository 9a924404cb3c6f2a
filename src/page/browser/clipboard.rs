//! The clipboard.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;
use web_sys::{ClipboardEvent, File};

/// Copies a text; `false` when the browser refuses (no permission, or the page is not in front).
pub(crate) async fn copy(text: &str) -> bool {
    JsFuture::from(window().navigator().clipboard().write_text(text))
        .await
        .is_ok()
}

/// The first file of what is pasted: a picture that was copied comes as one.
pub(crate) fn file(event: &ClipboardEvent) -> Option<File> {
    event.clipboard_data()?.files()?.get(0)
}
