//! The clipboard.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

/// Copies a text; `false` when the browser refuses (no permission, or the page is not in front).
pub(crate) async fn copy(text: &str) -> bool {
    JsFuture::from(window().navigator().clipboard().write_text(text))
        .await
        .is_ok()
}
