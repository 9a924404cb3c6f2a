//! The page's address: the fragment a shared design comes in.

use leptos::prelude::window;
use wasm_bindgen::JsValue;

/// The fragment, without its `#`; empty when there is none.
pub(crate) fn fragment() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.trim_start_matches('#').to_owned()
}

/// The page's address with another fragment.
pub(crate) fn with_fragment(fragment: &str) -> String {
    let href = window().location().href().unwrap_or_default();
    let page = href.split('#').next().unwrap_or_default();
    format!("{page}#{fragment}")
}

/// Takes the fragment out of the address bar, without leaving the page or a step to go back to.
pub(crate) fn forget_fragment() {
    let href = window().location().href().unwrap_or_default();
    let Some((page, _)) = href.split_once('#') else {
        return;
    };
    if let Ok(history) = window().history() {
        // A browser that refuses leaves the fragment standing, which does no harm: opening it again is a preview.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(page));
    }
}
