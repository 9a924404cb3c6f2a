//! The keyboard focus.

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement};

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

/// Whether the part that can be folded, and has just been, is open.
pub(crate) fn is_unfolded(toggled: &Event) -> bool {
    let part = toggled
        .target()
        .and_then(|part| part.dyn_into::<Element>().ok());
    part.is_some_and(|part| part.has_attribute("open"))
}

/// Moves the focus to an element that may stand in folded parts: they are unfolded.
pub(crate) fn reveal(element: &HtmlElement) {
    let mut folded = closest_folded(element);
    while let Some(part) = folded {
        // Refused for a bad name only.
        let _ = part.set_attribute("open", "");
        folded = closest_folded(&part);
    }
    element.scroll_into_view();
    focus(element);
}

fn closest_folded(element: &Element) -> Option<Element> {
    element.closest("details:not([open])").ok().flatten()
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
