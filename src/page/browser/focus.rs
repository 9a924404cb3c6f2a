//! The keyboard focus.

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The first element of a selector.
pub(crate) fn find(selector: &str) -> Option<HtmlElement> {
    let found = document().query_selector(selector).ok().flatten();
    found.and_then(|element| element.dyn_into().ok())
}

/// Moves the focus to an element.
pub(crate) fn focus(element: &HtmlElement) {
    // A browser that refuses leaves it where it was.
    let _ = element.focus();
}

/// Moves the focus to the first of these selectors that finds something.
pub(crate) fn focus_first<S: AsRef<str>>(selectors: &[S]) {
    if let Some(found) = selectors
        .iter()
        .find_map(|selector| find(selector.as_ref()))
    {
        focus(&found);
    }
}
