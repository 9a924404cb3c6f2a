//! Text fields, and what is typed in one when the page is hidden.

use leptos::prelude::document;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event, EventTarget};

use super::event_target;

/// Fields in which text is typed.
const TYPED_IN: &str = "input[type=text]:not([readonly]), textarea:not([readonly])";
/// What acts when it is clicked.
const CLICKED: &str = "button, summary, a";
/// What acts as soon as a pointer goes down on it.
const GRABBED: &str = ".handle, .photo-handle";

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

/// From now on the focused field takes what is typed in it before anything that is pressed acts. A field usually does so when it
/// loses the focus, but pressing does not always take the focus away: some tablets leave it in the field, and a handle of the
/// chart acts before it moves.
pub(crate) fn commit_before_presses() {
    let listener = Closure::<dyn Fn(Event)>::new(|event: Event| {
        let acting = if event.type_() == "click" {
            CLICKED
        } else {
            GRABBED
        };
        if is_in(&event, acting) {
            commit_focused();
        }
    });
    for kind in ["click", "pointerdown"] {
        let function = listener.as_ref().unchecked_ref();
        // The document takes every listener.
        let _ = document().add_event_listener_with_callback_and_bool(kind, function, true);
    }
    listener.forget();
}

/// Whether an event happens in what a selector finds.
fn is_in(event: &Event, selector: &str) -> bool {
    let target = event_target::element(event);
    target.is_some_and(|target| target.closest(selector).ok().flatten().is_some())
}
