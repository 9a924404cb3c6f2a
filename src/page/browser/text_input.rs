//! What is being typed when the page goes out of sight.

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, EventTarget};

/// Fields in which text is typed.
const TYPED_IN: &str = "input[type=text], textarea";

/// Whether something is a field in which text is typed.
pub(crate) fn is_typed_in(target: &EventTarget) -> bool {
    let element = target.dyn_ref::<Element>();
    element.is_some_and(|element| element.matches(TYPED_IN).unwrap_or(false))
}

/// Whether the page is out of sight now that an event of this kind came.
pub(crate) fn is_out_of_sight(kind: &str) -> bool {
    kind == "pagehide" || document().hidden()
}

/// Lets the field that has the keyboard take what is typed in it, as if it were left.
pub(crate) fn enter() {
    let field = document().active_element();
    let field = field.filter(|field| field.matches(TYPED_IN).unwrap_or(false));
    if let (Some(field), Ok(event)) = (field, Event::new("change")) {
        // Its listener prevents nothing.
        let _ = field.dispatch_event(&event);
    }
}
