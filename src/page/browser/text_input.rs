//! Text fields, and what is typed in one when the page is hidden.

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

/// Whether an event of this kind means that the page is hidden.
pub(crate) fn is_hidden_by(kind: &str) -> bool {
    kind == "pagehide" || document().hidden()
}

/// Makes the focused field take what is typed in it, as if the focus had left it.
pub(crate) fn commit_focused() {
    let field = document().active_element();
    let field = field.filter(|field| field.matches(TYPED_IN).unwrap_or(false));
    if let (Some(field), Ok(event)) = (field, Event::new("change")) {
        // Its listener prevents nothing.
        let _ = field.dispatch_event(&event);
    }
}
