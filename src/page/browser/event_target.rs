//! What an event happens in.

use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// The element an event happens in; `None` where it is the window or the document.
pub(crate) fn element(event: &Event) -> Option<Element> {
    event.target()?.dyn_into().ok()
}
